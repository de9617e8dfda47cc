"""States of a refrigerant straight from CoolProp, made quick enough to integrate with.

Bubble and dew line, the wet region, vapour and pressed liquid are asked of CoolProp on a regular
net in ln(p) and a share of enthalpy, and read back by bicubic pieces. `python states.py` says how
far the pieces are from direct calls at random places between the nodes.

Enthalpy and entropy are CoolProp's own. Only v(p, h) enters the flow: on an isentrope dh = v dp.
"""

import math
import random
import sys

import CoolProp.CoolProp as CP
import numpy as np
from CoolProp import AbstractState
from scipy.interpolate import CubicSpline, RectBivariateSpline

from viscosity import Viscosity

# Designation: components of CoolProp with nominal mass shares of ASHRAE 34.
FLUIDS = {
    "R-22": {"R22": 1.0},
    "R-134a": {"R134a": 1.0},
    "R-32": {"R32": 1.0},
    "R-125": {"R125": 1.0},
    "R-123": {"R123": 1.0},
    "R-1234yf": {"R1234yf": 1.0},
    "R-290": {"n-Propane": 1.0},
    "R-600a": {"IsoButane": 1.0},
    "R-744": {"CarbonDioxide": 1.0},
    "R-410A": {"R32": 0.5, "R125": 0.5},
    "R-404A": {"R125": 0.44, "R143a": 0.52, "R134a": 0.04},
    "R-507A": {"R125": 0.5, "R143a": 0.5},
    "R-513A": {"R1234yf": 0.56, "R134a": 0.44},
    "R-407C": {"R32": 0.23, "R125": 0.25, "R134a": 0.52},
    "R-454B": {"R32": 0.689, "R1234yf": 0.311},
    "R-455A": {"CarbonDioxide": 0.03, "R32": 0.215, "R1234yf": 0.755},
}

LOWEST_PA = 2600.0
PRESSURES, QUALITIES, VAPOURS, LIQUIDS = 90, 21, 31, 15
# Liquid is followed this far below its bubble line.
LIQUID_J_KG = 60e3


class Net:
    """Bicubic pieces over a regular net of (ln p, share), several quantities at once."""

    def __init__(self, u, w, quantities):
        self.u0, self.du, self.nu = u[0], u[1] - u[0], len(u)
        self.w0, self.dw, self.nw = w[0], w[1] - w[0], len(w)
        hermite = np.array([[1, 0, 0, 0], [0, 0, 1, 0], [-3, 3, -2, -1], [2, -2, 1, 1]], float)
        self.cells = np.empty((self.nu - 1, self.nw - 1, 4, len(quantities), 4))
        for k, values in enumerate(quantities):
            spline = RectBivariateSpline(u, w, values, s=0)
            f, fu = spline(u, w), spline(u, w, dx=1) * self.du
            fw, fuw = spline(u, w, dy=1) * self.dw, spline(u, w, dx=1, dy=1) * self.du * self.dw
            for i in range(self.nu - 1):
                for j in range(self.nw - 1):
                    a, b = slice(i, i + 2), slice(j, j + 2)
                    corner = np.block([[f[a, b], fw[a, b]], [fu[a, b], fuw[a, b]]])
                    self.cells[i, j, :, k, :] = hermite @ corner @ hermite.T

    def at(self, u, w):
        x, y = (u - self.u0) / self.du, (w - self.w0) / self.dw
        i, j = min(max(int(x), 0), self.nu - 2), min(max(int(y), 0), self.nw - 2)
        x, y = x - i, y - j
        powers = np.array([1.0, y, y * y, y * y * y])
        c = self.cells[i, j] @ powers
        return ((c[3] * x + c[2]) * x + c[1]) * x + c[0]


class Point:
    """What the flow asks of a state."""

    __slots__ = ("v", "T", "x", "quality", "rho_l", "rho_v", "mu_l", "mu_v")


