"""Flow through tubes, restrictions, paths in series and two branches that meet.

The contract, in symbols. Steady, one-dimensional, adiabatic, homogeneous; total enthalpy h0 stays.

Tube: dp + G^2 dv + f G^2 v/(2 d) dz + rho g sin dz = 0 with h = h0 - G^2 v^2/2. Here it is integrated
along z as dM/dz = -(f G^2 v/(2 d) + rho g sin) with the momentum flux M = p + G^2 v (scipy's
Runge-Kutta 5(4)); p follows from M on the subsonic branch. The tube is choked where M reaches the least
that its curve of constant h0 and G has.

Restriction: from rest along the isentrope, h(p) from dh = v dp (scipy); mass flux sqrt(2 w)/v; the
largest of it chokes; p2 = pt + (1 - FL^2)(p1 - pt). A part's mouth has the pressure of the part
before; nothing is recovered between parts.

Delayed flashing: v = v_frozen + N (v_equilibrium - v_frozen), N of ISO 4126-10 with exponent 0.6
(from memory, as in the program) and the critical ratio of the omega method found by its own
equation, not by a fit. Its vapour is what is there at rest, or the first that forms.
"""

import math

import numpy as np
from fluids.friction import friction_factor
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar

G0 = 9.80665


class Stuck(Exception):
    """More than this element passes."""

    def __init__(self, index=None):
        self.index = index


def churchill(re, roughness):
    return friction_factor(max(re, 1e-6), roughness, Method="Churchill_1977")


class Tube:
    def __init__(self, bore, length, roughness=1e-5, rise=0.0):
        self.bore, self.length, self.roughness, self.rise = bore, length, roughness, rise
        self.area = math.pi * bore**2 / 4

    def gradient(self, s, flux, model):
        """Frictional pressure gradient, Pa/m."""
        d, r = self.bore, self.roughness / self.bore
        single = lambda rho, mu: churchill(flux * d / mu, r) * flux**2 / (2 * d * rho)
        if s.x <= 0.0:
            return single(s.rho_l, s.mu_l)
        if s.x >= 1.0:
            return single(s.rho_v, s.mu_v)
        if model == "homogeneous":
            return single(1 / (s.x / s.rho_v + (1 - s.x) / s.rho_l), 1 / (s.x / s.mu_v + (1 - s.x) / s.mu_l))
        a, b = single(s.rho_l, s.mu_l), single(s.rho_v, s.mu_v)
        return (a + 2 * (b - a) * s.x) * (1 - s.x) ** (1 / 3) + b * s.x**3

    def march(self, fluid, model, m, p1, h0):
        flux = m / self.area
        half = 0.5 * flux**2

        def volume(p):
            """v on the curve of constant h0 and flux, by secant steps."""
            v = fluid.volume(p, h0)
            last = None
            for _ in range(60):
                h = h0 - half * v * v
                if h < fluid.line(p)[0] - 5e4:
                    return v * 10  # more kinetic energy than there is: deep in the choked region
                new = fluid.volume(p, h)
                miss = new - v
                if abs(miss) < 1e-10 * v:
                    return new
                if last and last[1] != miss:
                    slope = (miss - last[1]) / (v - last[0])
                    last = (v, miss)
                    v = max(v - miss / slope, 0.3 * v)
                else:
                    last = (v, miss)
                    v = new
            return v

        momentum = lambda p: p + flux**2 * volume(p)
        sin = self.rise / self.length

        def least():
            """Pressure and momentum flux at the choke, by a coarse look and a fine one."""
            top = 1.3 * p1 if self.rise < 0 else p1
            grid = np.geomspace(max(fluid.lowest * 1.0005, 0.01 * p1), min(top, fluid.highest * 0.999), 24)
            if flux**2 * fluid.volume(p1, h0) < 0.02 * p1:
                grid = grid[grid > 0.1 * p1] if flux**2 * fluid.volume(0.1 * p1, h0) < 0.03 * p1 else grid
            values = [momentum(p) for p in grid]
            i = int(np.argmin(values))
            lo, hi = grid[max(i - 1, 0)], grid[min(i + 1, len(grid) - 1)]
            if i == 0:
                return grid[0], values[0]
            best = minimize_scalar(momentum, bounds=(lo, hi), method="bounded", options={"xatol": 1e-7 * hi})
            return best.x, best.fun

        p_choke, m_choke = least()
        if p1 <= p_choke * (1 + 1e-9):
            raise Stuck
        state = {"p": p1}

        def pressure(M):
            if M <= m_choke:
                return p_choke
            p = state["p"]
            residual = lambda p: momentum(p) - M
            # Secant from the last answer, with the choke as a fence.
            a, fa = p, residual(p)
            if abs(fa) < 1e-9 * M:
                return a
            b = min(max(a - fa, 0.5 * (a + p_choke)), fluid.highest * 0.999)
            for _ in range(40):
                fb = residual(b)
                if abs(fb) < 1e-9 * M or abs(b - a) < 1e-12 * b:
                    break
                step = fb * (b - a) / (fb - fa) if fb != fa else 0.0
                a, fa = b, fb
                b = b - step
                if not p_choke < b < fluid.highest:
                    hi = max(p1 * 1.5, 1.2 * a)
                    b = brentq(residual, p_choke, min(hi, fluid.highest * 0.999), xtol=1e-9 * M)
                    break
            state["p"] = b
            return b

        def slope(z, y):
            p = pressure(y[0])
            v = volume(p)
            s = fluid.at(p, h0 - half * v * v)
            return [-(self.gradient(s, flux, model) + G0 * sin / v)]

        choked = lambda z, y: y[0] - m_choke * (1 + 1e-12)
        choked.terminal, choked.direction = True, -1
        run = solve_ivp(slope, (0, self.length), [momentum(p1)], events=choked, rtol=1e-6, atol=1e-8 * p1, method="RK45")
        if run.status == 1:
            raise Stuck
        return pressure(run.y[0][-1])


