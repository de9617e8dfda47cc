"""The operating point: path, machine, condenser and cylinder together.

m = eta rho V, eta = lambda (1 + c - c (pd/ps)^(1/n)); the exponent is given or that of the vapour's
isentrope from suction (the dew line if wet) to twice its pressure. Shaft work per mass
n/(n-1) ps vs (r^((n-1)/n) - 1)/eta_m. Condenser: a given temperature, or
UA (T_cond - T_air) = m (h0 + w - h_liquid). Discharge: the higher of saturation there and the
cylinder's pressure plus what the discharge parts take. Everything is found by halving.
"""

import math

from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from flow import Jet, Path, Stuck


class Machine:
    def __init__(self, displacement, clearance=0.05, loss=0.95, exponent=1.1, efficiency=0.8, throttle=None):
        self.V, self.c, self.loss, self.n = displacement, clearance, loss, exponent
        self.efficiency, self.throttle = efficiency, throttle

    def exponent(self, fluid, p, h):
        if self.n:
            return self.n
        dew = fluid.line(p)[1]
        v1 = fluid.volume(p, max(h, dew * (1 + 1e-9)))
        slope = lambda x, y: [fluid.volume(p * math.exp(x), y[0]) * p * math.exp(x)]
        run = solve_ivp(slope, (0, math.log(2)), [max(h, dew)], rtol=1e-8, atol=1e-6)
        v2 = fluid.volume(2 * p, run.y[0][-1])
        return min(max(math.log(2) / math.log(v1 / v2), 1.01), 2.0)

    def draws(self, v, n, ps, pd, speed=1.0):
        return max(self.loss * (1 + self.c - self.c * (pd / ps) ** (1 / n)), 0.0) * self.V * speed / v

    def work(self, v, n, ps, pd):
        return max(n / (n - 1) * ps * v * ((pd / ps) ** ((n - 1) / n) - 1), 0.0) / self.efficiency


class Discharge:
    def __init__(self, fluid, model, elements, cylinder_pa, condensing_k=None, conductance=None, air_k=None):
        self.fluid, self.path = fluid, Path(fluid, model, elements, None)
        self.cylinder, self.Tc, self.UA, self.air = cylinder_pa, condensing_k, conductance, air_k
        self.fixed = fluid.saturated(condensing_k, 0) if condensing_k else None

    def _condensed(self, machine, v, n, ps, h0, m):
        """Pressure and liquid enthalpy at which the heat leaves."""
        if self.fixed:
            return self.fixed
        fluid = self.fluid

        def excess(p):
            h_liquid, _, _, T, _ = fluid.line(p)
            work = machine.work(v, n, ps, max(p, self.cylinder))
            return self.UA * (T - self.air) - m * (h0 + work - h_liquid)

        low, high = fluid.saturated(self.air, 0)[0], fluid.highest * 0.999
        if excess(low) >= 0:
            return low, fluid.line(low)[0]
        if excess(high) <= 0:
            raise ValueError("cannot condense")
        p = brentq(excess, low, high, xtol=0.1)
        return p, fluid.line(p)[0]

    def pressure(self, machine, v, n, ps, h0, m):
        p, h = self._condensed(machine, v, n, ps, h0, m)
        wanted = max(p, self.cylinder)
        if not self.path.elements or m == 0:
            return wanted, h

        def spare(p):
            try:
                return self.path.end(m, p, h) - self.cylinder
            except Stuck:
                return -self.cylinder

        first = spare(wanted)
        if first >= 0:
            return wanted, h
        high = wanted - 1.3 * first
        while spare(high) < 0:
            high *= 1.15
            if high > self.fluid.highest:
                raise ValueError("discharge blocked")
        return brentq(spare, wanted, high, xtol=1e-6 * wanted), h


