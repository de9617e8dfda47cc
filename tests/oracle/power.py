"""Random power paths solved with their motors: writes power.csv.

`python power.py`. One phase, sinusoidal. Source - branch circuit - receptacle contact - cords -
motor, other loads as a resistance behind the branch circuit. Each conductor: r = r_ref (1 + a (T -
T_ref)), T = T_air + R_th I^2 r(T) with R_th such that its ampacity at 30 degC air just reaches its
rated temperature (coiled: half the ampacity). Unknowns are found together by scipy's root finder
on the node equations, from a cold start upwards in steps of the load.

Motors, by the contract:
- induction: R1 - jX - (jXm || R2/s), fitted to the rated point and the locked rotor (X is its
  reactance, R1 = R2 where that leaves the locked rotor at least 2 R2, else R1 = R_locked - R2);
  constant load torque, constant loss torque;
- drive: constant power at constant power factor, higher of the two voltages;
- universal: V = I (R + jX) + k w I, torque k I^2; half of the losses in the windings.

Conductors from the standards as printed: NEC chapter 9 table 8 (75 degC) and 9 (reactance), IEC
60228 class 5 and 1 (20 degC), NEC 400.5(A) and 310.16 (60 degC) ampacities; aluminium building wire
from memory of table 8, copper-clad 62.9 % of copper's conductivity.
"""

import cmath
import csv
import math
import random

from scipy.optimize import brentq, fsolve

SEED = 714
KFT = 304.8
# AWG: copper solid, stranded, aluminium solid, stranded (ohm/kft at 75 degC), reactance, ampacity
# of a cord and of building wire.
AWG = {
    18: (7.77, 7.95, 12.8, 13.1, 0.062, 10, 7), 16: (4.89, 4.99, 8.05, 8.21, 0.060, 13, 10),
    14: (3.07, 3.14, 5.06, 5.17, 0.058, 18, 15), 12: (1.93, 1.98, 3.18, 3.25, 0.054, 25, 20),
    10: (1.21, 1.24, 2.00, 2.04, 0.050, 30, 30),
}
# mm2: class 1 and class 5 (ohm/km at 20 degC), ampacity of a cord and of building wire.
METRIC = {1.0: (18.1, 19.5, 10, 13), 1.5: (12.1, 13.3, 16, 16.5), 2.5: (7.41, 7.98, 25, 23), 4.0: (4.61, 4.95, 32, 30)}
COPPER_CLAD = 0.629


class Wire:
    """One conductor per metre: resistance over temperature, warming, reactance."""

    def __init__(self, size, metal, stranded, is_cord, coiled, air_c, hz):
        if size in AWG:
            row = AWG[size]
            copper = (row[1 if stranded else 0] / KFT, 0.00323, 75.0)
            aluminium = (row[3 if stranded else 2] / KFT, 0.00330, 75.0)
            self.x = row[4] / KFT * hz / 60
            ampacity, rated = row[5 if is_cord else 6], 60.0
        else:
            row = METRIC[size]
            r20 = row[1 if stranded else 0] / 1000
            copper, aluminium = (r20, 0.00393, 20.0), (r20 / 0.61, 0.00403, 20.0)
            self.x = 0.1e-3 * hz / 50
            ampacity, rated = row[2 if is_cord else 3], 60.0 if is_cord else 70.0
        at = lambda line, t: line[0] * (1 + line[1] * (t - line[2]))
        clad = (at(copper, 20) / COPPER_CLAD, 0.0040, 20.0)
        self.line = {"copper": copper, "aluminium": aluminium, "copper_clad_aluminium": clad}[metal]
        # Other metals carry the current that makes the same heat at 60 degC.
        ampacity *= math.sqrt(at(copper, 60) / at(self.line, 60))
        self.r = lambda t: at(self.line, t)
        self.heat = (rated - 30) / (ampacity**2 * self.r(rated)) * (4 if coiled else 1)
        self.air = air_c

    def temperature(self, amps):
        """From a cold start upwards: the first steady temperature; none by 150 degC means there."""
        grow = lambda t: self.air + self.heat * amps**2 * self.r(t)
        t = self.air
        for _ in range(2000):
            new = min(grow(t), 150.0)
            if abs(new - t) < 1e-12:
                break
            t = new
        return t

    def impedance(self, amps, metres):
        return 2 * metres * complex(self.r(self.temperature(amps)), self.x)


