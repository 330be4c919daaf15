"""Snow that slides off a higher roof, ASCE 7 §7.9."""

from __future__ import annotations

import math

from engine.common.calculation import CalculationStep, Term
from engine.common.tolerances import SAME_ANGLE
from engine.loads.asce7.references import clause
from engine.loads.asce7.site import Site
from engine.loads.asce7.snow.balanced import flat_roof_snow
from engine.loads.asce7.snow.surcharge import Profile
from engine.project.higher_roof import HigherRoof
from engine.units import FOOT

SLIDING_WIDTH = 15.0
"""Width over which sliding snow is spread [ft], §7.9."""

SLIDES_FROM_SLIPPERY, SLIDES_FROM = math.degrees(math.atan(0.25 / 12)), math.degrees(math.atan(2 / 12))
"""Slopes above which snow slides off, slippery and other roofs [deg], §7.9: 1/4 and 2 on 12."""


def slides(roof: HigherRoof) -> bool:
    """True if snow slides from the higher roof onto this one, §7.9."""
    if not roof.slides_here or roof.slope is None or roof.ridge_distance is None:
        return False
    return roof.slope > (SLIDES_FROM_SLIPPERY if roof.slippery else SLIDES_FROM) + SAME_ANGLE


def sliding_profile(site: Site, ridge_distance: float, thermal_factor: float) -> Profile:
    """0.4 pf W for each foot of eave, spread over 15 ft, §7.9; on a narrower roof in proportion.

    Args:
        site: the site.
        ridge_distance: W, from eave to ridge of the higher roof, horizontal [m].
        thermal_factor: Ct of the higher roof.
    """
    steps, source = list[CalculationStep](), clause(site.standard, "§7.9")
    flat, run = flat_roof_snow(site, thermal_factor, steps.append), ridge_distance / FOOT
    line, pressure = 0.4 * flat * run, 0.4 * flat * run / SLIDING_WIDTH
    terms, meaning = {"pf": Term(flat, "psf"), "W": Term(run, "ft")}, "sliding snow for each foot of eave"
    steps.append(CalculationStep("SL", meaning, Term(line, "lb/ft"), "0.4 * pf * W", terms, source))
    terms, meaning = {"SL": Term(line, "lb/ft"), "w": Term(SLIDING_WIDTH, "ft")}, "sliding snow, spread over 15 ft"
    steps.append(CalculationStep("pd", meaning, Term(pressure, "psf"), "SL / w", terms, source))
    return Profile(pressure, pressure, SLIDING_WIDTH, source, tuple(steps))