class Branches:
    """Two branches of one system, each (path, p, h), that meet; the trunk follows."""

    def __init__(self, first, second):
        self.first, self.second = first, second

    def meet(self, m):
        """Pressure and enthalpy where they meet, and the first branch's flow."""
        (a, pa, ha), (b, pb, hb) = self.first, self.second

        def end(path, flow, p, h):
            try:
                return path.end(flow, p, h)
            except Stuck:
                return 0.0

        low, high = 0.0, 1.0
        for _ in range(34):
            share = 0.5 * (low + high)
            ends = end(a, share * m, pa, ha), end(b, (1 - share) * m, pb, hb)
            if ends == (0.0, 0.0):
                raise Stuck(-1)
            if ends[0] > ends[1]:
                low = share
            else:
                high = share
        # Whichever side of the last step passes on both branches.
        best = 0.0
        for share in (low, high):
            ends = end(a, share * m, pa, ha), end(b, (1 - share) * m, pb, hb)
            if min(ends) > 0 and max(ends) - min(ends) < 1e-5 * max(ends):
                return min(ends), share * ha + (1 - share) * hb, share * m
            if min(ends) > best:
                best, chosen = min(ends), share
        if best == 0.0:
            raise Stuck(-1)
        return best, chosen * ha + (1 - chosen) * hb, chosen * m


def solve(fluid, path, p0, h0, machine, discharge, speed=1.0, branches=None):
    """The operating point, as a dictionary of results."""
    elements = list(path.elements)
    if machine.throttle:
        elements.append(machine.throttle)
    whole = Path(fluid, path.model, elements, path.counts)

    def start(m):
        if branches is None:
            return p0, h0
        if m == 0:
            return p0, h0
        return branches.meet(m)[:2]

    def drawn(p, h, m):
        v = fluid.volume(p, h)
        n = machine.exponent(fluid, p, h)
        pd, _ = discharge.pressure(machine, v, n, p, h, m)
        return machine.draws(v, n, p, pd, speed), pd

    high = drawn(p0, h0, 0.0)[0]
    if high <= 0:
        raise ValueError("draws nothing")
    low, stuck, excess, top_stuck = 0.0, None, high, False
    p_low = p0
    for _ in range(60):
        m = 0.5 * (low + high)
        try:
            p, h = start(m)
            p = whole.end(m, p, h) if elements else p
            more = drawn(p, h, m)[0] - m
        except Stuck as choke:
            high, stuck, top_stuck = m, choke.index, True
            continue
        if more > 0:
            low, excess, p_low = m, more, p
        else:
            high, top_stuck = m, False
        if high - low < 2e-7 * high:
            break
    m = low
    p1, h1 = start(m)
    choked = top_stuck and excess > 1e-5 * m
    if choked:
        miss = lambda p: drawn(p, h1, m)[0] - m
        floor = fluid.lowest * 1.001
        if miss(floor) > 0:
            raise ValueError("below the table")
        p_suction = brentq(miss, floor, p_low, xtol=1e-7 * p_low)
    else:
        stuck, p_suction = None, p_low
    p1, after, chokes = whole.profile(m, p1, h1, p_suction, stuck if choked else None)
    _, pd = drawn(p_suction, h1, m)
    inlet = after[-2] if machine.throttle and len(after) > 1 else (p1 if machine.throttle else p_suction)
    result = dict(m=m, suction=p_suction, inlet=inlet, discharge=pd, after=after[: len(path.elements)], start=p1)
    result["choked"] = stuck if choked else None
    result["chokes"], result["excess"] = chokes, excess
    # How near an unchoked flow is to the plateau (a tube's is reached flat: a hair more, and it chokes),
    # or a choked one to the crossing.
    def sticks(m):
        try:
            whole.end(m, *start(m))
        except Stuck:
            return True
        return False

    result["near"] = sticks(m * (1 + 1e-5)) if not choked else bool(excess < 5e-4 * m)
    if branches is not None:
        result["first"] = branches.meet(m)[2]
    return result