class Induction:
    def __init__(self, volts, amps, pf, shaft_w, rpm, locked_a, locked_pf, hz=60.0):
        self.shaft_w = shaft_w
        sync = next(60 * hz / pairs for pairs in range(6, 0, -1) if 60 * hz / pairs > rpm)
        slip = 1 - rpm / sync
        rated = cmath.rect(volts / amps, math.acos(pf))
        locked = cmath.rect(volts / locked_a, math.acos(locked_pf))
        self.x = locked.imag

        def shunt(xm, r2, s):
            return 1 / (1 / (1j * xm) + s / r2)

        def equal(u):  # R1 = R2
            xm, r2 = u
            z = r2 + 1j * self.x + shunt(xm, r2, slip)
            return [(z - rated).real, (z - rated).imag]

        def left(u):  # R1 = what the locked rotor leaves
            xm, r2 = u
            z = locked.real - r2 + 1j * self.x + shunt(xm, r2, slip)
            return [(z - rated).real, (z - rated).imag]

        guess = [3 * abs(rated), slip * abs(rated)]
        (self.xm, self.r2), _, ok, _ = fsolve(equal, guess, full_output=True, xtol=1e-13)
        self.r1 = self.r2
        if ok != 1 or self.r2 <= 0 or 2 * self.r2 > locked.real:
            (self.xm, self.r2), _, ok, _ = fsolve(left, guess, full_output=True, xtol=1e-13)
            self.r1 = locked.real - self.r2
            if ok != 1 or min(self.r1, self.r2, self.xm) <= 0:
                raise ValueError("no circuit")
        self.shunt = shunt
        self.rated_slip = slip
        self.gap_w = amps**2 * shunt(self.xm, self.r2, slip).real
        self.load_w = shaft_w / (1 - slip)
        if self.load_w > self.gap_w:
            raise ValueError("more than the gap passes")
        self.locked, self.hz = locked, hz

    def impedance(self, s, f):
        return self.r1 + 1j * self.x * f + self.shunt(self.xm * f, self.r2, s)

    def run(self, open_v, z, f=1.0, load=1.0):
        """Voltage, current and speed behind a source: the smallest slip that carries the torque."""
        wanted = f * (self.gap_w - self.load_w + load * self.load_w)

        def gap(s):
            i = open_v / (z + self.impedance(s, f))
            return abs(i) ** 2 * self.shunt(self.xm * f, self.r2, s).real

        s = 1e-5
        while gap(s) < wanted:
            s *= 1.02
            if s > 1:
                raise ValueError("stalls")
        s = brentq(lambda s: gap(s) - wanted, s / 1.02, s, xtol=1e-14)
        i = open_v / (z + self.impedance(s, f))
        return open_v - i * z, i, f * (1 - s) / (1 - self.rated_slip)

    def start(self, f):
        return complex(self.locked.real, self.locked.imag * f)


class Drive:
    def __init__(self, volts, amps, pf, inrush):
        self.w, self.pf = volts * amps * pf, pf
        self.z_start = cmath.rect(volts / amps / inrush, math.acos(pf))

    def run(self, open_v, z, f=1.0, load=1.0):
        """P + jQ = V conj(I), E = V + Z I, as real equations from the open voltage down."""
        power = cmath.rect(self.w / self.pf, math.acos(self.pf))

        def miss(u):
            v = complex(u[0], u[1])
            e = v + z * (power / v).conjugate() - open_v
            return [e.real, e.imag]

        u = [open_v.real, open_v.imag]
        u, _, ok, _ = fsolve(miss, u, full_output=True, xtol=1e-13)
        if ok != 1 or abs(complex(*u)) < 0.55 * abs(open_v):
            raise ValueError("collapses")
        v = complex(*u)
        return v, (power / v).conjugate(), 1.0

    def start(self, f):
        return self.z_start


