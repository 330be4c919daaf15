"""Snow on roofs, EN 1991-1-3 chapter 5: one arrangement on flat and single slopes, three on a duopitch roof.

On a duopitch roof there is full snow on both slopes, or half of it on one of them. On the slope with the array that is
full or half. A load that acts with other loads decides at its largest or where it is absent, so full snow is the one
load case; combinations without snow are there too.
"""

from __future__ import annotations

from engine.common.calculation import SCENARIO, CalculationStep, Recorder, Term, silent
from engine.loads.en1991.references import SNOW, clause
from engine.loads.en1991.site import PREVENTED, Site

EVEN = "S"

EXPOSURE = {"windswept": 0.8, "normal": 1.0, "sheltered": 1.2}
"""Ce, table 5.1."""

SHAPE = 0.8
"""μ1 up to 30 deg, table 5.2; it falls to 0 at 60 deg where snow may slide off."""

STEEP, BARE = 30.0, 60.0

ON_SLOPES = ((1.0, 1.0), (0.5, 1.0), (1.0, 0.5))
"""Arrangements (i), (ii) and (iii) of a duopitch roof, figure 5.3: part of μ1 on this slope and on the other one."""


def shape_coefficient(slope: float, *, sliding_prevented: bool, record: Recorder = silent) -> float:
    """μ1, table 5.2: 0.8 to 30 deg, 0.8 (60 - slope)/30 to 60 deg; 0.8 where snow cannot slide off, 5.3.3(2)."""
    if sliding_prevented:
        meaning = "snow shape coefficient, sliding prevented"
        record(CalculationStep("mu", meaning, Term(SHAPE), "", {}, clause(SNOW, "5.3.3(2)")))
        return SHAPE
    result = SHAPE * min(1.0, max(0.0, (BARE - slope) / (BARE - STEEP)))
    terms = {"alpha": Term(slope, "deg")}
    equation = f"{SHAPE} * min(1, max(0, ({BARE:g} - alpha) / {BARE - STEEP:g}))"
    record(CalculationStep("mu", "snow shape coefficient", Term(result), equation, terms, clause(SNOW, "table 5.2")))
    return result


def snow_on_roof(site: Site, slope: float, record: Recorder = silent) -> float:
    """Snow on a roof, Eq. 5.1: s = μ Ce Ct sk, Ct 1, the fullest arrangement on this slope [N/m² of projection].

    Args:
        site: the site.
        slope: angle of the surface to the horizontal [deg].
        record: takes the steps.
    """
    shape = shape_coefficient(slope, sliding_prevented=site.snow_sliding == PREVENTED, record=record)
    exposure, ground, part = EXPOSURE[site.snow_exposure], site.ground_snow, max(this for this, _ in ON_SLOPES)
    record(CalculationStep("sk", "snow on the ground", Term(ground, "N/m2"), "", {}, SCENARIO))
    terms = {"mu": Term(shape), "Ce": Term(exposure), "sk": Term(ground, "N/m2")}
    result = part * shape * exposure * ground
    meaning = "snow on the roof, the fullest arrangement on this slope"
    record(CalculationStep("s", meaning, Term(result, "N/m2"), "mu * Ce * sk", terms, clause(SNOW, "Eq. 5.1")))
    return result


def snow_on_slopes(site: Site, slope: float) -> tuple[tuple[float, float], ...]:
    """Snow on this slope and on the other one in every arrangement of a duopitch roof [N/m² of projection]."""
    full = snow_on_roof(site, slope)
    return tuple((this * full, other * full) for this, other in ON_SLOPES)
