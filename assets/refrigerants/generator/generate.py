"""Writes the tables: `python generate.py [designation ...]`. See README.md for the versions."""

import sys
from importlib.metadata import version
from multiprocessing import Pool
from pathlib import Path

from refrigerants import FLUIDS, composition_text
from table import build

TABLES = Path(__file__).resolve().parent.parent / "tables"

SATURATION_COLUMNS = (
    "bubble_temperature_k dew_temperature_k liquid_density_kg_m3 vapor_compressibility liquid_enthalpy_j_kg "
    "vapor_enthalpy_j_kg liquid_entropy_j_kg_k vapor_entropy_j_kg_k ln_liquid_viscosity ln_vapor_viscosity hot_enthalpy_j_kg"
)
VAPOR_COLUMNS = "temperature compressibility entropy ln_viscosity: change since the dew line / t^2"
TWO_PHASE_COLUMNS = "temperature volume entropy vapor_mass_fraction: departure from the straight line / (q (1 - q))"


def text(fluid, table):
    states = table.states
    model = "multi-fluid Helmholtz mixture, nominal composition" if fluid.is_blend else "single-fluid Helmholtz equation of state"
    header = {
        "designation": fluid.designation,
        "composition": composition_text(fluid),
        "source": f"CoolProp {version('CoolProp')} (HEOS), {model}; enthalpy and entropy from the library's default reference states",
        "viscosity": table.viscosity_source + f"; thermo {version('thermo')}",
        "safety_class": f"{fluid.safety_class} (ASHRAE 34, {'seen in published material' if fluid.safety_source == 'read' else 'from memory'})",
        "estimated": f"yes, {fluid.estimated}" if fluid.estimated else "no",
        "molar_mass_kg_mol": f"{states.molar_mass:.9g}",
        "critical_pressure_pa": f"{states.critical_pressure:.9g}",
        "critical_temperature_k": f"{states.critical_temperature:.9g}",
        "floor": table.floor,
        "note": note(states, table),
        "hot_temperature_k": f"{states.hot_temperature:.9g}",
        "low_pressure_pa": f"{table.low:g}",
        "high_pressure_pa": f"{table.high:g}",
        "nodes_filled": f"{table.filled}",
    }
    lines = ["narrows refrigerant table 1"] + [f"{key}: {value}" for key, value in header.items()]
    lines += section("saturation", SATURATION_COLUMNS, table.saturation)
    lines += section("vapor", VAPOR_COLUMNS, table.vapor)
    if table.two_phase is not None:
        lines += section("two_phase", TWO_PHASE_COLUMNS, table.two_phase)
    return "\n".join(lines + ["end", ""])


def note(states, table):
    """What the user of the cold end should know."""
    trip, coldest = states.lowest_temperature, table.saturation[0, 0]
    if coldest > trip - 0.5:
        return "none"
    what = "the triple point of a component" if states.fluid.is_blend else "the lower limit of the equation of state"
    return f"extrapolated below {trip - 273.15:.1f} degC, {what}"


def section(name, columns, values):
    """`[name] rows [columns of the grid]`, then a line a node: lowest pressure first."""
    sizes = " ".join(str(n) for n in values.shape[:-1])
    rows = values.reshape(-1, values.shape[-1])
    return [f"[{name}] {sizes}", f"# {columns}"] + [" ".join(f"{v:.9g}" for v in row) for row in rows]


def write(fluid):
    table = build(fluid)
    (TABLES / fluid.file_name).write_text(text(fluid, table))
    return f"{fluid.designation}: {table.low / 1e5:.4g} to {table.high / 1e5:.4g} bar, {table.filled} nodes filled, two-phase {table.two_phase is not None}"


def main():
    wanted = sys.argv[1:]
    chosen = [f for f in FLUIDS if not wanted or f.designation in wanted]
    TABLES.mkdir(exist_ok=True)
    with Pool(2) as pool:
        for done in pool.imap(write, chosen):
            print(done, flush=True)


if __name__ == "__main__":
    main()