class Universal:
    def __init__(self, volts, amps, pf, shaft_w, locked_a, locked_pf):
        rated = cmath.rect(volts / amps, math.acos(pf))
        lost = volts * amps * pf - shaft_w
        self.back = (shaft_w + lost / 2) / amps**2
        self.z = rated - self.back
        self.amps = amps  # constant torque: constant current
        self.locked = cmath.rect(volts / locked_a, math.acos(locked_pf))

    def run(self, open_v, z, f=1.0, load=1.0):
        passive = z + complex(self.z.real, self.z.imag * f)
        miss = lambda back: abs(open_v / (passive + back)) - self.amps
        if miss(0) < 0:
            raise ValueError("stalls")
        back = brentq(miss, 0, 100, xtol=1e-13)
        i = open_v / (passive + back)
        return open_v - i * z, i, back / self.back

    def start(self, f):
        return complex(self.locked.real, self.locked.imag * f)


def solve(case):
    """Running and starting, everything iterated together until currents stand still."""
    hz, air = case["hz"], case["air_c"]
    b = case["branch"]
    branch = Wire(b["size"], b["metal"], b["stranded"], False, False, air, hz)
    cords = [(Wire(c["size"], c["metal"], True, True, c["coiled"], air, hz), c) for c in case["cords"]]
    open_v, motor, f = complex(case["volts"]), case["motor"], hz / case["motor_hz"]
    other = case["volts"] / b["other_a"] if b["other_a"] else None
    branch_a, cord_a = b["other_a"], 0.0

    def thevenin(source):
        up = source + branch.impedance(branch_a, b["metres"])
        down = complex(b["contact"]) + sum(w.impedance(cord_a, c["metres"]) + c["contact"] for w, c in cords)
        if other:
            return open_v * other / (up + other), up * other / (up + other) + down, down
        return open_v, up + down, down

    if case["generator"]:
        base = case["volts"] ** 2 / case["generator"]
        source, start_source = complex(0.05 * base), complex(0, 0.25 * base)
    else:
        source = start_source = complex(case["source_r"], case["source_x"])
    e, z, down = thevenin(start_source)
    i = e / (z + motor.start(f))
    start_v, start_a = abs(i * motor.start(f)), abs(i)
    for _ in range(400):
        e, z, down = thevenin(source)
        v, i, speed = motor.run(e, z, f)
        plug = v + i * (down - b["contact"])
        circuit = i + ((v + i * down) / other if other else 0)
        moved = abs(abs(i) - cord_a)
        branch_a, cord_a = abs(circuit), abs(i)
        if moved < 1e-10 * cord_a:
            break
    else:
        raise ValueError("unsettled")
    warmest = max([w.temperature(cord_a) for w, _ in cords] + [branch.temperature(branch_a)])
    return dict(
        running_v=abs(v), running_a=abs(i), plug_v=abs(plug), speed_ratio=speed, warmest_c=warmest,
        starting_v=start_v, starting_a=start_a,
    )


def draw(chance):
    number = lambda low, high, digits=3: float(f"{chance.uniform(low, high):.{digits}g}")
    is_metric = chance.random() < 0.3
    volts_rated = 230.0 if is_metric or chance.random() < 0.15 else 115.0
    hz = 50.0 if is_metric else 60.0
    size = lambda: chance.choice(list(METRIC)) if is_metric else chance.choice(list(AWG))
    branch = dict(
        size=chance.choice([1.5, 2.5, 4.0]) if is_metric else chance.choice([14, 12, 10]),
        metal=chance.choice(["copper", "copper", "copper", "aluminium"]), stranded=chance.random() < 0.4,
        metres=number(2, 45), other_a=chance.choice([0.0, 0.0, number(0.5, 6)]), contact=chance.choice([0.0, number(0.01, 0.15)]),
    )
    metal = lambda: chance.choice(["copper", "copper", "copper", "copper_clad_aluminium", "aluminium"])
    cords = [
        dict(
            size=size(), metal=metal(), metres=number(3, 40), coiled=chance.random() < 0.3,
            contact=chance.choice([0.0, number(0.01, 0.1)]),
        )
        for _ in range(chance.randint(0, 3))
    ]
    amps = number(4, 12) * (0.55 if volts_rated > 200 else 1.0)
    amps = float(f"{amps:.3g}")
    kind = chance.choice(["induction", "induction", "electronic", "universal"])
    case = dict(
        volts=float(f"{volts_rated * chance.uniform(0.98, 1.08):.4g}"), hz=hz, motor_hz=hz, air_c=number(-5, 42), branch=branch,
        cords=cords, generator=0.0, source_r=0.0, source_x=0.0, kind=kind, rated_v=volts_rated, rated_a=amps,
    )
    source = chance.choice(["held", "service", "service", "generator"])
    if source == "service":
        case.update(source_r=number(0.005, 0.2), source_x=number(0.005, 0.15))
    if source == "generator":
        case.update(generator=float(f"{volts_rated * amps * chance.uniform(1.5, 4):.3g}"))
    if kind == "induction" and chance.random() < 0.2:
        case["hz"] = round(hz * chance.uniform(0.96, 1.03), 2)
    pf = number(0.7, 0.93) if kind != "electronic" else number(0.85, 0.99)
    shaft = float(f"{volts_rated * amps * pf * chance.uniform(0.55, 0.8):.4g}")
    locked_a, locked_pf = float(f"{amps * chance.uniform(4.5, 7):.3g}"), number(0.5, 0.85)
    rpm = float(f"{60 * hz / 2 * (1 - chance.uniform(0.02, 0.06)):.5g}")
    case.update(pf=pf, shaft_w=shaft, locked_a=locked_a, locked_pf=locked_pf, rpm=rpm, inrush=number(1.1, 2.5))
    if kind == "induction":
        case["motor"] = Induction(volts_rated, amps, pf, shaft, rpm, locked_a, locked_pf, hz)
    elif kind == "electronic":
        case["motor"] = Drive(volts_rated, amps, pf, case["inrush"])
    else:
        case["motor"] = Universal(volts_rated, amps, pf, shaft, locked_a, locked_pf)
    return case


