"""The coordinate that makes small tables exact.

`theta = cbrt(1 - 1/(1 - ln(p/pc)/7))` runs from 0 at the critical pressure upwards as pressure
falls. Saturated densities are nearly straight in it, up to the critical region.
"""

import numpy as np

STRETCH = 7.0


def theta_of_pressure(pressure, critical_pressure):
    return np.cbrt(1.0 - 1.0 / (1.0 - np.log(pressure / critical_pressure) / STRETCH))


def pressure_of_theta(theta, critical_pressure):
    return critical_pressure * np.exp(STRETCH * (1.0 - 1.0 / (1.0 - theta**3)))


def nodes(low_pressure, high_pressure, critical_pressure, count):
    """Pressures at `count` nodes uniform in theta, the lowest first; the ends are exact."""
    ends = theta_of_pressure(np.array([low_pressure, high_pressure]), critical_pressure)
    pressures = pressure_of_theta(np.linspace(ends[0], ends[1], count), critical_pressure)
    pressures[0], pressures[-1] = low_pressure, high_pressure
    return pressures
