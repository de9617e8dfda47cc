"""The same work straight on CoolProp: time of look-ups, of an operating point and of 1,000 draws.

Run `python3 tests/oracle/speed.py`; the package is pinned in requirements.txt beside it. The low-level
interface is used throughout (one AbstractState, inputs as numbers, nothing built in the loop), and
the steps are those a careful person would write: the look-ups are CoolProp's, the rest is plain
arithmetic. Times are of this process on a processor (others' work does not count), the best of
several rounds. To set them against this program's, run `cargo bench --no-default-features`
beside it, or pass its times as microseconds:

    python3 tests/oracle/speed.py --lookup 0.127 --point 50 --draws 100000

The operating point: R-410A vapour at 75 degF through a 2.2 mm core (discharge coefficient 0.7), 5 ft of
4.8 mm hose, two 3.6 mm seats (0.8), 3 ft of 4.8 mm hose, a 2.6 mm end (0.8), into a compressor of
0.42 cfm with 5 % clearance, 0.95 losses and exponent 1.1 that condenses at 100 degF.
"""

import argparse
import math
import random
import time

import CoolProp
import CoolProp.CoolProp as CP

FOOT_M = 0.3048
CFM_M3_S = FOOT_M**3 / 60
SOURCE_K = (75 + 459.67) / 1.8
CONDENSING_K = (100 + 459.67) / 1.8
ROUGHNESS_M = 1e-5


def kelvin_states(name):
    """The refrigerant, as CoolProp models it: R-410A is a pseudo-pure fluid there."""
    return CoolProp.AbstractState("HEOS", name)


class Gas:
    """Look-ups of vapour, counted."""

    def __init__(self, name="R410A"):
        self.state = kelvin_states(name)
        self.lookups = 0

    def enthalpy(self, p, h):
        self.lookups += 1
        self.state.update(CP.HmassP_INPUTS, h, p)
        return 1 / self.state.rhomass()

    def entropy(self, p, s):
        self.lookups += 1
        self.state.update(CP.PSmass_INPUTS, p, s)
        return 1 / self.state.rhomass(), self.state.hmass()

    def entropy_at(self, p, h):
        self.lookups += 1
        self.state.update(CP.HmassP_INPUTS, h, p)
        return self.state.smass()

    def saturated(self, k):
        self.state.update(CP.QT_INPUTS, 1, k)
        return self.state.p(), self.state.hmass(), self.state.viscosity()

    def bubble_pa(self, k):
        self.state.update(CP.QT_INPUTS, 0, k)
        return self.state.p()


class Choked(Exception):
    """The part cannot pass so much."""


def hole(gas, area, flow, p, h):
    """Pressure in the throat: Newton from rest, the volume as a power of the pressure."""
    s = gas.entropy_at(p, h)
    flux2 = (flow / area) ** 2
    here, v, work, power = p, gas.enthalpy(p, h), 0.0, 0.0
    for _ in range(12):
        slope = v * (1 - flux2 * v * power / here)
        if slope < 0.05 * v:
            raise Choked
        drop = (0.5 * flux2 * v * v - work) / slope
        after = here - drop
        if after < 0.1 * p:
            raise Choked
        if abs(drop) < 1e-9 * p:
            return after
        new_v, new_h = gas.entropy(after, s)
        power = -math.log(new_v / v) / math.log(after / here)
        here, v, work = after, new_v, h - new_h
    raise Choked


def friction(flux, bore, v, viscosity):
    """Churchill's factor in the gradient over the volume."""
    re = flux * bore / viscosity
    a = (-2.457 * math.log((7 / re) ** 0.9 + 0.27 * ROUGHNESS_M / bore)) ** 16
    f = 8 * ((8 / re) ** 12 + (a + (37530 / re) ** 16) ** -1.5) ** (1 / 12)
    return f * flux * flux / (2 * bore)


def static_volume(gas, flux, p, h, guess):
    v = guess
    for _ in range(8):
        new = gas.enthalpy(p, h - 0.5 * flux * flux * v * v)
        if abs(new - v) < 1e-9 * v:
            return new
        v = new
    return v


def tube(gas, bore, length, flow, p, h, viscosity):
    """Pressure at the end: Simpson's rule over the drop, the drop by the secant method."""
    flux = flow / (math.pi / 4 * bore * bore)
    v1 = static_volume(gas, flux, p, h, gas.enthalpy(p, h))

    def passed(drop):
        v2 = static_volume(gas, flux, p - drop / 2, h, v1 * p / (p - drop / 2))
        v3 = static_volume(gas, flux, p - drop, h, v1 * p / (p - drop))
        density = (1 / v1 + 4 / v2 + 1 / v3) / 6
        drag = friction(flux, bore, v2, viscosity)
        return (density * drop - flux * flux * math.log(v3 / v1)) / drag

    a = length * friction(flux, bore, v1, viscosity) * v1
    if a > 0.5 * p:
        raise Choked
    za = passed(a)
    b = a * length / za
    for _ in range(12):
        zb = passed(b)
        if abs(zb - length) < 1e-7 * length:
            return p - b
        a, za, b = b, zb, b + (length - zb) * (b - a) / (zb - za)
        if not 0 < b < 0.7 * p:
            raise Choked
    raise Choked