class Fluid:
    def __init__(self, name):
        self.name = name
        self.parts = list(FLUIDS[name])
        masses = np.array(list(FLUIDS[name].values()))
        molar = np.array([CP.PropsSI("M", part) for part in self.parts])
        self.x = masses / molar / np.sum(masses / molar)
        self.molar = float(self.x @ molar)
        self.molars = molar
        self.state = AbstractState("HEOS", "&".join(self.parts))
        if len(self.parts) > 1:
            self.state.set_mole_fractions(list(self.x))
        self.viscosity = Viscosity(name, self.parts, self.x)
        if len(self.parts) > 1:
            critical = max(self.state.all_critical_points(), key=lambda point: point.p).p
        else:
            critical = self.state.p_critical()
        lowest = LOWEST_PA
        if len(self.parts) == 1:
            lowest = max(lowest, 1.002 * CP.PropsSI("ptriple", self.parts[0]))
        self.lowest, self.highest = lowest, 0.88 * critical
        if len(self.parts) > 1:  # the library's blend flashes fail more and more above
            self.highest = min(self.highest, 3.6e6)
        self.u = np.linspace(math.log(lowest), math.log(self.highest), PRESSURES)
        self._fill()

    # -- nets ---------------------------------------------------------------------------------

    def _wet(self, p, q):
        """Mass-based state at a pressure and a molar vapour share."""
        s = self.state
        s.unspecify_phase()
        s.update(CP.PQ_INPUTS, p, q)
        liquid, vapour = s.saturated_liquid_keyed_output, s.saturated_vapor_keyed_output
        if len(self.parts) > 1:
            mass_l = float(np.dot(s.mole_fractions_liquid(), self.molars))
            mass_v = float(np.dot(s.mole_fractions_vapor(), self.molars))
        else:
            mass_l = mass_v = self.molar
        rho_l, rho_v = liquid(CP.iDmolar) * mass_l, vapour(CP.iDmolar) * mass_v
        share = q * mass_v / (q * mass_v + (1 - q) * mass_l)
        return dict(T=s.T(), h=s.hmass(), v=1 / s.rhomass(), x=share, rho_l=rho_l, rho_v=rho_v, s=s.smass())

    def _wet_columns(self, molar_q):
        """Wet states at every pressure; where the library's blend flash fails, a spline over the
        pressures where it does not."""
        keys = ("T", "h", "v", "x", "rho_l", "rho_v", "s")
        net = np.full((PRESSURES, len(molar_q), len(keys)), np.nan)
        for k, u in enumerate(self.u):
            for i, q in enumerate(molar_q):
                try:
                    state = self._wet(math.exp(u), q)
                except ValueError:
                    continue
                net[k, i] = [state[key] for key in keys]
        for i in range(len(molar_q)):
            good = np.isfinite(net[:, i, 0])
            for j, key in enumerate(keys if not np.all(good) else ()):
                is_log = key in ("v", "rho_v")
                values = np.log(net[good, i, j]) if is_log else net[good, i, j]
                filled = CubicSpline(self.u[good], values)(self.u[~good])
                net[~good, i, j] = np.exp(filled) if is_log else filled
        return [[dict(zip(keys, row)) for row in column] for column in net]

    def _fill(self):
        molar_q = 0.5 * (1 - np.cos(np.linspace(0, math.pi, 31)))
        r = np.linspace(0, 1, QUALITIES)
        hot_k = min(CP.PropsSI("Tmax", part) for part in self.parts)
        rows, vapours, liquids = [], [], []
        self.h_bubble, self.h_dew = np.empty(PRESSURES), np.empty(PRESSURES)
        self.T_bubble, self.T_dew = np.empty(PRESSURES), np.empty(PRESSURES)
        wet = self._wet_columns(molar_q if len(self.parts) > 1 else (0.0, 1.0))
        for k, column in enumerate(wet):
            self.h_bubble[k], self.h_dew[k] = column[0]["h"], column[-1]["h"]
            self.T_bubble[k], self.T_dew[k] = column[0]["T"], column[-1]["T"]
        self.v_bubble = [column[0]["v"] for column in wet]
        # Vapour as hot as throttling from the highest enthalpy on the dew line makes it.
        self.span = np.max(self.h_dew) - self.h_dew + 12e3
        w = np.linspace(0, 1, VAPOURS)
        wl = np.linspace(0, 1, LIQUIDS)
        for k, u in enumerate(self.u):
            p = math.exp(u)
            rows.append(self._wet_row(p, wet[k], r))
            vapours.append(self._vapour_row(p, k, w, hot_k))
            liquids.append(self._liquid_row(p, k, wl))
        stack = lambda rows: [np.array([row[i] for row in rows]) for i in range(len(rows[0]))]
        self.wet, self.gas = Net(self.u, r, stack(rows)), Net(self.u, w, stack(vapours))
        self.liq = Net(self.u, wl, stack(liquids))
        edge = np.array([0.0, 1.0, 2.0, 3.0])
        lines = [self.h_bubble, self.h_dew, self.span, self.T_bubble, self.T_dew]
        self.lines = Net(self.u, edge, [np.repeat(line[:, None], 4, axis=1) for line in lines])

    def _wet_row(self, p, column, r):
        if len(column) == 2:
            a, b = column
            q = r * r
            mix = lambda key: a[key] + q * (b[key] - a[key])
            T = np.full_like(q, a["T"])
            v, x = mix("v"), q
            rho_l, rho_v = np.full_like(q, a["rho_l"]), np.full_like(q, b["rho_v"])
        else:
            h = np.array([state["h"] for state in column])
            q_nodes = np.sqrt((h - h[0]) / (h[-1] - h[0]))
            read = lambda key: CubicSpline(q_nodes, [state[key] for state in column])(r)
            T, v, x, rho_l, rho_v = read("T"), read("v"), read("x"), read("rho_l"), read("rho_v")
        mu_l = np.array([self.viscosity.liquid(t) for t in T])
        mu_v = np.array([self.viscosity.vapour(t, d) for t, d in zip(T, rho_v)])
        return [v * p, T, x, np.log(rho_l), np.log(rho_v), np.log(mu_l), np.log(mu_v)]

    def _vapour_row(self, p, k, w, hot_k):
        s = self.state
        s.specify_phase(CP.iphase_gas)
        start = self.T_dew[k]
        T, h, v = [start], [self.h_dew[k]], []
        s.update(CP.PT_INPUTS, p, start * (1 + 1e-7) if len(self.parts) == 1 else start)
        v.append(1 / s.rhomass())
        offset = self.h_dew[k] - s.hmass()
        step = max(2.0, 0.06 * (self.span[k] / 800.0))
        while h[-1] - h[0] < 1.02 * self.span[k]:
            T.append(T[-1] + step)
            if T[-1] > hot_k:
                raise ValueError(f"{self.name}: {p} Pa needs vapour above {hot_k} K")
            s.update(CP.PT_INPUTS, p, T[-1])
            h.append(s.hmass() + offset)
            v.append(1 / s.rhomass())
        s.unspecify_phase()
        wanted = h[0] + w * w * self.span[k]
        T, v = CubicSpline(h, T)(wanted), CubicSpline(h, v)(wanted)
        mu = np.array([self.viscosity.vapour(t, 1 / x) for t, x in zip(T, v)])
        return [v * p, T, np.log(mu)]

    def _liquid_row(self, p, k, w):
        s = self.state
        s.specify_phase(CP.iphase_liquid)
        coldest = max(CP.PropsSI("Tmin", part) for part in self.parts) + 0.3
        T = np.linspace(self.T_bubble[k], self.T_bubble[k] - 70.0, 40)
        h, v, kept = [], [], []
        for t in T:
            if t < coldest:
                break
            try:
                s.update(CP.PT_INPUTS, p, t)
            except ValueError:
                break
            if h and not (s.hmass() < h[-1] and 0.9 * v[-1] < 1 / s.rhomass() < v[-1]):
                break
            h.append(s.hmass()), v.append(1 / s.rhomass()), kept.append(t)
        s.unspecify_phase()
        wanted = self.h_bubble[k] - w * LIQUID_J_KG
        if len(kept) < 6:  # no liquid is asked for so close to freezing
            flat = np.full_like(w, self.v_bubble[k])
            return [flat, np.full_like(w, self.T_bubble[k]), np.full_like(w, math.log(self.viscosity.liquid(self.T_bubble[k])))]
        h = np.array(h) + self.h_bubble[k] - h[0]
        t, vol = CubicSpline(h[::-1], kept[::-1])(wanted), CubicSpline(h[::-1], v[::-1])(wanted)
        outside = wanted < h[-1]
        rate = lambda y: (y[-1] - y[-2]) / (h[-1] - h[-2])
        t[outside] = kept[-1] + rate(kept) * (wanted[outside] - h[-1])
        vol[outside] = v[-1] + rate(v) * (wanted[outside] - h[-1])
        mu = np.array([self.viscosity.liquid(x) for x in t])
        return [vol, t, np.log(mu)]

    # -- reading --------------------------------------------------------------------------------

    def line(self, p):
        """h on the bubble and the dew line, span of the vapour net, T on both."""
        return self.lines.at(math.log(p), 0.0)

    def at(self, p, h):
        u = math.log(p)
        bubble, dew, span, _, _ = self.lines.at(u, 0.0)
        q = (h - bubble) / (dew - bubble)
        point = Point()
        point.quality = q
        if q < 0:
            v, point.T, mu = self.liq.at(u, (bubble - h) / LIQUID_J_KG)
            point.v, point.x, point.mu_l, point.mu_v = v, 0.0, math.exp(mu), 1.0
            point.rho_l, point.rho_v = 1 / v, 1.0
        elif q > 1:
            vp, point.T, mu = self.gas.at(u, math.sqrt((h - dew) / span))
            point.v, point.x, point.mu_v, point.mu_l = vp / p, 1.0, math.exp(mu), 1.0
            point.rho_v, point.rho_l = p / vp, 1.0
        else:
            vp, point.T, point.x, rl, rv, ml, mv = self.wet.at(u, math.sqrt(q))
            point.v = vp / p
            point.rho_l, point.rho_v = math.exp(rl), math.exp(rv)
            point.mu_l, point.mu_v = math.exp(ml), math.exp(mv)
        return point

    def volume(self, p, h):
        u = math.log(p)
        bubble, dew, span, _, _ = self.lines.at(u, 0.0)
        if h < bubble:
            return self.liq.at(u, (bubble - h) / LIQUID_J_KG)[0]
        if h > dew:
            return self.gas.at(u, math.sqrt((h - dew) / span))[0] / p
        return self.wet.at(u, math.sqrt((h - bubble) / (dew - bubble)))[0] / p

    def direct(self, p, T=None, q=None):
        """(h, v) straight from the library: saturated by quality, or one phase by temperature."""
        s = self.state
        s.unspecify_phase()
        if q is not None:
            s.update(CP.PQ_INPUTS, p, q)
        else:
            s.update(CP.PT_INPUTS, p, T)
        return s.hmass(), 1 / s.rhomass()

    def saturated(self, T, q):
        """Pressure and enthalpy on the bubble (q 0) or dew line (q 1) at a temperature."""
        s = self.state
        s.unspecify_phase()
        s.update(CP.QT_INPUTS, q, T)
        return s.p(), s.hmass()


def worst(name, count=150, seed=5):
    """Largest distance in v between the pieces and direct calls: wet, vapour, liquid."""
    fluid, chance = Fluid(name), random.Random(seed)
    worst = [0.0, 0.0, 0.0]
    for _ in range(count):
        p = math.exp(chance.uniform(fluid.u[0], fluid.u[-1]))
        _, _, span, bubble, dew = fluid.line(p)
        wet, hot = dict(q=chance.random() ** 2), dict(T=dew + chance.uniform(0.5, span / 1200))
        for kind, ask in enumerate((wet, hot, dict(T=bubble - chance.uniform(0.5, 25)))):
            try:
                h, v = fluid.direct(p, **ask)
            except ValueError:
                continue
            bubble_h, dew_h = fluid.line(p)[:2]
            if h > dew_h + span or h < bubble_h - 0.9 * LIQUID_J_KG or (kind == 2 and p < 1e5):
                continue
            worst[kind] = max(worst[kind], abs(fluid.volume(p, h) / v - 1))
    return worst


if __name__ == "__main__":
    for name in sys.argv[1:] or FLUIDS:
        print(name, *(f"{share:.1e}" for share in worst(name)), flush=True)
