"""A random set of kits, solved: writes kits.csv and lines.csv.

`python kits.py` solves all of them, `python kits.py 17` prints kit 17 alone: every kit has a seed of
its own. A draw without an answer (nothing drawn, beyond the property range, not the kind that was
asked for) is drawn again; how often is printed.

Kinds: plain; delayed flashing; hoses that rise and fall; both phases through one port; the vapour's
own exponent; condenser by conductance; parts behind the machine; near vacuum; the machine's own
inlet; two ports; edge, where the machine draws within 0.4 % of what the path can pass; chokes, where two
parts choke at once.
"""

import csv
import math
import random
import sys
from collections import Counter
from functools import cache
from multiprocessing import Pool

import CoolProp.CoolProp as CP

from flow import Path, Restriction, Stuck, Tube
from machine import Branches, Discharge, Machine, solve
from states import FLUIDS, LIQUID_J_KG, Fluid

SEED = 20261125
CFM = 0.3048**3 / 60
# Source, condensing and cylinder temperatures, degC.
USUAL = ((-5.0, 38.0), (30.0, 45.0), (12.0, 32.0))
RANGES = {
    "R-744": ((-25.0, 8.0), (8.0, 18.0), (-10.0, 8.0)),
    "R-123": ((18.0, 60.0), (35.0, 70.0), (20.0, 40.0)),
    "R-600a": ((5.0, 45.0), (35.0, 55.0), (15.0, 35.0)),
}
KINDS = [
    ("plain", 96), ("delayed", 28), ("rise", 22), ("both", 14), ("exponent", 12), ("condenser", 16),
    ("discharge", 14), ("vacuum", 16), ("throttle", 14), ("ports", 8), ("edge", 16), ("chokes", 12),
]
LINES = 24
# The whole plan is drawn so often, each time with a seed of its own.
ROUNDS = 3
COLUMNS = [
    "id", "kind", "refrigerant", "port", "source_c", "vapour_share", "flashing", "friction", "parts",
    "second", "joins_before", "displacement_cfm", "clearance", "loss_factor", "exponent", "throttle_mm",
    "condensing_c", "conductance_w_k", "air_c", "cylinder_c", "excess_kpa", "discharge", "rate_kg_s",
    "inlet_kpa", "discharge_kpa", "first_kg_s", "choked_part", "chokes", "near", "after_kpa",
]


class Draw:
    def __init__(self, chance):
        self.chance = chance

    def number(self, low, high, digits=4, log=False):
        value = math.exp(self.chance.uniform(math.log(low), math.log(high))) if log else self.chance.uniform(low, high)
        return float(f"{value:.{digits}g}")

    def hole(self, kind, low, high, cd):
        bore, cd = self.number(low, high, 3), self.number(cd - 0.1, cd + 0.1, 3)
        recovery = self.chance.choice([1.0, 1.0, self.number(0.6, 0.98, 3)])
        text = f'{kind}(bore: "{bore} mm", discharge_coefficient: "{cd}", pressure_recovery: "{recovery}")'
        return text, [Restriction.hole(bore / 1e3, cd, recovery)]

    def hose(self, rises=False):
        bore = self.chance.choice([self.number(3.5, 5.5, 3), self.number(6.0, 12.0, 3)])
        length, rough = self.number(0.3, 30, 3, log=True), self.number(0.0015, 0.03, 2)
        text, rise = f'Hose(bore: "{bore} mm", length: "{length} m", roughness: "{rough} mm"', 0.0
        if rises:
            length = self.number(2, 20, 3)
            rise = self.number(0.1, 0.9, 2) * length * self.chance.choice([-1, 1])
            rise = float(f"{rise:.3g}")
            text = f'Hose(bore: "{bore} mm", length: "{length} m", roughness: "{rough} mm", rise: "{rise} m"'
        return text + ")", [Tube(bore / 1e3, length, rough / 1e3, rise)]

    def gauge_set(self):
        bore, cd, seats = self.number(2.5, 5.0, 3), self.number(0.6, 0.9, 3), self.chance.choice([1, 2])
        text = f'GaugeSet(seats: {seats}, bore: "{bore} mm", discharge_coefficient: "{cd}", pressure_recovery: "1")'
        return text, [Restriction.hole(bore / 1e3, cd) for _ in range(seats)]

    def valve(self):
        kv, recovery = self.number(0.1, 2.0, 3, log=True), self.number(0.6, 1.0, 3)
        text = f'Valve(flow_coefficient: "{kv} Kv", pressure_recovery: "{recovery}")'
        return text, [Restriction.kv(kv, recovery)]

    def parts(self, rises=False):
        kinds = [lambda: self.hole("ValveCore", 1.2, 2.8, 0.7), lambda: self.hole("Stem", 3.0, 5.0, 0.8)]
        chain = [self.chance.choice(kinds)(), self.hose(rises)]
        more = [
            self.gauge_set, self.valve, self.hose, lambda: self.hole("BallValve", 3.0, 7.0, 0.8),
            lambda: self.hole("SelfSealingEnd", 1.5, 3.5, 0.8), lambda: self.hole("Adapter", 2.0, 6.0, 0.75),
        ]
        chain += [self.chance.choice(more)() for _ in range(self.chance.randint(0, 4))]
        return chain