class Restriction:
    delayed = False

    def __init__(self, area, recovery=1.0):
        self.area, self.recovery = area, recovery

    @classmethod
    def hole(cls, bore, cd=0.8, recovery=1.0):
        return cls(cd * math.pi * bore**2 / 4, recovery)

    @classmethod
    def kv(cls, kv, recovery=1.0):
        """Definition of Kv with the throat's Bernoulli: Kv/3600 sqrt(1000 rho/1e5 dp) = A sqrt(2 rho dp)/FL."""
        return cls(recovery * kv / 3600 * math.sqrt(1000 / 2e5), recovery)

    def march(self, fluid, model, m, p1, h0):
        jet = Jet(fluid, p1, h0, self.delayed)
        pt = jet.throat(m / self.area)
        return pt + (1 - self.recovery**2) * (p1 - pt)


class Jet:
    """The isentrope from rest at (p1, h0) downwards."""

    def __init__(self, fluid, p1, h0, delayed):
        self.fluid, self.p1, self.h0 = fluid, p1, h0
        share = 0.02 if h0 < fluid.line(p1)[0] else 0.25
        self.floor = max(fluid.lowest * 1.0005, share * p1)
        self.pieces = []
        start, h, quality = p1, h0, fluid.at(p1, h0).quality
        self.boiling = p1 if -1e-9 <= quality < 1 else None
        if quality < -1e-9:
            meets = lambda x, y: y[0] - fluid.line(p1 * math.exp(-x))[0]
            meets.terminal = True
            run = self._run(start, h, meets)
            self.pieces.append((math.log(p1 / self.floor), run))
            if run.status == 1:
                x = run.t[-1]
                self.pieces[-1] = (x, run)
                self.boiling = p1 * math.exp(-x)
                h = fluid.line(self.boiling)[0]
                self.pieces.append((math.log(p1 / self.floor), self._run(self.boiling, h)))
        else:
            self.pieces.append((math.log(p1 / self.floor), self._run(start, h)))
        self.delay = self._delay() if delayed and self.boiling else None

    def _run(self, p, h, event=None):
        """h and work over x = ln(p1/p): dh = v dp."""
        x0, x1 = math.log(self.p1 / p), math.log(self.p1 / self.floor)

        def slope(x, y):
            p = self.p1 * math.exp(-x)
            return [-self.fluid.volume(p, y[0]) * p]

        return solve_ivp(slope, (x0, x1), [h], rtol=1e-8, atol=1e-6, dense_output=True, events=event)

    def equilibrium(self, p):
        x = math.log(self.p1 / p)
        run = next((run for end, run in self.pieces if x <= end), self.pieces[-1][1])
        h = float(run.sol(x)[0])
        return self.fluid.volume(p, h), self.h0 - h

    def _delay(self):
        p0 = self.boiling
        boiling = self.fluid.at(p0, self.fluid.line(p0)[0] + 1.0)
        vl, vv = 1 / boiling.rho_l, 1 / boiling.rho_v
        if p0 < self.p1:
            x0, v_start = 0.0, self.fluid.volume(self.p1, self.h0)
        else:
            wet = self.fluid.at(p0, self.h0)
            x0, v_start = max(wet.x, 0.0), vl
            if x0 > 0:
                vv = 1 / wet.rho_v
        v0 = x0 * vv + (1 - x0) * vl
        # omega: v/v0 = omega (p0/p - 1) + 1 close to the start.
        v, _ = self.equilibrium(0.98 * p0)
        omega = max((v / v0 - 1) / (1 / 0.98 - 1), 0.1)
        flashing = max(omega - x0 * vv / v0, 0.0) * v0 / (vv - vl)
        leung = lambda eta: eta**2 + (omega**2 - 2 * omega) * (1 - eta) ** 2 + 2 * omega**2 * (math.log(eta) + 1 - eta)
        eta = brentq(leung, 1e-4, 0.99999)
        n = min(max(x0 + flashing * math.log(1 / eta), 0.0), 1.0) ** 0.6
        return n, x0, (v_start if p0 < self.p1 else vl), vv

    def at(self, p):
        """v and work to a pressure."""
        v, w = self.equilibrium(p)
        if not self.delay:
            return v, w
        n, x0, vl, vv = self.delay
        frozen = (1 - x0) * vl + x0 * vv * self.p1 / p
        work = (1 - x0) * vl * (self.p1 - p) + x0 * vv * self.p1 * math.log(self.p1 / p)
        return frozen + n * (v - frozen), work + n * (w - work)

    def flux(self, p):
        v, w = self.at(p)
        return math.sqrt(2 * max(w, 0.0)) / v

    def largest(self):
        grid = self.p1 * np.exp(-np.linspace(1e-4, math.log(self.p1 / self.floor), 40))
        values = [self.flux(p) for p in grid]
        i = int(np.argmax(values))
        lo, hi = grid[min(i + 1, 39)], grid[i - 1] if i else self.p1 * (1 - 1e-7)
        best = minimize_scalar(lambda p: -self.flux(p), bounds=(lo, hi), method="bounded", options={"xatol": 1e-7 * hi})
        if self.boiling and self.boiling < self.p1 and lo < self.boiling < hi and self.flux(self.boiling) > -best.fun:
            return self.boiling, self.flux(self.boiling)
        return best.x, -best.fun

    def throat(self, flux):
        # A throat far from choking is quickly found; only the rest asks for the largest flux.
        near = 0.9 * self.p1
        if self.flux(near) > flux:
            return brentq(lambda p: self.flux(p) - flux, near, self.p1 * (1 - 1e-13), xtol=1e-10 * self.p1)
        p, most = self.largest()
        if flux > most:
            raise Stuck
        return brentq(lambda q: self.flux(q) - flux, p, self.p1 * (1 - 1e-13), xtol=1e-10 * self.p1)


