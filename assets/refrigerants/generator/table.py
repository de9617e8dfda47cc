"""Builds the table of one refrigerant.

Saturation: `SATURATION_NODES` pressures uniform in theta (coordinate.py), lowest first.

Vapour: a grid (theta, t) with `h = h_dew + t^2 (h_hot - h_dew)`; h_hot lies on the hot isotherm
that ends the table. Stored is how much temperature, compressibility, entropy and ln viscosity
have changed since the dew line, divided by t^2, so that a look-up meets the dew line exactly and
in the right direction.

Two-phase (blends whose temperature or volume does not run straight from bubble to dew): a grid
(theta, r) with `q = r^2 = (h - h_bubble)/(h_dew - h_bubble)`. Stored is the departure of the share
of the change from q, divided by q (1 - q): for temperature in K, for volume and vapour mass
fraction as a ratio, for entropy in J/(kg K).
"""

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import CubicSpline

from coordinate import nodes
from equilibrium import Ladder
from states import States, fill_gaps
from viscosity import Viscosity

SATURATION_NODES = 49
VAPOR_NODES = (25, 13)
TWO_PHASE_NODES = (25, 9)


@dataclass
class Table:
    states: States
    viscosity_source: str
    low: float
    floor: str
    high: float
    saturation: np.ndarray  # node, column
    vapor: np.ndarray  # node, t, column
    two_phase: np.ndarray | None  # node, r, column
    filled: int


def lowest_pressure(states):
    """2.5 kPa, or lower where -60 degC boils lower; never below the triple point or a fit's limit.

    Returns the pressure and what set it: `table` (a choice), `triple` (no liquid below) or
    `equation` (the equation of state reaches no further).
    """
    trip, fluid = states.lowest_temperature, states.fluid
    if fluid.designation == "R-114":  # below -50 degC its equation is far outside its data
        return states.bubble_pressure(223.15), "equation"
    try:
        cold = states.bubble_pressure(max(213.15, trip + 0.1))
    except ValueError:
        cold = np.inf
    chosen = min(2.5e3, cold)
    frozen = 0.0 if fluid.is_blend else states.bubble_pressure(trip + 0.05) * 1.001
    by_triple = frozen > chosen or (cold < 2.5e3 and trip > 213.0)
    return max(chosen, frozen), "triple" if by_triple else "table"


def highest_pressure(states):
    """0.93 (blends, R-23, R-744) or 0.95 of critical; at most 60 bar (but R-744) and p_sat(120 degC)."""
    near = 0.93 if states.fluid.is_blend or states.critical_temperature < 320 else 0.95
    high = near * states.critical_pressure
    if states.fluid.designation != "R-744":
        high = min(high, 60e5)
    if states.critical_temperature > 395:
        high = min(high, states.bubble_pressure(393.15))
    return high


def build(fluid):
    states = States(fluid)
    viscosity = Viscosity(states)
    (low, floor), high = lowest_pressure(states), highest_pressure(states)
    low, high = float(f"{low:.6g}"), float(f"{high:.6g}")  # short numbers in the header
    pressures = nodes(low, high, states.critical_pressure, SATURATION_NODES)
    bubble, dew = states.curve(pressures, 0), states.curve(pressures, 1)
    settle(states, pressures, bubble, dew)
    sharpen(states, pressures, dew)
    filled = fill_gaps(pressures, bubble) + fill_gaps(pressures, dew)
    hot = np.array([states.hot_vapor(p) for p in pressures])
    saturation = np.column_stack([
        bubble[:, 0], dew[:, 0], bubble[:, 1], states.compressibility(pressures, dew), bubble[:, 2], dew[:, 2],
        bubble[:, 3], dew[:, 3],
        np.log([viscosity.liquid(t) for t in bubble[:, 0]]),
        np.log([viscosity.vapor(t, rho) for t, rho in dew[:, :2]]),
        hot[:, 2],
    ])
    step = (SATURATION_NODES - 1) // (VAPOR_NODES[0] - 1)
    vapor = vapor_grid(states, viscosity, pressures[::step], dew[::step], hot[::step])
    step = (SATURATION_NODES - 1) // (TWO_PHASE_NODES[0] - 1)
    two_phase, more = two_phase_grid(states, pressures[::step], bubble[::step], dew[::step])
    return Table(states, viscosity.source(), low, floor, high, saturation, vapor, two_phase, filled + more)


def settle(states, pressures, bubble, dew):
    """Below the lower limit of its equation a pure refrigerant's phases are brought to equilibrium here."""
    for i, p in enumerate(pressures):
        if not states.fluid.is_blend and bubble[i, 0] < states.lowest_temperature:
            bubble[i], dew[i] = states.settle(p, bubble[i], dew[i])


