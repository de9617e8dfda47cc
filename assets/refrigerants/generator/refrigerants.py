"""The refrigerants: what each is made of, its safety class, and what is known about its data.

Compositions are the nominal mass fractions of ASHRAE Standard 34. Names on the right are those of
the property library. `READ` marks a safety class seen in published material, `MEMORY` one recalled
without a source at hand: check it before printing it as fact.
"""

from dataclasses import dataclass, field

READ, MEMORY = "read", "memory"


@dataclass(frozen=True)
class Fluid:
    """One refrigerant: `parts` maps a library fluid name to its mass fraction."""

    designation: str
    parts: dict = field(hash=False)
    safety_class: str
    safety_source: str = MEMORY

    @property
    def is_blend(self):
        return len(self.parts) > 1

    @property
    def file_name(self):
        return self.designation.replace("(", "").replace(")", "") + ".txt"

    @property
    def estimated(self):
        return ESTIMATED.get(self.designation)


def pure(designation, library_name, safety_class, source=MEMORY):
    return Fluid(designation, {library_name: 1.0}, safety_class, source)


def blend(designation, safety_class, parts, source=MEMORY):
    return Fluid(designation, parts, safety_class, source)


# Why a blend's equilibrium is an estimate: the library has no measured model of one of its pairs.
ESTIMATED = {
    "R-401A": "pairs R-22/R-124 (fitted to the boiling point of R-409A) and R-152a/R-124 (combining rule) have no measured mixture model",
    "R-402A": "pair R-125/R-22 has no measured mixture model; fitted to the blend's boiling point",
    "R-408A": "pair R-125/R-22 has no measured mixture model; fitted to the boiling point of R-402A; this blend stays about 1 K off",
    "R-409A": "pair R-22/R-124 has no measured mixture model; fitted to the blend's boiling point",
    "R-438A": "pairs of isopentane with R-32, R-125 and R-134a have no measured mixture model; copied from n-butane",
}

FLUIDS = [
    pure("R-22", "R22", "A1", READ),
    pure("R-134a", "R134a", "A1", READ),
    blend("R-410A", "A1", {"R32": 0.5, "R125": 0.5}, READ),
    blend("R-404A", "A1", {"R125": 0.44, "R143a": 0.52, "R134a": 0.04}, READ),
    blend("R-407C", "A1", {"R32": 0.23, "R125": 0.25, "R134a": 0.52}),
    blend("R-407A", "A1", {"R32": 0.20, "R125": 0.40, "R134a": 0.40}),
    blend("R-407F", "A1", {"R32": 0.30, "R125": 0.30, "R134a": 0.40}),
    blend("R-507A", "A1", {"R125": 0.5, "R143a": 0.5}),
    pure("R-32", "R32", "A2L", READ),
    pure("R-1234yf", "R1234yf", "A2L", READ),
    pure("R-1234ze(E)", "R1234ze(E)", "A2L", READ),
    blend("R-448A", "A1", {"R32": 0.26, "R125": 0.26, "R1234yf": 0.20, "R134a": 0.21, "R1234ze(E)": 0.07}),
    blend("R-449A", "A1", {"R32": 0.243, "R125": 0.247, "R1234yf": 0.253, "R134a": 0.257}),
    blend("R-452A", "A1", {"R32": 0.11, "R125": 0.59, "R1234yf": 0.30}),
    blend("R-452B", "A2L", {"R32": 0.67, "R125": 0.07, "R1234yf": 0.26}),
    blend("R-454A", "A2L", {"R32": 0.35, "R1234yf": 0.65}),
    blend("R-454B", "A2L", {"R32": 0.689, "R1234yf": 0.311}, READ),
    blend("R-454C", "A2L", {"R32": 0.215, "R1234yf": 0.785}, READ),
    blend("R-455A", "A2L", {"CarbonDioxide": 0.03, "R32": 0.215, "R1234yf": 0.755}),
    blend("R-513A", "A1", {"R1234yf": 0.56, "R134a": 0.44}),
    blend("R-450A", "A1", {"R134a": 0.42, "R1234ze(E)": 0.58}),
    blend("R-422D", "A1", {"R125": 0.651, "R134a": 0.315, "IsoButane": 0.034}),
    blend("R-438A", "A1", {"R32": 0.085, "R125": 0.45, "R134a": 0.442, "n-Butane": 0.017, "Isopentane": 0.006}),
    blend("R-417A", "A1", {"R125": 0.466, "R134a": 0.50, "n-Butane": 0.034}),
    blend("R-408A", "A1", {"R125": 0.07, "R143a": 0.46, "R22": 0.47}),
    blend("R-402A", "A1", {"R125": 0.60, "n-Propane": 0.02, "R22": 0.38}),
    blend("R-409A", "A1", {"R22": 0.60, "R124": 0.25, "R142b": 0.15}),
    blend("R-401A", "A1", {"R22": 0.53, "R152A": 0.13, "R124": 0.34}),
    pure("R-12", "R12", "A1", READ),
    blend("R-502", "A1", {"R22": 0.488, "R115": 0.512}),
    blend("R-500", "A1", {"R12": 0.738, "R152A": 0.262}),
    pure("R-23", "R23", "A1"),
    blend("R-508B", "A1", {"R23": 0.46, "R116": 0.54}),
    pure("R-290", "n-Propane", "A3", READ),
    pure("R-600a", "IsoButane", "A3", READ),
    pure("R-1270", "Propylene", "A3"),
    pure("R-717", "Ammonia", "B2L", READ),
    pure("R-744", "CarbonDioxide", "A1"),
    pure("R-152a", "R152A", "A2"),
    pure("R-236fa", "R236FA", "A1"),
    pure("R-227ea", "R227EA", "A1"),
    pure("R-124", "R124", "A1"),
    pure("R-142b", "R142b", "A2"),
    pure("R-125", "R125", "A1"),
    pure("R-143a", "R143a", "A2L"),
    pure("R-114", "R114", "A1"),
    pure("R-11", "R11", "A1", READ),
    pure("R-123", "R123", "B1", READ),
    pure("R-113", "R113", "A1"),
    pure("R-1233zd(E)", "R1233zd(E)", "A1", READ),
    pure("R-1336mzz(Z)", "R1336mzz(Z)", "A1"),
    blend("R-514A", "B1", {"R1336mzz(Z)": 0.747, "R1130(E)": 0.253}),
    blend("R-515B", "A1", {"R1234ze(E)": 0.911, "R227EA": 0.089}),
    blend("R-466A", "A1", {"R32": 0.49, "R125": 0.115, "R13I1": 0.395}),
]

# How the parts of a blend are written in a header.
ASHRAE_NAMES = {
    "n-Propane": "R-290", "IsoButane": "R-600a", "n-Butane": "R-600", "Isopentane": "R-601a",
    "CarbonDioxide": "R-744", "Ammonia": "R-717", "Propylene": "R-1270",
    "R152A": "R-152a", "R227EA": "R-227ea", "R236FA": "R-236fa",
}


def ashrae_name(library_name):
    return ASHRAE_NAMES.get(library_name, "R-" + library_name.removeprefix("R"))


def composition_text(fluid):
    if not fluid.is_blend:
        return "pure"
    return " + ".join(f"{ashrae_name(n)} {100 * w:g} %" for n, w in fluid.parts.items()) + " by mass"
