"""States of one fluid: bubble and dew curves, superheated vapour, and between bubble and dew.

A state is an array `[T, rho, h, s]` (K, kg/m3, J/kg, J/(kg K)); failed states are NaN. The library's
blend flashes fail now and then at ordinary states; here they are retried from a neighbour.
"""

import warnings
from typing import NamedTuple

import CoolProp.CoolProp as CP
import numpy as np
from scipy.interpolate import CubicSpline

from library import critical_point, open_state, pure_state

GAS_CONSTANT = 8.314462618
warnings.simplefilter("ignore")


class Dense(NamedTuple):
    """One phase at a density and temperature: pressure, Gibbs energy, `dp/dT`, `dp/drho`, `dg/dT`, its row."""

    p: float
    g: float
    p_t: float
    p_rho: float
    g_t: float
    row: np.ndarray


class States:
    def __init__(self, fluid):
        self.fluid = fluid
        self.state = open_state(fluid)
        self.critical_pressure, self.critical_temperature = critical_point(fluid, self.state)
        self.molar_mass = self.state.molar_mass()
        self.hot_temperature = min(430.15, self.state.Tmax())
        self.lowest_temperature = max(
            pure_state(name).Ttriple() for name in fluid.parts if fluid.designation == "R-744" or name != "CarbonDioxide"
        )

    def now(self):
        s = self.state
        return np.array([s.T(), s.rhomass(), s.hmass(), s.smass()])

    def bubble_pressure(self, temperature):
        self.state.unspecify_phase()
        self.state.update(CP.QT_INPUTS, 0, temperature)
        return self.state.p()

    # -- saturation ------------------------------------------------------------------------------

    def curve(self, pressures, quality):
        """States at one molar quality: marched upwards in pressure, then downwards over the gaps."""
        self.state.unspecify_phase()
        out = np.full((len(pressures), 4), np.nan)
        self._march(np.argsort(pressures), pressures, quality, out)
        if self.fluid.is_blend and np.isnan(out[:, 0]).any():
            self._march(np.argsort(pressures)[::-1], pressures, quality, out)
        return out

    def _march(self, order, pressures, quality, out):
        """Fill the missing rows of `out` in this order, each guessed from the one before."""
        last = guess = None
        for i in order:
            target = float(pressures[i])
            found = self._flash(target, quality, last)
            if found is None and guess is not None:
                found = self._creep(target, quality, last, guess)
            if found is not None:
                out[i] = found if np.isnan(out[i, 0]) else out[i]
                last = (target, found[0])
                guess = self._guess() if self.fluid.is_blend else None

    def _flash(self, pressure, quality, last):
        try:
            self.state.update(CP.PQ_INPUTS, pressure, quality)
            return self._accepted(pressure, last)
        except ValueError:
            return None

    def _creep(self, target, quality, last, guess):
        """From the last good state in 1, 4, 16, 64 steps, each guessed by the one before."""
        for steps in (1, 4, 16, 64):
            here, g, found = last, guess, None
            for k in range(1, steps + 1):
                pressure = last[0] * (target / last[0]) ** (k / steps)
                try:
                    self.state.update_with_guesses(CP.PQ_INPUTS, pressure, quality, g)
                    found = self._accepted(pressure, here)
                    g = self._guess()
                except ValueError:
                    found = None
                if found is None:
                    break
                here = (pressure, found[0])
            if found is not None:
                return found
        return None

    def _accepted(self, pressure, last):
        """The state just computed, unless it is off pressure or jumps in temperature."""
        found = self.now()
        if abs(self.state.p() / pressure - 1) > 1e-6 or not np.all(np.isfinite(found)):
            return None
        if last is not None:
            ratio = np.log(pressure / last[0])
            rise = (found[0] - last[1]) * (1 if ratio >= 0 else -1)
            if not -1e-6 < rise < 60 * max(abs(ratio), 1e-9) + 0.5:
                return None
        return found

    def _guess(self):
        s, g = self.state, CP.PyGuessesStructure()
        g.T, g.p = s.T(), s.p()
        g.rhomolar_liq = s.saturated_liquid_keyed_output(CP.iDmolar)
        g.rhomolar_vap = s.saturated_vapor_keyed_output(CP.iDmolar)
        g.x, g.y = s.mole_fractions_liquid(), s.mole_fractions_vapor()
        return g

    def settle(self, pressure, bubble, dew):
        """Bubble and dew of a pure refrigerant in equilibrium by its own equation of state.

        Newton in temperature and both densities: each phase at this pressure, and one Gibbs energy. Below an
        equation's lower limit the library's saturation routine stops short of it: R-114 at -50 degC by 0.05 %
        in pressure and 33 J/kg between the phases.
        """
        unknown = np.array([bubble[0], bubble[1] / self.molar_mass, dew[1] / self.molar_mass])
        for _ in range(40):
            liquid = self._dense(CP.iphase_liquid, unknown[1], unknown[0])
            vapor = self._dense(CP.iphase_gas, unknown[2], unknown[0])
            miss = np.array([liquid.p - pressure, vapor.p - pressure, liquid.g - vapor.g])
            slopes = np.array([
                [liquid.p_t, liquid.p_rho, 0.0],
                [vapor.p_t, 0.0, vapor.p_rho],
                [liquid.g_t - vapor.g_t, liquid.p_rho / unknown[1], -vapor.p_rho / unknown[2]],
            ])
            step = np.linalg.solve(slopes, -miss)
            unknown += step
            if np.abs(step / unknown).max() < 1e-12:
                return liquid.row, vapor.row
        raise ValueError(f"no equilibrium at {pressure} Pa")

    def _dense(self, phase, density, temperature):
        """Pressure, molar Gibbs energy and their slopes at a molar density and temperature."""
        s = self.state
        s.specify_phase(phase)
        s.update(CP.DmolarT_INPUTS, density, temperature)
        p_t = s.first_partial_deriv(CP.iP, CP.iT, CP.iDmolar)
        p_rho = s.first_partial_deriv(CP.iP, CP.iDmolar, CP.iT)
        found = Dense(s.p(), s.gibbsmolar(), p_t, p_rho, p_t / density - s.smolar(), self.now())
        s.unspecify_phase()
        return found

    # -- vapour ----------------------------------------------------------------------------------

    def vapor_at_temperature(self, pressure, temperature, density_guess):
        """Vapour at (p, T) by Newton in density: steadier than the library's own solver."""
        s, density = self.state, density_guess / self.molar_mass
        s.specify_phase(CP.iphase_gas)
        try:
            for _ in range(80):
                s.update(CP.DmolarT_INPUTS, density, temperature)
                miss = s.p() - pressure
                if abs(miss) < 1e-11 * pressure:
                    break
                slope = s.first_partial_deriv(CP.iP, CP.iDmolar, CP.iT)
                if slope <= 0:
                    density *= 0.9
                    continue
                density += max(-0.3 * density, min(0.3 * density, -miss / slope))
            if abs(miss) > 1e-8 * pressure:
                raise ValueError(f"no vapour at {pressure} Pa, {temperature} K")
            return self.now(), s.cpmass(), s.first_partial_deriv(CP.iDmass, CP.iT, CP.iP)
        finally:
            s.unspecify_phase()

    def hot_vapor(self, pressure):
        hot = self.hot_temperature
        ideal = pressure * self.molar_mass / (GAS_CONSTANT * hot)
        attraction = 0.6 * pressure / self.critical_pressure * (self.critical_temperature / hot) ** 3
        return self.vapor_at_temperature(pressure, hot, ideal * (1 + attraction))[0]

    def vapor_at_enthalpy(self, pressure, enthalpy, near):
        """Vapour at (p, h) by Newton in temperature from the state `near`."""
        here, cp, _ = self.vapor_at_temperature(pressure, near[0], near[1])
        for _ in range(60):
            step = max(-20.0, min(20.0, (enthalpy - here[2]) / cp))
            temperature = here[0] + step
            here, cp, _ = self.vapor_at_temperature(pressure, temperature, here[1] * here[0] / temperature)
            if abs(here[2] - enthalpy) < 1e-9 * abs(enthalpy) + 1e-5:
                return here
        raise ValueError(f"no vapour at {pressure} Pa, {enthalpy} J/kg")

    def compressibility(self, pressure, state):
        return pressure * self.molar_mass / (state[..., 1] * GAS_CONSTANT * state[..., 0])


def fill_gaps(pressures, states):
    """Fill failed nodes by a spline through their neighbours in ln p; count them."""
    bad = np.isnan(states[:, 0])
    if bad.any():
        x = np.log(pressures)
        for k in range(states.shape[1]):
            states[bad, k] = CubicSpline(x[~bad], states[~bad, k])(x[bad])
    return int(bad.sum())
