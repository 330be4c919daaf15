"""Balanced snow, ASCE 7 §7.3 and §7.4, its minimum on low slopes, and rain on snow, §7.10."""

from __future__ import annotations

from engine.common.calculation import CalculationStep, Recorder, Term, silent
from engine.common.tolerances import SAME_PRESSURE, SAME_RATIO
from engine.loads.asce7.references import clause
from engine.loads.asce7.site import SEVEN_16, SEVEN_22, Site
from engine.units import FOOT, PSF

EXPOSURE = {
    "fully exposed": {"B": 0.9, "C": 0.9, "D": 0.8},
    "partially exposed": {"B": 1.0, "C": 1.0, "D": 0.9},
    "sheltered": {"B": 1.2, "C": 1.1, "D": 1.0},
}
"""Ce, Table 7.3-1: exposure of the roof → exposure category → factor."""

IMPORTANCE = {"I": 0.80, "II": 1.00, "III": 1.10, "IV": 1.20}
"""Is, Table 1.5-2, ASCE 7-16 only; in 7-22 the map depends on the risk category."""

MINIMUM_CAP = {
    SEVEN_16: dict.fromkeys(("I", "II", "III", "IV"), 20.0),
    SEVEN_22: {"I": 25.0, "II": 30.0, "III": 35.0, "IV": 40.0},
}
"""Cap of the minimum for low slopes, and largest ground snow with a rain surcharge [psf], §7.3.4 and §7.10."""

RAIN = {SEVEN_16: 5.0, SEVEN_22: 8.0}
"""Rain-on-snow surcharge [psf], §7.10."""

LOW_SLOPE_END = 15.0
"""Slopes below this have a minimum [deg], §7.3.4."""


def importance(site: Site) -> float:
    """Is, Table 1.5-2 (7-16); 1.0 in 7-22, which has none."""
    return IMPORTANCE[site.risk_category] if site.standard == SEVEN_16 else 1.0


def flat_roof_snow(site: Site, thermal_factor: float, record: Recorder = silent) -> float:
    """pf, Eq. 7.3-1: 0.7 Ce Ct Is pg (7-16), 0.7 Ce Ct pg (7-22) [psf].

    Args:
        site: the site.
        thermal_factor: Ct.
        record: takes the step.
    """
    ce, ground = EXPOSURE[site.snow_exposure][site.exposure], site.ground_snow / PSF
    flat, equation = 0.7 * ce * thermal_factor * importance(site) * ground, "0.7 * Ce * Ct * pg"
    terms = {"Ce": Term(ce), "Ct": Term(thermal_factor), "pg": Term(ground, "psf")}
    if site.standard == SEVEN_16:
        equation, terms = "0.7 * Ce * Ct * Is * pg", terms | {"Is": Term(importance(site))}
    record(
        CalculationStep("pf", "flat-roof snow", Term(flat, "psf"), equation, terms, clause(site.standard, "Eq. 7.3-1"))
    )
    return flat


def knee(edition: str, thermal_factor: float, slippery: bool) -> float:
    """Slope up to which Cs is 1, Fig. 7.4-1 [deg]; warm to Ct 1.0 (7-16) or 1.1 (7-22), cold from Ct 1.2."""
    warm = 1.0 if edition == SEVEN_16 else 1.1
    if thermal_factor <= warm + SAME_RATIO:
        return 5.0 if slippery else 30.0
    if thermal_factor < 1.2 - SAME_RATIO:
        return 10.0 if slippery else 37.5
    return 15.0 if slippery else 45.0


def slope_factor(edition: str, angle: float, thermal_factor: float, slippery: bool, record: Recorder = silent) -> float:
    """Cs, Fig. 7.4-1: 1 up to the knee, then linear to 0 at 70 deg.

    Args:
        edition: "ASCE 7-16" or "ASCE 7-22".
        angle: angle of the surface to the horizontal [deg].
        thermal_factor: Ct.
        slippery: the surface is slippery and unobstructed.
        record: takes the step.
    """
    k = knee(edition, thermal_factor, slippery)
    factor = min(1.0, max(0.0, 1 - (angle - k) / (70 - k)))
    terms = {"theta": Term(angle, "deg"), "k": Term(k, "deg")}
    equation = "min(1, max(0, 1 - (theta - k) / (70 - k)))"
    record(CalculationStep("Cs", "slope factor", Term(factor), equation, terms, clause(edition, "Fig. 7.4-1")))
    return factor


def sloped_snow(site: Site, angle: float, thermal_factor: float, record: Recorder = silent) -> float:
    """Balanced snow, Eq. 7.4-1: ps = Cs pf [psf]; angle to the horizontal [deg], thermal_factor Ct."""
    flat = flat_roof_snow(site, thermal_factor, record)
    factor = slope_factor(site.standard, angle, thermal_factor, site.roof_surface == "slippery", record)
    terms = {"Cs": Term(factor), "pf": Term(flat, "psf")}
    record(
        CalculationStep(
            "ps", "snow on the slope", Term(factor * flat, "psf"), "Cs * pf", terms, clause(site.standard, "Eq. 7.4-1")
        )
    )
    return factor * flat


def minimum_snow(site: Site, slope: float, record: Recorder = silent) -> float | None:
    """pm, §7.3.4, slopes below 15 deg: Is min(pg, 20) (7-16), pg with a cap (7-22) [psf]; None if it does not apply."""
    if slope >= LOW_SLOPE_END:
        return None
    ground, cap = site.ground_snow / PSF, MINIMUM_CAP[site.standard][site.risk_category]
    minimum, equation = importance(site) * min(ground, cap), "min(pg, cap)"
    terms = {"pg": Term(ground, "psf"), "cap": Term(cap, "psf")}
    if site.standard == SEVEN_16:
        equation, terms = "Is * min(pg, cap)", terms | {"Is": Term(importance(site))}
    record(
        CalculationStep(
            "pm",
            "minimum snow for low slopes",
            Term(minimum, "psf"),
            equation,
            terms,
            clause(site.standard, "§7.3.4"),
        )
    )
    return minimum


def rain_on_snow(site: Site, slope: float, run: float) -> float:
    """Rain-on-snow surcharge, §7.10: 5 (7-16) or 8 (7-22) if θ < W/50 and ground snow is at most its cap, else 0 [psf].

    Args:
        site: the site.
        slope: θ, slope of the roof [deg].
        run: W, eave to ridge, horizontal [m].
    """
    within_cap = 0 < site.ground_snow / PSF <= MINIMUM_CAP[site.standard][site.risk_category] + SAME_PRESSURE
    return RAIN[site.standard] if within_cap and slope < run / FOOT / 50 else 0.0