def joined(chain):
    texts, elements, counts = [], [], []
    for text, made in chain:
        texts.append(text), elements.extend(made), counts.append(len(made))
    return "[" + ", ".join(texts) + "]", elements, counts


def part_of(index, counts):
    for part, count in enumerate(counts):
        if index < count:
            return part
        index -= count
    return len(counts)  # the machine's own throttle


def kit(kind, name, fluid, draw):
    chance, row = draw.chance, {"kind": kind, "refrigerant": name}
    source, condensing, cylinder = RANGES.get(name, USUAL)
    port = "both" if kind == "both" else chance.choice(["vapour", "liquid"])
    source_c = draw.number(*source)
    if kind == "vacuum":
        # Saturated between 6 and 60 kPa.
        source_c, port = round(fluid.line(draw.number(6e3, 6e4, log=True))[4] - 273.15, 2), "vapour"
    share = draw.number(0.02, 0.9, 3) if kind == "both" else 0.2
    flashing = "delayed" if kind == "delayed" or (kind == "both" and chance.random() < 0.3) else "equilibrium"
    if kind == "delayed":
        port = chance.choice(["liquid", "liquid", "both"])
    friction = chance.choice(["homogeneous", "mueller_steinhagen_heck"])
    row.update(port=port, source_c=source_c, vapour_share=share, flashing=flashing, friction=friction)

    chain = draw.parts(rises=kind == "rise")
    if kind == "chokes":
        chain = [draw.hole("ValveCore", 1.2, 2.0, 0.7), draw.hose(), draw.hole("SelfSealingEnd", 1.2, 2.4, 0.8)]
    row["parts"], elements, counts = joined(chain)
    joins = None
    if kind == "ports":
        row["second"], second, _ = joined(draw.parts()[:2])
        joins = chance.choice([2, min(2, len(chain))])
        row["joins_before"] = joins

    cfm = draw.number(0.2, 3.0, 3, log=True) if kind not in ("chokes", "edge") else draw.number(2.0, 6.0, 3)
    clearance, loss = draw.number(0.01, 0.08, 2), draw.number(0.8, 0.98, 3)
    exponent = None if kind == "exponent" else draw.number(1.02, 1.25, 4)
    row.update(displacement_cfm=cfm, clearance=clearance, loss_factor=loss, exponent=exponent or "from properties")
    throttle = None
    if kind == "throttle":
        row["throttle_mm"] = draw.number(0.8, 3.5, 3)
        throttle = Restriction.hole(row["throttle_mm"] / 1e3)
    air_c, cylinder_c = draw.number(10, 35), draw.number(*cylinder)
    excess = draw.number(20, 400, 3) if kind in ("condenser", "discharge") and chance.random() < 0.5 else 0.0
    row.update(air_c=air_c, cylinder_c=cylinder_c, excess_kpa=excess)
    if name == "R-744":
        row["air_c"] = air_c = draw.number(-15, 5)
    out = []
    if kind == "discharge":
        row["discharge"], out, _ = joined([draw.hose(), draw.hole("ServiceValve", 2.0, 5.0, 0.8)])
    if kind == "condenser":
        row["conductance_w_k"] = draw.number(60, 1500, 3, log=True)
    else:
        row["condensing_c"] = draw.number(*condensing)

    for element in elements + out + ([throttle] if throttle else []):
        if isinstance(element, Restriction):
            element.delayed = flashing == "delayed"
    if kind == "ports":
        for element in second:
            if isinstance(element, Restriction):
                element.delayed = flashing == "delayed"

    p, h = start(fluid, port, source_c, share)
    cylinder_pa = fluid.saturated(cylinder_c + 273.15, 0)[0] + 1e3 * excess
    condensing_k = row["condensing_c"] + 273.15 if "condensing_c" in row else None
    back = Discharge(fluid, friction, out, cylinder_pa, condensing_k, row.get("conductance_w_k"), air_c + 273.15)
    machine = Machine(cfm * CFM, clearance, loss, exponent, 0.8, throttle)
    branches, path = None, Path(fluid, friction, elements, counts)
    if kind == "ports":
        own = sum(counts[:joins])
        ends = (p, h), start(fluid, port, source_c, share)
        first = Path(fluid, friction, elements[:own], None)
        branches = Branches((first, *ends[0]), (Path(fluid, friction, second, None), *ends[1]))
        path = Path(fluid, friction, elements[own:], counts[joins:])
    found = solve(fluid, path, p, h, machine, back, branches=branches)
    if kind == "chokes" and len(found["chokes"]) < 2:
        raise ValueError("fewer than two chokes")
    if kind == "edge":
        if found["choked"] is None:
            raise ValueError("no choke to come near to")
        # As much displacement as draws just the plateau where it begins, and a little more or less.
        just = cfm * found["m"] / (found["m"] + found["excess"])
        cfm = float(f"{just * (1 + chance.choice([-1, 1]) * chance.uniform(1e-3, 4e-3)):.7g}")
        row["displacement_cfm"], machine.V = cfm, cfm * CFM
        found = solve(fluid, path, p, h, machine, back)
    after, index, shown = found["after"], 0, []
    for count in path.counts:
        index += count
        shown.append(f"{after[index - 1] / 1e3:.6g}")
    choked = found["choked"]
    row.update(
        rate_kg_s=f"{found['m']:.7g}", inlet_kpa=f"{found['inlet'] / 1e3:.7g}",
        discharge_kpa=f"{found['discharge'] / 1e3:.7g}", near=int(found["near"]), after_kpa=" ".join(shown),
        choked_part="" if choked is None else part_of(choked, path.counts) if choked >= 0 else "feed",
        chokes=" ".join(str(part_of(choke, path.counts)) for choke in found["chokes"]),
        first_kg_s=f"{found['first']:.7g}" if "first" in found else "",
    )
    return row


