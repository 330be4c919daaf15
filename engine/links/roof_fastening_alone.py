"""The explanation of a roof fastening without the array: wind and snow on its own area."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import CalculationStep, Term
from engine.links.check import Check
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import case_symbol, combination_step, pounds, utilisation_step, value_step
from engine.mounting.layout import Rectangles
from engine.statics.rib_supports import group_ribs
from engine.strength import strength
from engine.units import FOOT, POUND_FORCE, PSF


def explain_fastening_alone(
    trail: CalculationTrail, check: Check, rib: int, level: int, number: int
) -> list[CalculationStep]:
    """Steps to the load of the fastening on a rib at a level, in one combination, and its utilisation."""
    job, demands = trail.job, trail.demands
    steps = surface_load_steps(trail, rib, level, number)
    combination, total = demands.combinations[number], steps[-1].result
    mode = strength(job.roof.fastening.stated_uplift).governing(combination)
    steps += [*mode.steps, mode.resistance_step(combination)]
    if not job.roof.floats and job.roof.fastening.in_plane is not None:
        return steps  # along-slope load shears it too: only the ratio of the check includes both
    terms = {"B": total, "Ra": pounds(mode.resistance(combination))}
    return [*steps, utilisation_step("roof_alone", check.ratio, "max(-B, 0) / Ra", terms)]


def surface_load_steps(trail: CalculationTrail, rib: int, level: int, number: int) -> list[CalculationStep]:
    """Steps to the load of a fastening's own area without the array, in one combination."""
    demands, (steps, forces) = trail.demands, _surface_steps(trail, rib, level, number)
    total = pounds(demands.roof.without_array[rib, level, number])
    meaning = "force on the fastening without the array (down positive)"
    return [*steps, combination_step("B", meaning, total, demands.combinations[number], forces)]


def _surface_steps(
    trail: CalculationTrail, rib: int, level: int, number: int
) -> tuple[list[CalculationStep], dict[str, float]]:
    """Steps to the force of each load case on a fastening's own area, and those forces [lb]."""
    loads, place = trail.demands.loads, tributary(trail, rib, level)
    slope = np.radians(trail.job.building.slope)
    area = float(((place.right - place.left) * (place.high - place.low))[0])
    steps = [value_step("A_f", "the fastening's own area of roof", area / FOOT**2, "ft2")]
    forces = dict.fromkeys(trail.demands.combinations[number].factors, 0.0)
    for case in forces:
        if case in loads.wind_cases:
            pressure = float(loads.cladding_pressure(case, place, steps.append)[0])
        elif case in loads.snow_cases:
            pressure = float(loads.snow_on_roof(case, place, steps.append)[0]) * float(np.cos(slope)) ** 2
        else:
            continue
        forces[case] = pressure * area / POUND_FORCE
        terms = {"p": Term(pressure / PSF, "psf"), "A": Term(area / FOOT**2, "ft2")}
        meaning = f"{case}: force on the fastening without the array, from the pressure normal to the roof"
        source = steps[-1].reference
        steps.append(CalculationStep(case_symbol("B", case), meaning, Term(forces[case], "lb"), "p * A", terms, source))
    return steps, forces


def tributary(trail: CalculationTrail, rib: int, level: int) -> Rectangles:
    """The rectangle of roof that one fastening holds."""
    job, (_, groups) = trail.job, group_ribs(trail.job)
    group = next(group for group in groups if rib in group.ribs)
    at = int(np.flatnonzero(group.levels == level)[0])
    x, half = float(job.ribs[rib]), job.roof.rib_spacing / 2
    left, right = max(x - half, 0.0), min(x + half, job.building.length)
    sides = (left, float(group.low[at]), right, float(group.high[at]))
    return Rectangles(*(np.array([side]) for side in sides))
