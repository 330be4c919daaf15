"""Drift behind the ridge of a gable, ASCE 7 §7.6.1."""

from __future__ import annotations

import math

from engine.common.calculation import CalculationStep, Recorder, Term, silent
from engine.loads.asce7.references import clause, single
from engine.loads.asce7.site import SEVEN_16, Site
from engine.loads.asce7.snow.balanced import importance
from engine.project.building import Building
from engine.units import FOOT, PSF

UNBALANCED_FROM, UNBALANCED_TO = 2.38, 30.2
"""Slopes of gables with unbalanced snow [deg], §7.6.1: 1/2 to 7 on 12."""

SHORT_RUN = 20.0
"""Largest eave-to-ridge distance of a narrow gable, and the minimum fetch [ft], §7.6.1."""


def has_unbalanced(building: Building) -> bool:
    """True for gable and hip roofs of 1/2 to 7 on 12, §7.6.1."""
    return building.has_ridge and UNBALANCED_FROM <= building.slope <= UNBALANCED_TO


def is_narrow(building: Building) -> bool:
    """True for gables of at most 20 ft from eave to ridge, with the full ground snow on the lee slope, §7.6.1."""
    return building.run <= SHORT_RUN * FOOT


def density(site: Site, record: Recorder = silent) -> float:
    """γ, Eq. 7.7-1: min(0.13 pg + 14, 30) [pcf]."""
    ground = site.ground_snow / PSF
    gamma = min(0.13 * ground + 14, 30.0)
    equation = "min(0.13 * pg + 14, 30)"
    record(
        CalculationStep(
            "gamma",
            "density of snow",
            Term(gamma, "pcf"),
            equation,
            {"pg": Term(ground, "psf")},
            clause(site.standard, "Eq. 7.7-1"),
        )
    )
    return gamma


def drift_height(
    site: Site,
    gamma: float,
    fetch: float,
    record: Recorder = silent,
    meaning: str = "height of the drift behind the ridge",
) -> float:
    """hd, Fig. 7.6-1 [ft]: √Is (0.43 lu^(1/3) (pg + 10)^(1/4) - 1.5) (7-16), 1.5 √(pg^0.74 lu^0.70 W2^1.7/γ) (7-22).

    Args:
        site: the site.
        gamma: density of snow [pcf].
        fetch: lu [ft]; in 7-16 at least 20 ft.
        record: takes the step.
        meaning: of the height, for the step.
    """
    ground, factor, w2 = site.ground_snow / PSF, importance(site), site.winter_wind
    terms = {"pg": Term(ground, "psf"), "lu": Term(fetch, "ft")}
    if site.standard == SEVEN_16:
        height = math.sqrt(factor) * (0.43 * math.pow(fetch, 1 / 3) * math.pow(ground + 10, 1 / 4) - 1.5)
        equation, terms = "sqrt(Is) * (0.43 * lu ** (1 / 3) * (pg + 10) ** (1 / 4) - 1.5)", terms | {"Is": Term(factor)}
    else:
        height = 1.5 * math.sqrt(math.pow(ground, 0.74) * math.pow(fetch, 0.70) * math.pow(w2, 1.7) / gamma)
        equation = "1.5 * sqrt(pg ** 0.74 * lu ** 0.70 * W2 ** 1.7 / gamma)"
        terms |= {"W2": Term(w2), "gamma": Term(gamma, "pcf")}
    record(
        CalculationStep(
            "hd",
            meaning,
            Term(height, "ft"),
            equation,
            terms,
            single(site.standard, "Fig. 7.6-1"),
        )
    )
    return height


def ridge_drift(site: Site, slope: float, run: float, record: Recorder = silent) -> tuple[float, float]:
    """Surcharge hd γ/√S [psf] of the drift behind a gable's ridge, and its length 8 hd √S/3 [ft], §7.6.1.

    Args:
        site: the site.
        slope: slope of the roof [deg]; S is its run for a unit rise.
        run: W, eave to ridge, horizontal [m].
        record: takes the steps.
    """
    gamma = density(site, record)
    height = drift_height(site, gamma, max(run / FOOT, SHORT_RUN), record)
    s = 1 / math.tan(math.radians(slope))
    surcharge, reach = height * gamma / math.sqrt(s), 8 * height * math.sqrt(s) / 3
    terms, source = {"hd": Term(height, "ft"), "S": Term(s)}, clause(site.standard, "§7.6.1")
    weight = terms | {"gamma": Term(gamma, "pcf")}
    record(
        CalculationStep(
            "pd", "surcharge behind the ridge", Term(surcharge, "psf"), "hd * gamma / sqrt(S)", weight, source
        )
    )
    record(
        CalculationStep(
            "xd", "length of the drift from the ridge", Term(reach, "ft"), "8 * hd * sqrt(S) / 3", terms, source
        )
    )
    return surcharge, reach