def start(fluid, port, source_c, share):
    kelvin = source_c + 273.15
    if port == "vapour":
        return fluid.saturated(kelvin, 1)
    p, h = fluid.saturated(kelvin, 0)
    if port == "both":
        h += share * (fluid.line(p)[1] - h)
    return p, h


def line(name, fluid, draw):
    """Liquid pressed above its saturation, through a path to a given end pressure."""
    chance = draw.chance
    source_c = draw.number(*RANGES.get(name, USUAL)[0])
    boiling = fluid.saturated(source_c + 273.15, 0)[0]
    pressed = draw.number(50e3, 900e3, 3)
    p = boiling + pressed
    if p > 0.97 * fluid.highest:
        raise ValueError("above the range")
    fluid.state.specify_phase(CP.iphase_liquid)
    fluid.state.update(CP.PT_INPUTS, p, source_c + 273.15)
    h = fluid.state.hmass()
    fluid.state.unspecify_phase()
    if fluid.line(p)[0] - h > 0.95 * LIQUID_J_KG:
        raise ValueError("colder than the net")
    text, elements, counts = joined(draw.parts())
    friction = chance.choice(["homogeneous", "mueller_steinhagen_heck"])
    path = Path(fluid, friction, elements, counts)
    end = p - pressed * draw.number(0.2, 1.6, 3)
    if end < 0.1 * boiling:
        raise ValueError("end too low")
    high = 1e-3
    while True:
        try:
            if path.end(high, p, h) < end:
                break
        except Stuck:
            break
        high *= 2
    low = 0.0
    last = p
    while high - low > 1e-7 * high:
        m = 0.5 * (low + high)
        try:
            last_here = path.end(m, p, h)
            is_low = last_here > end
        except Stuck:
            is_low = False
        if is_low:
            low, last = m, last_here
        else:
            high = m
    return {
        "refrigerant": name, "source_c": source_c, "start_kpa": f"{p / 1e3:.7g}", "friction": friction,
        "parts": text, "end_kpa": f"{end / 1e3:.7g}", "rate_kg_s": f"{low:.7g}", "choked": int(last > end * 1.0001),
    }