def texts(case):
    """Supply and motor as the document writes them."""
    b = case["branch"]
    unit = lambda size: f"{size} AWG" if size in AWG else f"{size} mm2"
    stranding = "stranded" if b["stranded"] else "solid"
    branch = f'(gauge: "{unit(b["size"])}", length: "{b["metres"]} m", material: {b["metal"]}, stranding: {stranding}'
    branch += (f', other_load: "{b["other_a"]} A"' if b["other_a"] else "") + f', contact_resistance: "{b["contact"]} ohm")'
    cords = ", ".join(
        f'(gauge: "{unit(c["size"])}", length: "{c["metres"]} m", material: {c["metal"]}, '
        f'lay: {"coiled" if c["coiled"] else "straight"}, contact_resistance: "{c["contact"]} ohm")'
        for c in case["cords"]
    )
    supply = f'(voltage: "{case["volts"]} V", frequency: "{case["hz"]} Hz"'
    if case["generator"]:
        supply += f', generator: (continuous: "{case["generator"]} VA", surge: "{2 * case["generator"]} VA")'
    elif case["source_r"]:
        supply += f', source_resistance: "{case["source_r"]} ohm", source_reactance: "{case["source_x"]} ohm"'
    supply += f", branch: {branch}, cords: [{cords}])"
    motor = f'(kind: {case["kind"]}, rated_voltage: "{case["rated_v"]} V", rated_current: "{case["rated_a"]} A"'
    motor += f', frequency: "{case["motor_hz"]} Hz"'
    motor += f', power_factor: "{case["pf"]}", shaft_power: "{case["shaft_w"]} W"'
    if case["kind"] == "induction":
        motor += f', speed: "{case["rpm"]} rpm"'
    if case["kind"] == "electronic":
        motor += f', inrush: "{case["inrush"]}", trip_voltage: "{0.5 * case["rated_v"]} V"'
    else:
        motor += f', locked_rotor_current: "{case["locked_a"]} A", starting_power_factor: "{case["locked_pf"]}"'
    return supply, motor + ")"


def main(wanted=60):
    chance, rows, refused = random.Random(SEED), [], 0
    while len(rows) < wanted:
        try:
            case = draw(chance)
            found = solve(case)
        except ValueError:
            refused += 1
            continue
        supply, motor = texts(case)
        figures = {key: f"{value:.9g}" for key, value in found.items()}
        told = {"id": len(rows), "motor_kind": case["kind"], "air_c": case["air_c"]}
        rows.append({**told, "supply": supply, "motor": motor, **figures})
    with open("power.csv", "w", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    print(len(rows), "cases,", refused, "draws without an answer")


if __name__ == "__main__":
    main()
