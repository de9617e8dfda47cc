"""Viscosity of liquid and vapour, pure and blended.

- Pure: the library's own correlation where it has a dedicated one; else the fit of the REFPROP
  equation in `thermo`, plus the Jossi-Stiel-Thodos density term for the vapour. Outside a fit's
  limits it is extrapolated (liquid: ln mu straight in 1/T), not evaluated.
- R-410A, R-404A, R-407C, R-507A: Geller's correlation (2000) through the library's pseudo-pure
  fluids; below their 200 K the liquid is extrapolated, ln mu straight in 1/T.
- Other blends, liquid: mole-fraction log mixing at equal T/Tc (Teja and Rice). Vapour:
  Herning-Zipperer dilute value plus the Jossi-Stiel-Thodos density term, with poly^4 - 0.1023^4
  (the textbook 1e-4 adds 5 %).

The library's own mixture viscosity is never used: it returns wrong numbers without raising.
"""

import CoolProp.CoolProp as CP
import numpy as np
from thermo import ViscosityGas, ViscosityLiquid

from library import mole_fractions, pure_state

DEDICATED = {"R134a", "R125", "R123", "n-Propane", "IsoButane", "n-Butane", "CarbonDioxide", "Ammonia", "R23"}
GELLER = {"R-410A": "R410A", "R-404A": "R404A", "R-407C": "R407C", "R-507A": "R507A"}
_thermo = {}


def thermo_objects(name):
    if name not in _thermo:
        s = pure_state(name)
        known = dict(CASRN=CP.get_fluid_param_string(name, "CAS"), MW=s.molar_mass() * 1e3, Tc=s.T_critical(), Pc=s.p_critical())
        _thermo[name] = ViscosityLiquid(omega=s.acentric_factor(), **known), ViscosityGas(**known)
    return _thermo[name]


def line(x, x0, y0, x1, y1):
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def fitted(correlation, method, temperature, coordinate, ceiling=np.inf):
    """A correlation inside its limits; beyond them ln mu runs straight in `coordinate(T)`."""
    low, high = correlation.T_limits.get(method, (0.0, np.inf))
    low, high = low + 2.0, min(high - 2.0, ceiling)
    if low <= temperature <= high:
        return correlation.calculate(temperature, method)
    edge, inside = (low, low + 4.0) if temperature < low else (high, high - 4.0)
    at = [np.log(correlation.calculate(t, method)) for t in (edge, inside)]
    return float(np.exp(line(coordinate(temperature), coordinate(edge), at[0], coordinate(inside), at[1])))


def density_term(reduced_density, molar_mass, critical_temperature, critical_pressure):
    """Jossi, Stiel and Thodos (1962): what density adds to a dilute gas's viscosity, Pa s."""
    xi = critical_temperature ** (1 / 6) / ((molar_mass * 1e3) ** 0.5 * (critical_pressure / 101325) ** (2 / 3))
    r = reduced_density
    poly = 0.1023 + 0.023364 * r + 0.058533 * r**2 - 0.040758 * r**3 + 0.0093324 * r**4
    return (poly**4 - 0.1023**4) / xi * 1e-3  # 1e-4 centipoise per unit, in Pa s with xi in those units


def pure_liquid(name, temperature):
    """Saturated liquid of a pure component, Pa s."""
    s = pure_state(name)
    if name in DEDICATED:
        s.unspecify_phase()
        s.update(CP.QT_INPUTS, 0, temperature)
        return s.viscosity()
    liquid, _ = thermo_objects(name)
    method = next(m for m in ("REFPROP_FIT", "VDI_PPDS", "LETSOU_STIEL") if m in liquid.all_methods)
    below = temperature < liquid.T_limits.get(method, (0.0,))[0] + 2.0
    coordinate = (lambda t: 1 / t) if below else (lambda t: t)
    return fitted(liquid, method, temperature, coordinate, 0.93 * s.T_critical())


def pure_vapor(name, temperature, molar_density):
    """Vapour of a pure component at (T, mol/m3), Pa s."""
    s = pure_state(name)
    if name in DEDICATED:
        s.specify_phase(CP.iphase_gas)
        try:
            s.update(CP.DmolarT_INPUTS, molar_density, temperature)
            value = s.viscosity()
            if 3e-6 < value < 1e-4:
                return value
        except ValueError:
            pass
        finally:
            s.unspecify_phase()
    _, gas = thermo_objects(name)
    method = next(m for m in ("REFPROP_FIT", "VDI_PPDS", "STIEL_THODOS") if m in gas.all_methods)
    reduced = molar_density / s.rhomolar_critical()
    dense = density_term(reduced, s.molar_mass(), s.T_critical(), s.p_critical())
    return fitted(gas, method, temperature, np.log) + dense