REFUSED = (ValueError, ZeroDivisionError, OverflowError, Stuck)


@cache
def fluid_of(name):
    return Fluid(name)


def settled(task):
    """Draws one kit or line until it has an answer; also why draws were refused."""
    what, index, kind, name = task
    refused = Counter()
    for attempt in range(200):
        round_, place = divmod(index, LINES if what == "line" else sum(count for _, count in KINDS))
        draw = Draw(random.Random(f"{SEED + round_} {what} {place} {attempt}"))
        try:
            row = line(name, fluid_of(name), draw) if what == "line" else kit(kind, name, fluid_of(name), draw)
            return what, {"id": index, **row}, refused
        except REFUSED as error:
            refused[str(error)[:30] or type(error).__name__] += 1
    raise RuntimeError(f"{task}: {refused}")


def tasks():
    names = list(FLUIDS)
    plan = [kind for kind, count in KINDS for _ in range(count)]
    for index in range(ROUNDS * len(plan)):
        place = index % len(plan)
        name = names[place % len(names)]
        if name == "R-744" and plan[place] == "vacuum":  # its triple point is at 5 bar
            name = "R-22"
        yield "kit", index, plan[place], name
    for index in range(ROUNDS * LINES):
        yield "line", index, "", names[(3 * (index % LINES)) % len(names)]


def main():
    rows, refused = {"kit": [], "line": []}, Counter()
    with Pool(2) as pool:
        for what, row, why in pool.imap_unordered(settled, sorted(tasks(), key=lambda task: task[3]), 8):
            rows[what].append(row)
            refused += why
            print(what, row["id"], row.get("kind"), row["refrigerant"], row["rate_kg_s"], flush=True)
    by_id = lambda row: row["id"]
    write("kits.csv", COLUMNS, sorted(rows["kit"], key=by_id))
    lines = sorted(rows["line"], key=by_id)
    write("lines.csv", list(lines[0]), lines)
    print("refused draws:", dict(refused))


def write(name, columns, rows):
    with open(name, "w", newline="") as file:
        writer = csv.DictWriter(file, columns, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


if __name__ == "__main__":
    if len(sys.argv) > 1:
        print(settled(next(task for task in tasks() if task[:2] == ("kit", int(sys.argv[1])))))
    else:
        main()