class Point:
    """The kit on one day."""

    def __init__(self, gas, core=2.2e-3, hose=4.8e-3, cfm=0.42):
        area = lambda d, c: c * math.pi / 4 * d * d
        self.gas, self.hose, self.displacement = gas, hose, cfm * CFM_M3_S
        self.p0, self.h0, self.viscosity = gas.saturated(SOURCE_K)
        self.discharge = max(gas.bubble_pa(CONDENSING_K), gas.bubble_pa(SOURCE_K))
        self.parts = [(hole, area(core, 0.7)), (tube, 5), (hole, area(3.6e-3, 0.8))]
        self.parts += [(hole, area(3.6e-3, 0.8)), (tube, 3), (hole, area(2.6e-3, 0.8))]

    def arrives(self, flow):
        p = self.p0
        for part, size in self.parts:
            if part is hole:
                p = hole(self.gas, size, flow, p, self.h0)
            else:
                p = tube(self.gas, self.hose, size * FOOT_M, flow, p, self.h0, self.viscosity)
        return p

    def excess(self, flow):
        try:
            p = self.arrives(flow)
        except Choked:
            return -flow
        efficiency = 0.95 * (1.05 - 0.05 * (self.discharge / p) ** (1 / 1.1))
        return efficiency * self.displacement / self.gas.enthalpy(p, self.h0) - flow

    def solve(self):
        """The crossing: regula falsi of the Illinois kind."""
        open_flow = 0.95 * (1.05 - 0.05 * (self.discharge / self.p0) ** (1 / 1.1))
        open_flow *= self.displacement / self.gas.enthalpy(self.p0, self.h0)
        (a, fa), (b, fb) = (0.0, open_flow), (open_flow, self.excess(open_flow))
        for _ in range(60):
            c = (a * fb - b * fa) / (fb - fa)
            fc = self.excess(c)
            if abs(fc) < 1e-7 * open_flow:
                return c
            if fc * fb < 0:
                a, fa = b, fb
            else:
                fa /= 2
            b, fb = c, fc
        return b


def best(rounds, work):
    def once():
        start = time.process_time()
        work()
        return time.process_time() - start

    return min(once() for _ in range(rounds))


def lookup_us(inputs, pairs):
    state = kelvin_states("R410A")

    def all_of_them():
        for a, b in pairs:
            state.update(inputs, a, b)
            state.rhomass()

    return 1e6 * best(5, all_of_them) / len(pairs)


def spread(count=400):
    """Pressures from 1 bar to 0.8 of the critical, vapour of some superheat."""
    state = kelvin_states("R410A")
    low, high = 1e5, 0.8 * state.p_critical()
    states = []
    for i in range(count):
        p = low * (high / low) ** (i * 0.618034 % 1)
        state.update(CP.PQ_INPUTS, p, 1)
        state.update(CP.PT_INPUTS, p, state.T() + 1 + 40 * (i * 0.754878 % 1))
        states.append((p, state.hmass(), state.smass()))
    return states


def main():
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    for name, what in [
        ("lookup", "(p, h) of vapour"),
        ("entropy", "(p, s) of vapour"),
        ("point", "an operating point"),
        ("draws", "1,000 draws"),
    ]:
        arguments.add_argument(f"--{name}", type=float, help=f"this program's time of {what}, in microseconds")
    ours = arguments.parse_args()

    def row(what, us, mine):
        ratio = f"   {us / mine:8.0f} times ours" if mine else ""
        print(f"{what:<44}{us:14.2f} us{ratio}")

    states = spread()
    row("(p, h) look-up, vapour", lookup_us(CP.HmassP_INPUTS, [(h, p) for p, h, _ in states]), ours.lookup)
    row("(p, s) look-up, vapour", lookup_us(CP.PSmass_INPUTS, [(p, s) for p, _, s in states]), ours.entropy)
    gas = Gas()
    flow = Point(gas).solve()
    gas.lookups = 0
    Point(gas).solve()
    print(f"operating point: {flow:.6e} kg/s in {gas.lookups} look-ups")
    row("operating point, six holes and hoses", 1e6 * best(5, lambda: Point(gas).solve()), ours.point)
    draws = random.Random(1)
    kits = [
        (draws.uniform(1.9e-3, 2.5e-3), draws.uniform(4.5e-3, 5.1e-3), draws.uniform(0.38, 0.46)) for _ in range(20)
    ]
    twenty = best(2, lambda: [Point(gas, *kit).solve() for kit in kits])
    row("1,000 draws, from 20", 1e6 * twenty * 50, ours.draws)


if __name__ == "__main__":
    main()
