"""Viscosity of liquid and vapour, from libraries and textbooks only.

- CoolProp where it has a correlation of its own: R-134a, R-125, R-123, propane, isobutane, carbon
  dioxide, and Geller's of R-410A, R-404A, R-407C, R-507A (through the pseudo-pure fluids).
- R-22, R-32, R-1234yf: `thermo`'s fit at low pressure; the vapour's density term after Jossi,
  Stiel and Thodos (1962), zero at zero density.
- R-513A, R-454B, R-455A: mole-fraction mean of ln(mu) of the liquids at the same T/Tc; the vapours
  after Wilke (1950), each component with its own density term.
"""

import math

import CoolProp.CoolProp as CP
from CoolProp import AbstractState
from chemicals.viscosity import Wilke
from thermo import ViscosityGas, ViscosityLiquid

OWN = {"R134a", "R125", "R123", "n-Propane", "IsoButane", "CarbonDioxide"}
GELLER = {"R-410A": "R410A", "R-404A": "R404A", "R-407C": "R407C", "R-507A": "R507A"}


class Pure:
    def __init__(self, name):
        self.name, self.state = name, AbstractState("HEOS", name)
        s = self.state
        self.Tc, self.pc, self.M, self.rho_c = s.T_critical(), s.p_critical(), s.molar_mass(), s.rhomass_critical()
        self.is_own = name in OWN or name in GELLER.values()
        if not self.is_own:
            known = dict(CASRN=CP.get_fluid_param_string(name, "CAS"), MW=1e3 * self.M, Tc=self.Tc, Pc=self.pc)
            self.liquids = ViscosityLiquid(omega=s.acentric_factor(), **known)
            self.gases = ViscosityGas(**known)
            self.limits = [c.T_limits["REFPROP_FIT"] for c in (self.liquids, self.gases)]
        fit = 0.0 if self.is_own else self.limits[0][0]
        self.coldest = max(s.Tmin(), fit, s.Ttriple() if name not in GELLER.values() else 0.0) + 2.0
        self.hottest = 0.985 * self.Tc if self.is_own else min(0.985 * self.Tc, self.limits[0][1] - 2.0)

    def liquid(self, T):
        T = min(T, self.hottest)
        if T < self.coldest:  # ln(mu) straight in 1/T below the correlation
            a, b = math.log(self._liquid(self.coldest)), math.log(self._liquid(self.coldest + 5))
            x = (1 / T - 1 / self.coldest) / (1 / (self.coldest + 5) - 1 / self.coldest)
            return math.exp(a + x * (b - a))
        return self._liquid(T)

    def _liquid(self, T):
        if self.is_own:
            self.state.unspecify_phase()
            self.state.update(CP.QT_INPUTS, 0, T)
            return self.state.viscosity()
        return self.liquids.calculate(T, "REFPROP_FIT")

    def vapour(self, T, rho):
        if self.is_own:
            self.state.specify_phase(CP.iphase_gas)
            self.state.update(CP.DmassT_INPUTS, rho, T)
            return self.state.viscosity()
        low, high = self.limits[1]
        inside = min(max(T, low + 1.0), high - 1.0)
        # A dilute gas's viscosity goes nearly with T beyond the fit.
        return self.gases.calculate(inside, "REFPROP_FIT") * T / inside + self.dense(rho)

    def dense(self, rho):
        r = rho / self.rho_c
        poly = 0.1023 + 0.023364 * r + 0.058533 * r**2 - 0.040758 * r**3 + 0.0093324 * r**4
        xi = self.Tc ** (1 / 6) / (math.sqrt(1e3 * self.M) * (self.pc / 101325) ** (2 / 3))
        return 1e-3 * (poly**4 - 0.1023**4) / xi


class Viscosity:
    def __init__(self, name, parts, x):
        self.x, self.mixed = list(x), None
        if len(parts) == 1 or name in GELLER:
            self.only = Pure(GELLER.get(name, parts[0]))
        else:
            self.only, self.mixed = None, [Pure(part) for part in parts]
            self.Tc = sum(share * part.Tc for share, part in zip(x, self.mixed))

    def liquid(self, T):
        if self.only:
            return self.only.liquid(T)
        reduced = T / self.Tc
        return math.exp(sum(x * math.log(part.liquid(reduced * part.Tc)) for x, part in zip(self.x, self.mixed)))

    def vapour(self, T, rho):
        if self.only:
            return self.only.vapour(T, rho)
        each = [part.vapour(T, 1e-6) + part.dense(rho * part.rho_c / self._rho_c()) for part in self.mixed]
        return Wilke(self.x, each, [1e3 * part.M for part in self.mixed])

    def _rho_c(self):
        mass = sum(x * part.M for x, part in zip(self.x, self.mixed))
        return mass / sum(x * part.M / part.rho_c for x, part in zip(self.x, self.mixed))
