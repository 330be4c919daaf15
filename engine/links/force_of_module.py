"""The force of one module in a load case, from its pressure or weight, for calculation trails."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from engine.common.calculation import STATICS, CalculationStep, Term
from engine.links.trail_terms import pounds
from engine.load_path.module_forces import ModuleForces
from engine.units import FOOT, PSF


def force_of_module(
    forces: ModuleForces, case: str, module: int, normal: float, in_plane: float
) -> Iterator[CalculationStep]:
    """Steps to the force of a module, by its number, normal to the roof, and down the slope where there is one [N]."""
    field = forces.field
    name = f"{case}: force of the module in {field.place_of(module)}"
    terms, across, along = _by_case(forces, case, normal)
    yield CalculationStep("F", f"{name}, normal to the roof", pounds(normal), across, terms, STATICS)
    if in_plane:
        yield CalculationStep("H", f"{name}, down the slope", pounds(in_plane), along, terms, STATICS)


def _by_case(forces: ModuleForces, case: str, normal: float) -> tuple[dict[str, Term], str, str]:
    """The terms of a module's force, and its equations normal to the roof and down the slope."""
    area, tilt = Term(forces.field.area / FOOT**2, "ft2"), forces.field.attitude.tilt
    slope, omega = {"theta": Term(forces.slope, "deg")}, {"omega": Term(tilt, "deg")} if tilt else {}
    if case in forces.loads.wind_cases:
        pressure = normal / (forces.field.area * np.cos(np.radians(tilt)))
        terms = {"p": Term(pressure / PSF, "psf"), "A": area, **omega}
        return terms, "p * A * cos(omega)" if tilt else "p * A", "-p * A * sin(omega)"
    if case in forces.loads.weight_cases:
        part, weight = forces.loads.weight_cases[case], {"W": pounds(forces.weight)}
        if (part.downward, part.toward_eave) == (1.0, 0.0):
            return weight | slope, "W * cos(theta)", "W * sin(theta)"
        terms = weight | {"kv": Term(part.downward), "kh": Term(part.toward_eave)} | slope
        return terms, "W * (kv * cos(theta) - kh * sin(theta))", "W * (kv * sin(theta) + kh * cos(theta))"
    to_horizontal = np.radians(forces.slope + tilt)
    snow = normal / (forces.field.area * np.cos(to_horizontal) * np.cos(np.radians(forces.slope)))
    inclined = "cos(theta + omega)" if tilt else "cos(theta)"
    terms = {"s": Term(snow / PSF, "psf"), "A": area, **slope, **omega}
    return terms, f"s * A * {inclined} * cos(theta)", f"s * A * {inclined} * sin(theta)"
