"""The roof's fastening before any array: the air and snow on its own area."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import CalculationStep, Term
from engine.links import Check
from engine.links.trail import Road
from engine.links.trail_terms import combined, given, of_case, pounds, used
from engine.mounting.layout import Rectangles
from engine.statics.rib_supports import group_ribs
from engine.strength import strength
from engine.units import FOOT, POUND_FORCE, PSF


def bare_fastening(road: Road, check: Check, rib: int, which: int, number: int) -> list[CalculationStep]:
    """The air and snow on a fastening's own area, before any array."""
    job, demands, loads = road.job, road.demands, road.design.loads
    place, combination, slope = (
        _tributary(road, rib, which),
        demands.combinations[number],
        np.radians(job.building.slope),
    )
    area = float(((place.right - place.left) * (place.high - place.low))[0])
    steps, forces = (
        [given("A_f", "the fastening's own area of roof", area / FOOT**2, "ft2")],
        dict.fromkeys(combination.factors, 0.0),
    )
    for case in combination.factors:
        if case in loads.wind_cases:
            pressure = float(loads.cladding_pressure(case, place, steps.append)[0])
        elif case in loads.snow_cases:
            pressure = float(loads.snow_on_roof(case, place, steps.append)[0]) * float(np.cos(slope)) ** 2
        else:
            continue
        forces[case] = pressure * area / POUND_FORCE
        terms = {"p": Term(pressure / PSF, "psf"), "A": Term(area / FOOT**2, "ft2")}
        meaning = f"{case}: on the fastening without the array, by the pressure normal to the roof"
        steps.append(
            CalculationStep(of_case("B", case), meaning, Term(forces[case], "lb"), "p * A", terms, steps[-1].reference)
        )
    total = pounds(demands.roof.without_array[rib, which, number])
    steps.append(combined("B", "on the fastening without the array (down positive)", total, combination, forces))
    mode = strength(job.roof.fastening.uplift).governing(combination)
    steps += [*mode.steps, mode.resistance_step(combination)]
    if not job.roof.floats and job.roof.fastening.in_plane is not None:
        return steps  # what slides shears it too: the ratio says so
    terms = {"B": total, "Ra": pounds(mode.resistance(combination))}
    return [*steps, used("bare", check.used, "max(-B, 0) / Ra", terms)]


def _tributary(road: Road, rib: int, which: int) -> Rectangles:
    """The rectangle of roof that one fastening holds."""
    job, (_, rib_groups) = road.job, group_ribs(road.job)
    these = next(these for these in rib_groups if rib in these.ribs)
    at = int(np.flatnonzero(these.levels == which)[0])
    x, half = float(job.roof.ribs(job.building)[rib]), job.roof.rib_spacing / 2
    left, right = max(x - half, 0.0), min(x + half, job.building.length)
    return Rectangles(*(np.array([side]) for side in (left, float(these.low[at]), right, float(these.high[at]))))