class Viscosity:
    """Viscosity of one fluid, given its `States`."""

    def __init__(self, states):
        self.states, self.fluid = states, states.fluid
        self.names = list(self.fluid.parts)
        self.x = mole_fractions(self.fluid.parts)
        self.root_mass = np.sqrt([pure_state(n).molar_mass() for n in self.names])
        self.critical_density = 1 / sum(x / pure_state(n).rhomolar_critical() for x, n in zip(self.x, self.names))
        self.pseudo_pure = GELLER.get(self.fluid.designation)

    def source(self):
        if self.pseudo_pure:
            return "Geller (2000) through the library's pseudo-pure fluid"
        if not self.fluid.is_blend:
            return self._pure_source(self.names[0])
        return "blend rule (Teja-Rice liquid, Herning-Zipperer + Jossi-Stiel-Thodos vapour), about 3 %, worst 9 % where known"

    @staticmethod
    def _pure_source(name):
        if name in DEDICATED:
            return "CoolProp, its dedicated correlation"
        liquid, gas = thermo_objects(name)
        first = lambda o, methods: next(m for m in methods if m in o.all_methods)
        l = first(liquid, ("REFPROP_FIT", "VDI_PPDS", "LETSOU_STIEL"))
        g = first(gas, ("REFPROP_FIT", "VDI_PPDS", "STIEL_THODOS"))
        return f"thermo {l} (liquid), {g} + Jossi-Stiel-Thodos (vapour)"

    def liquid(self, temperature):
        """Liquid at the bubble line, Pa s."""
        if self.pseudo_pure:
            return self._geller_liquid(temperature)
        if not self.fluid.is_blend:
            return pure_liquid(self.names[0], temperature)
        total, tr = 0.0, temperature / self.states.critical_temperature
        for name, x in zip(self.names, self.x):
            s = pure_state(name)
            at = max(tr * s.T_critical(), s.Ttriple() + 0.5)
            total += x * np.log(pure_liquid(name, at) * self._scale(s.T_critical(), s.molar_mass(), s.p_critical()))
        st = self.states
        return float(np.exp(total) / self._scale(st.critical_temperature, st.molar_mass, st.critical_pressure))

    def vapor(self, temperature, density):
        """Vapour at (T, kg/m3), Pa s."""
        molar_density = density / self.states.molar_mass
        if self.pseudo_pure:
            return pure_vapor_of(self.pseudo_pure, temperature, molar_density)
        if not self.fluid.is_blend:
            return pure_vapor(self.names[0], temperature, molar_density)
        dilute = np.array([pure_vapor(n, temperature, 1e-3) for n in self.names])
        mixed = float(np.sum(self.x * dilute * self.root_mass) / np.sum(self.x * self.root_mass))
        st = self.states
        reduced = molar_density / self.critical_density
        return mixed + density_term(reduced, st.molar_mass, st.critical_temperature, st.critical_pressure)

    @staticmethod
    def _scale(critical_temperature, molar_mass, critical_pressure):
        return critical_temperature ** (1 / 6) / (molar_mass**0.5 * critical_pressure ** (2 / 3))

    def _geller_liquid(self, temperature):
        s = pure_state(self.pseudo_pure)
        low = s.Tmin() + 2.0

        def at(t):
            s.unspecify_phase()
            s.update(CP.QT_INPUTS, 0, t)
            return s.viscosity()

        if temperature >= low:
            return at(temperature)
        return float(np.exp(line(1 / temperature, 1 / low, np.log(at(low)), 1 / (low + 4), np.log(at(low + 4)))))


def pure_vapor_of(pseudo_pure, temperature, molar_density):
    """Geller's vapour viscosity at (T, mol/m3) of a pseudo-pure fluid, Pa s."""
    s = pure_state(pseudo_pure)
    s.specify_phase(CP.iphase_gas)
    try:
        s.update(CP.DmolarT_INPUTS, molar_density, temperature)
        return s.viscosity()
    finally:
        s.unspecify_phase()