def sharpen(states, pressures, dew):
    """Put dew states exactly on the equation of state at their pressure and temperature."""
    for i, p in enumerate(pressures):
        if not np.isnan(dew[i, 0]):
            dew[i] = states.vapor_at_temperature(p, dew[i, 0], dew[i, 1])[0]


def vapor_grid(states, viscosity, pressures, dew, hot):
    ts = np.linspace(0, 1, VAPOR_NODES[1])
    grid = np.zeros((len(pressures), len(ts), 4))
    for i, p in enumerate(pressures):
        start = vapor_columns(states, viscosity, p, dew[i])
        grid[i, 0] = dew_limit(states, viscosity, p, dew[i], hot[i])
        here = dew[i]
        for j, t in enumerate(ts[1:], 1):
            here = states.vapor_at_enthalpy(p, dew[i, 2] + t * t * (hot[i, 2] - dew[i, 2]), here)
            grid[i, j] = (vapor_columns(states, viscosity, p, here) - start) / (t * t)
    return grid


def vapor_columns(states, viscosity, p, state):
    return np.array([state[0], states.compressibility(p, state), state[3], np.log(viscosity.vapor(state[0], state[1]))])


def dew_limit(states, viscosity, p, dew, hot):
    """The limit of the stored columns at the dew line: derivatives along the isobar times the span."""
    state, cp, expansion = states.vapor_at_temperature(p, dew[0], dew[1])
    span = hot[2] - dew[2]
    z = states.compressibility(p, state)
    z_slope = -z / state[0] - z / state[1] * expansion
    warmer, _, _ = states.vapor_at_temperature(p, dew[0] + 0.02, dew[1])
    rise = np.log(viscosity.vapor(*warmer[:2]) / viscosity.vapor(*state[:2])) / 0.02
    return np.array([1 / cp, z_slope / cp, 1 / dew[0], rise / cp]) * span


# Molar qualities flashed before resampling to uniform r; dense at the bubble line.
MOLAR_QUALITIES = np.concatenate([[3e-4], np.linspace(0.04, 0.98, 24) ** 2, [0.985, 0.997]])


def two_phase_grid(states, pressures, bubble, dew):
    if not states.fluid.is_blend:
        return None, 0
    ladder, rs = Ladder(states.fluid), np.linspace(0, 1, TWO_PHASE_NODES[1])
    grid = np.array([
        two_phase_column(ladder.climb(p, b, d, MOLAR_QUALITIES), b, d, rs) for p, b, d in zip(pressures, bubble, dew)
    ])
    filled = fill_nodes(pressures, grid)
    return (grid if is_crooked(grid, bubble, dew) else None), filled


def fill_nodes(pressures, grid):
    """Failed pressures: a spline between neighbours, straight on from the last two beyond the ends."""
    bad = np.isnan(grid).any(axis=(1, 2))
    if bad.any():
        good, x = np.flatnonzero(~bad), np.arange(len(pressures), dtype=float)
        spline = CubicSpline(x[good], grid[good])
        for i in np.flatnonzero(bad):
            near = good[:2] if i < good[0] else good[-2:]
            if good[0] < i < good[-1]:
                grid[i] = spline(x[i])
            else:
                share = (x[i] - near[0]) / (near[1] - near[0])
                grid[i] = grid[near[0]] + share * (grid[near[1]] - grid[near[0]])
    return int(bad.sum())


def two_phase_column(rows, bubble, dew, rs):
    """One pressure: departures over q (1 - q) at uniform r, by a spline over the flashed states."""
    q = (rows[:, 4] - bubble[2]) / (dew[2] - bubble[2])
    good = np.isfinite(rows).all(axis=1) & (q > 0) & (q < 1)
    q, rows = q[good], rows[good]
    if len(q) < 10 or q.min() > 0.02 or q.max() < 0.9:
        return np.full((len(rs), 4), np.nan)
    order = np.argsort(q)
    q, rows = q[order], rows[order]
    weight = q * (1 - q)
    volumes = 1 / bubble[1], 1 / dew[1]
    departures = np.column_stack([
        (rows[:, 0] - bubble[0] - q * (dew[0] - bubble[0])) / weight,
        ((rows[:, 1] - volumes[0]) / (volumes[1] - volumes[0]) - q) / weight,
        (rows[:, 2] - bubble[3] - q * (dew[3] - bubble[3])) / weight,
        (rows[:, 3] - q) / weight,
    ])
    return CubicSpline(np.sqrt(q), departures)(rs)


def is_crooked(grid, bubble, dew):
    """Whether straight lines from bubble to dew would cost more than 0.02 K or 0.03 % in volume."""
    temperature = np.abs(grid[:, :, 0]).max() / 4
    volume = np.abs(grid[:, :, 1]).max()
    return temperature > 0.02 or volume > 3e-4
