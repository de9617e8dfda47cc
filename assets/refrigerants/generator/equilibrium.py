"""Liquid and vapour of a blend in equilibrium at a pressure and a molar quality.

The library's own two-phase flash gives up in the upper third of the pressure range, and now and
then returns nonsense there; where it works the two agree to 1e-8. Successive substitution in K = y/x on the library's fugacity coefficients; each
round corrects the temperature so that the fractions add up to one.
"""

import CoolProp.CoolProp as CP
import numpy as np

from library import mole_fractions, open_state, pure_state

GAS_CONSTANT = 8.314462618
TOLERANCE = 1e-9


class Phase:
    """One phase with a memory of its density, where its next density search begins."""

    def __init__(self, fluid, kind, molar_density):
        self.state, self.kind, self.density = open_state(fluid), kind, molar_density

    def update(self, pressure, temperature, fractions):
        s = self.state
        s.set_mole_fractions(list(fractions))
        s.specify_phase(self.kind)
        density = self.density
        for _ in range(60):
            s.update(CP.DmolarT_INPUTS, density, temperature)
            miss = s.p() - pressure
            slope = s.first_partial_deriv(CP.iP, CP.iDmolar, CP.iT)
            if slope <= 0:
                raise ValueError("the phase is unstable")
            if abs(miss) < 1e-11 * pressure or abs(miss / slope) < 1e-13 * density:
                self.density = density
                return
            density += max(-0.1 * density, min(0.1 * density, -miss / slope))
        raise ValueError("no density")

    def ln_fugacity_coefficients(self, count):
        return np.log([self.state.fugacity_coefficient(i) for i in range(count)])


class Ladder:
    """Climbs in molar quality from the bubble point, pressure after pressure, lowest first."""

    def __init__(self, fluid):
        self.z = mole_fractions(fluid.parts)
        self.mass = np.array([pure_state(name).molar_mass() for name in fluid.parts])
        self.mean = float(self.z @ self.mass)
        self.liquid, self.vapor = Phase(fluid, CP.iphase_liquid, 0.0), Phase(fluid, CP.iphase_gas, 0.0)
        self.first_vapor = self.z.copy()
        self.first_vapor_density_ratio = 1.0

    def climb(self, pressure, bubble, dew, qualities):
        """[T, v, s, vapour mass fraction, h] at rising qualities; NaN from the first failure on.

        `bubble` and `dew`: states [T, rho, ...] at this pressure.
        """
        self.liquid.density = bubble[1] / self.mean
        self.vapor.density = dew[1] / self.mean * self.first_vapor_density_ratio
        out = np.full((len(qualities), 5), np.nan)
        temperature, x, y = bubble[0], self.z, self.first_vapor
        try:
            for i, quality in enumerate(qualities):
                temperature, x, y = solve(self.liquid, self.vapor, pressure, quality, self.z, temperature, x, y)
                if self.vapor.density > 0.9 * self.liquid.density:
                    raise ValueError("the phases became one")
                out[i] = self._row(quality, temperature, y)
                if i == 0:
                    self.first_vapor = y
                    self.first_vapor_density_ratio = self.vapor.density * self.mean / dew[1]
        except ValueError:
            pass
        return out

    def _row(self, quality, temperature, y):
        share = quality * float(y @ self.mass) / self.mean
        both = [np.array([1 / p.state.rhomass(), p.state.smass(), p.state.hmass()]) for p in (self.liquid, self.vapor)]
        v, entropy, h = (1 - share) * both[0] + share * both[1]
        return temperature, v, entropy, share, h


def solve(liquid, vapor, pressure, quality, z, temperature, x, y):
    n = len(z)
    for _ in range(600):
        liquid.update(pressure, temperature, x)
        vapor.update(pressure, temperature, y)
        ln_k = liquid.ln_fugacity_coefficients(n) - vapor.ln_fugacity_coefficients(n)
        shift = closing_shift(ln_k, quality, z)
        k = np.exp(ln_k + shift)
        new_x = z / (1 - quality + quality * k)
        change = np.abs(new_x - x).max() + abs(shift)
        x, y = new_x / new_x.sum(), new_x * k / (new_x * k).sum()
        if change < TOLERANCE:
            return temperature, x, y
        latent = max(vapor.state.hmolar() - liquid.state.hmolar(), 500.0)
        temperature += max(-2.0, min(2.0, shift * GAS_CONSTANT * temperature**2 / latent))
    raise ValueError("no equilibrium")


def closing_shift(ln_k, quality, z):
    """The common shift of ln K that makes the Rachford-Rice sum at this quality vanish."""
    shift = 0.0
    for _ in range(50):
        k = np.exp(ln_k + shift)
        part = 1 - quality + quality * k
        miss = np.sum(z * (k - 1) / part)
        step = miss / np.sum(z * k / part**2)
        shift -= max(-0.5, min(0.5, step))
        if abs(step) < 1e-14:
            break
    return shift
