"""Writes the check values: direct library states that are not nodes of the tables.

Independent of table.py: it asks CoolProp for the states themselves, at round temperatures and
pressures. A blend's flash that fails is left out and counted in the header. Run:
`python checks.py`; it writes `tests/data/fluid_states.csv`.
"""

from importlib.metadata import version
from pathlib import Path

import CoolProp.CoolProp as CP
import numpy as np

from library import critical_point, open_state
from refrigerants import FLUIDS
from states import States
from table import highest_pressure, lowest_pressure

OUT = Path(__file__).resolve().parents[3] / "tests" / "data" / "fluid_states.csv"
REDUCED_PRESSURES = (0.0031, 0.011, 0.037, 0.11, 0.23, 0.41, 0.62, 0.79, 0.87, 0.897)
COLUMNS = "refrigerant,kind,pressure_pa,temperature_k,density_kg_m3,enthalpy_j_kg,entropy_j_kg_k,viscosity_pa_s"
# Pure refrigerants whose viscosity the library has a correlation of its own for.
WITH_VISCOSITY = {"R-134a", "R-125", "R-123", "R-23", "R-290", "R-600a", "R-717", "R-744"}


def row(fluid, kind, state):
    values = (state.p(), state.T(), state.rhomass(), state.hmass(), state.smass())
    viscosity = f"{state.viscosity():.6g}" if fluid.designation in WITH_VISCOSITY else ""
    return f"{fluid.designation},{kind}," + ",".join(f"{v:.10g}" for v in values) + f",{viscosity}"


def saturated(fluid, state, pressures, hottest_liquid, rows):
    """Bubble, dew and, for blends, three states between; returns how many flashes failed."""
    kinds = [("bubble", 0.0), ("dew", 1.0)]
    if fluid.is_blend:
        kinds += [("two_phase", q) for q in (0.07, 0.33, 0.71)]
    failed = 0
    for kind, quality in kinds:
        last = None
        for p in pressures:
            try:
                state.unspecify_phase()
                state.update(CP.PQ_INPUTS, p, quality)
                if abs(state.p() / p - 1) > 1e-6 or (last and state.T() < last) or state.T() > hottest_liquid:
                    raise ValueError("the flash left its pressure or its branch")
                if fluid.is_blend and 0 < quality < 1 and not conserves(state, quality):
                    raise ValueError("liquid and vapour do not add up to the blend")
                last = state.T()
                rows.append(row(fluid, kind, state))
            except ValueError:
                failed += 1
    return failed


def conserves(state, quality):
    """Whether liquid and vapour add up to the blend: some of the library's two-phase flashes do not."""
    x, y = np.array(state.mole_fractions_liquid()), np.array(state.mole_fractions_vapor())
    return np.abs((1 - quality) * x + quality * y - state.get_mole_fractions()).max() < 1e-6


def superheated(fluid, state, pressures, hottest, rows):
    """Vapour 3, 17 and 53 K above dew, and 4 K below the end of the table."""
    failed = 0
    for p in pressures:
        try:
            state.unspecify_phase()
            state.update(CP.PQ_INPUTS, p, 1.0)
            dew = state.T()
        except ValueError:
            failed += 4
            continue
        for t in (dew + 3.0, dew + 17.0, dew + 53.0, hottest - 4.0):
            if dew + 2.0 < t < hottest - 1.0:
                failed += not vapor(fluid, state, p, t, rows)
    return failed


def vapor(fluid, state, p, t, rows):
    """One vapour state by the library's own (p, T) call; accepted only if it is the gas root."""
    try:
        state.specify_phase(CP.iphase_gas)
        state.update(CP.PT_INPUTS, p, t)
        if state.first_partial_deriv(CP.iP, CP.iDmass, CP.iT) <= 0 or abs(state.p() / p - 1) > 1e-6:
            return False
        rows.append(row(fluid, "vapor", state))
        return True
    except ValueError:
        return False
    finally:
        state.unspecify_phase()


def main():
    rows, failures = [], []
    for fluid in FLUIDS:
        state = open_state(fluid)
        critical_pressure, critical_temperature = critical_point(fluid, state)
        states = States(fluid)
        low, high = lowest_pressure(states)[0], highest_pressure(states)
        pressures = [float(f"{r * critical_pressure:.4g}") for r in REDUCED_PRESSURES]
        pressures = [p for p in [float(f"{1.37 * low:.4g}"), *pressures] if low < p < high]
        hottest = states.hot_temperature
        failed = saturated(fluid, state, pressures, critical_temperature, rows) + superheated(fluid, state, pressures, hottest, rows)
        if failed:
            failures.append(f"{fluid.designation} {failed}")
    header = [
        f"# Source: CoolProp {version('CoolProp')} (HEOS backend), direct calls; written by assets/refrigerants/generator/checks.py.",
        "# kind: bubble, dew, two_phase (molar quality 0.07, 0.33, 0.71; blends) or vapor (superheated).",
        "# viscosity_pa_s: where the library has a correlation of its own for a pure refrigerant.",
        "# Blends whose pairs the library lacks use the same filled-in pairs as the tables.",
        "# Flashes the library could not do, or whose phases do not add up to the blend, left out: " + ("; ".join(failures) or "none"),
    ]
    OUT.parent.mkdir(parents=True, exist_ok=True)
    OUT.write_text("\n".join(header + [COLUMNS] + rows) + "\n")
    print(len(rows), "states;", header[-1])


if __name__ == "__main__":
    main()
