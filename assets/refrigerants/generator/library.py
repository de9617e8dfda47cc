"""The property library, opened once per fluid, with the pairs it lacks filled in.

CoolProp's Helmholtz equations of state; blends by its multi-fluid mixture model.
"""

import CoolProp.CoolProp as CP
import numpy as np

_pure = {}


def pure_state(name):
    """The shared state object of a pure component."""
    if name not in _pure:
        _pure[name] = CP.AbstractState("HEOS", name)
    return _pure[name]


def mole_fractions(parts):
    moles = np.array([w / pure_state(name).molar_mass() for name, w in parts.items()])
    return moles / moles.sum()


def open_state(fluid):
    """A state object for the whole fluid, blend or pure."""
    state = CP.AbstractState("HEOS", "&".join(fluid.parts))
    if fluid.is_blend:
        state.set_mole_fractions(list(mole_fractions(fluid.parts)))
    return state


def critical_point(fluid, state):
    """(pressure Pa, temperature K) of the stable critical point of the model."""
    if not fluid.is_blend:
        return state.p_critical(), state.T_critical()
    points = [(c.p, c.T) for c in state.all_critical_points() if c.stable and c.p > 0]
    return max(points)


def _cas(name):
    return CP.get_fluid_param_string(name, "CAS")


def _set_pair(a, b, parameter, value):
    try:
        CP.set_mixture_binary_pair_data(_cas(a), _cas(b), parameter, value)
    except ValueError:
        inverted = 1.0 / value if parameter == "betaT" else value
        CP.set_mixture_binary_pair_data(_cas(b), _cas(a), parameter, inverted)


def _get_pair(a, b, parameter):
    try:
        return float(CP.get_mixture_binary_pair_data(_cas(a), _cas(b), parameter))
    except ValueError:
        value = float(CP.get_mixture_binary_pair_data(_cas(b), _cas(a), parameter))
        return 1.0 / value if parameter == "betaT" else value


def fill_missing_pairs():
    """Give the library the pairs it has no model for (see ESTIMATED in refrigerants.py).

    R-125/R-22 and R-22/R-124: gammaT fitted so that R-402A and R-409A boil where ASHRAE 34 says
    (-49.2 and -35.4 degC at 101.325 kPa; targets from memory). Isopentane: copied from n-butane.
    R-152a/R-124: Lorentz-Berthelot combining rule.
    """
    missing = [("R125", "R22"), ("R22", "R124"), ("R152A", "R124")]
    missing += [(a, "Isopentane") for a in ("R32", "R125", "R134a")]
    for a, b in missing:
        CP.apply_simple_mixing_rule(_cas(a), _cas(b), "Lorentz-Berthelot")
    _set_pair("R125", "R22", "gammaT", 0.9725)
    _set_pair("R22", "R124", "gammaT", 0.9735)
    for a in ("R32", "R125", "R134a"):
        for parameter in ("betaT", "gammaT"):
            _set_pair(a, "Isopentane", parameter, _get_pair(a, "n-Butane", parameter))


fill_missing_pairs()
