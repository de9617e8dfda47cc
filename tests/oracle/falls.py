"""Boiling refrigerant in tubes that fall, with about as much friction as weight: writes falls.csv.

Where the two balance pressure hardly changes, below that it rises and what boils condenses, above it falls
ever faster. Each row gives the pressure at the end of the tube, from a given state, flow and tube.
"""

import math
import random
import sys

from flow import G0, Stuck, Tube
from kits import Draw, write
from states import Fluid

SEED = 20261128
NAMES = ["R-22", "R-134a", "R-32", "R-290", "R-600a", "R-1234yf"]
EACH = 40
# A Darcy factor to draw flows by, no more.
FACTOR = 0.03


def fall(name, fluid, draw):
    source_c = draw.number(-10.0, 35.0)
    quality = draw.chance.choice([0.0, draw.number(1e-4, 0.08, 3, log=True)])
    friction = draw.chance.choice(["homogeneous", "mueller_steinhagen_heck"])
    bore_mm, length = draw.number(1.0, 9.0, 3), draw.number(0.3, 8.0, 3, log=True)
    rough_mm, rise = draw.number(0.0015, 0.01, 2), -float(f"{length * draw.number(0.3, 1.0, 3):.3g}")
    p, h = fluid.saturated(source_c + 273.15, 0)
    start = float(f"{p / 1e3:.7g}") * 1e3
    bubble, dew = fluid.line(start)[:2]
    h = bubble + quality * (dew - bubble)
    bore = bore_mm / 1e3
    ratio = draw.number(0.02, 30.0, 3, log=True) * -rise / length
    density = 1 / fluid.volume(start, bubble)
    flux = density * math.sqrt(2 * bore * G0 * ratio / FACTOR)
    flow = float(f"{flux * math.pi * bore**2 / 4:.4g}")
    tube = Tube(bore, length, rough_mm / 1e3, rise)
    end = tube.march(fluid, friction, flow, start, h)
    tube.march(fluid, friction, 1.01 * flow, start, h)  # not at the edge of choking
    if end < 0.3 * start:
        raise ValueError("close to choking")
    return {
        "refrigerant": name, "start_kpa": f"{start / 1e3:.7g}", "quality": quality, "friction": friction,
        "bore_mm": bore_mm, "length_m": length, "rise_m": rise, "roughness_mm": rough_mm, "flow_kg_s": flow,
        "end_kpa": f"{end / 1e3:.8g}",
    }


def main():
    rows = []
    for name in NAMES:
        fluid = Fluid(name)
        place = attempt = 0
        while place < EACH:
            draw = Draw(random.Random(f"{SEED} {name} {place} {attempt}"))
            try:
                rows.append({"id": len(rows), **fall(name, fluid, draw)})
                print(rows[-1], flush=True)
                place += 1
            except (Stuck, ValueError, ZeroDivisionError, OverflowError) as error:
                print("refused:", name, place, str(error) or type(error).__name__, file=sys.stderr)
            attempt += 1
    write("falls.csv", list(rows[0]), rows)


if __name__ == "__main__":
    main()