class Path:
    """Elements in order, and how they group into the parts that people see."""

    def __init__(self, fluid, model, elements, counts):
        self.fluid, self.model, self.elements, self.counts = fluid, model, elements, counts

    def march(self, m, p, h0, first=0):
        """Pressures after each element from `first` on; Stuck names the element."""
        after = []
        for index in range(first, len(self.elements)):
            try:
                p = self.elements[index].march(self.fluid, self.model, m, p, h0)
            except Stuck:
                raise Stuck(index) from None
            if p <= self.fluid.lowest * 1.001:
                raise Stuck(index)
            after.append(p)
        return after

    def end(self, m, p, h0):
        after = self.march(m, p, h0) if m > 0 else []
        return after[-1] if after else p

    def hanging(self, m, top, h0, end, first):
        """Behind a choke: the pressure that brings the elements from `first` on to the end, theirs,
        and which of them chokes if none does."""
        low, high, blocked = end, top, None

        def excess(p):
            """More than the end's pressure, or nothing and who chokes."""
            try:
                return self.march(m, p, h0, first)[-1] - end, None
            except Stuck as choke:
                return -1.0, choke.index

        # A tube that falls may gain pressure.
        while excess(low)[0] > 0:
            high, low = low, 0.7 * low
        for _ in range(60):
            middle = 0.5 * (low + high)
            miss, by = excess(middle)
            if miss > 0:
                high = middle
            else:
                low, blocked = middle, by
        return high, self.march(m, high, h0, first), blocked

    def profile(self, m, p, h0, end, stuck=None):
        """Pressures before the first and after each element, and who chokes; behind a choke (-1: that
        of the branches before) they hang from the end."""
        at = [p, *self.march(m, p, h0)]
        choked = []
        while stuck is not None:
            if stuck >= 0:
                choked.append(stuck)
            if stuck + 1 >= len(self.elements):
                at[stuck + 1] = end
                break
            behind, rest, blocked = self.hanging(m, at[stuck + 1], h0, end, stuck + 1)
            at[stuck + 1 :] = [behind, *rest]
            stuck = blocked if abs(rest[-1] / end - 1) > 1e-4 else None
        return at[0], at[1:], choked
