"""Snow, ASCE 7 chapter 7: balanced, with slope factor, minimum and rain."""

from __future__ import annotations

import numpy as np

from engine.reference import Confidence, Recorder, Reference, Step, Term, silent
from engine.standards.asce7.references import clause
from engine.standards.asce7.site import SEVEN_16, Site
from engine.units import FOOT, PSF, UNITS

ARRAY_THERMAL = 1.2
"""Ct of modules: an array stands in open air, whatever the roof beneath (a stated choice, safe)."""

EXPOSURE = {
    "fully exposed": {"B": 0.9, "C": 0.9, "D": 0.8},
    "partially exposed": {"B": 1.0, "C": 1.0, "D": 0.9},
    "sheltered": {"B": 1.2, "C": 1.1, "D": 1.0},
}
"""Ce, Table 7.3-1."""

IMPORTANCE = {"I": 0.80, "II": 1.00, "III": 1.10, "IV": 1.20}
"""Is, Table 1.5-2, ASCE 7-16 only: in 7-22 the map depends on the risk category instead."""

MINIMUM_CAP = {SEVEN_16: {"I": 20.0, "II": 20.0, "III": 20.0, "IV": 20.0}, "ASCE 7-22": {"I": 25.0, "II": 30.0, "III": 35.0, "IV": 40.0}}
"""Largest ground snow that the minimum for low slopes follows [psf], §7.3.4."""

THERMAL_16 = {"heated": 1.0, "just above freezing": 1.1, "unheated": 1.2, "freezer": 1.3}
THERMAL_22 = {"just above freezing": 1.2, "unheated": 1.2, "freezer": 1.3}

RESISTANCES = (20.0, 30.0, 40.0, 50.0)
GROUND = (10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0)
HEATED_22 = (
    (1.20, 1.11, 1.05, 1.01, 1.00, 1.00, 1.00),
    (1.20, 1.17, 1.14, 1.13, 1.12, 1.11, 1.10),
    (1.20, 1.19, 1.17, 1.16, 1.16, 1.15, 1.15),
    (1.20, 1.20, 1.19, 1.19, 1.19, 1.18, 1.18),
)
"""Ct of heated, unventilated roofs by thermal resistance and ground snow [psf], ASCE 7-22 Table 7.3-3."""

THERMAL_RESISTANCE = UNITS["thermal resistance"]["h ft2 F/Btu"]
"""One h ft² °F/Btu in m² K/W."""

CHOICE = Reference("loadpath", "", "array in open air", Confidence.CHOICE)


def heated_thermal_factor(resistance: float | None, ground: float) -> float:
    """Ct of a heated roof, ASCE 7-22 Table 7.3-3, bilinear; 1.2 where the resistance is unknown or beyond 50.

    Args:
        resistance: of the roof [h ft² °F/Btu]; None where unknown.
        ground: ground snow [psf].
    """
    if resistance is None or resistance > RESISTANCES[-1]:
        return 1.2
    rows = [float(np.interp(ground, GROUND, row)) for row in HEATED_22]
    return float(np.interp(resistance, RESISTANCES, rows))


def roof_thermal_factor(site: Site, thermal: str) -> float:
    """Ct of the bare roof, Table 7.3-2 (7-16) or 7.3-2 and 7.3-3 (7-22)."""
    if site.standard == SEVEN_16:
        return THERMAL_16[thermal]
    if thermal == "heated":
        resistance = site.roof_thermal_resistance
        return heated_thermal_factor(None if resistance is None else resistance / THERMAL_RESISTANCE, site.ground_snow / PSF)
    return THERMAL_22[thermal]


def flat_roof_snow(site: Site, thermal_factor: float, record: Recorder = silent) -> float:
    """pf, Eq. 7.3-1: 0.7 Ce Ct Is pg (7-16), 0.7 Ce Ct pg (7-22) [psf].

    Args:
        site: the site.
        thermal_factor: Ct.
        record: takes the step.
    """
    ce = EXPOSURE[site.snow_exposure][site.exposure]
    importance = IMPORTANCE[site.risk_category] if site.standard == SEVEN_16 else 1.0
    ground = site.ground_snow / PSF
    pressure = 0.7 * ce * thermal_factor * importance * ground
    terms = {"Ce": Term(ce), "Ct": Term(thermal_factor), "Is": Term(importance), "pg": Term(ground, "psf")}
    record(Step("pf", "flat-roof snow", Term(pressure, "psf"), "0.7 * Ce * Ct * Is * pg", terms, clause(site.standard, "Eq. 7.3-1")))
    return pressure


def slope_factor(edition: str, slope: float, thermal_factor: float, slippery: bool, record: Recorder = silent) -> float:
    """Cs, Fig. 7.4-1: 1 to a knee, then straight to 0 at 70 deg.

    Args:
        edition: "ASCE 7-16" or "ASCE 7-22".
        slope: of the surface from the horizontal [deg].
        thermal_factor: Ct.
        slippery: whether snow slides off unobstructed.
        record: takes the step.
    """
    cold, warm = (1.2, 1.0) if edition == SEVEN_16 else (1.2, 1.1)
    if thermal_factor <= warm + 1e-9:
        knee = 5.0 if slippery else 30.0
    elif thermal_factor < cold - 1e-9:
        knee = 10.0 if slippery else 37.5
    else:
        knee = 15.0 if slippery else 45.0
    factor = min(1.0, max(0.0, 1 - (slope - knee) / (70 - knee)))
    terms = {"theta": Term(slope, "deg"), "k": Term(knee, "deg")}
    equation = "min(1, max(0, 1 - (theta - k) / (70 - k)))"
    record(Step("Cs", "slope factor", Term(factor), equation, terms, clause(edition, "Fig. 7.4-1")))
    return factor


def sloped_snow(site: Site, slope: float, thermal_factor: float, record: Recorder = silent) -> float:
    """ps = Cs pf, Eq. 7.4-1 [psf of horizontal projection]; slope [deg]."""
    flat = flat_roof_snow(site, thermal_factor, record)
    factor = slope_factor(site.standard, slope, thermal_factor, site.roof_surface == "slippery", record)
    terms = {"Cs": Term(factor), "pf": Term(flat, "psf")}
    record(Step("ps", "snow on the slope", Term(factor * flat, "psf"), "Cs * pf", terms, clause(site.standard, "Eq. 7.4-1")))
    return factor * flat


def minimum_snow(site: Site, slope: float, record: Recorder = silent) -> float | None:
    """pm, §7.3.4: the minimum for slopes below 15 deg, a case of its own [psf]; None where it does not apply."""
    if slope >= 15:
        return None
    ground, cap = site.ground_snow / PSF, MINIMUM_CAP[site.standard][site.risk_category]
    importance = IMPORTANCE[site.risk_category] if site.standard == SEVEN_16 else 1.0
    pressure = importance * min(ground, cap)
    terms = {"Is": Term(importance), "pg": Term(ground, "psf"), "cap": Term(cap, "psf")}
    record(Step("pm", "minimum snow for low slopes", Term(pressure, "psf"), "Is * min(pg, cap)", terms, clause(site.standard, "§7.3.4")))
    return pressure


def rain_on_snow(site: Site, slope: float, run: float) -> float:
    """Surcharge for rain, §7.10 [psf]: 5 (7-16) or 8 (7-22) where θ < W/50 and ground snow is small.

    Args:
        site: the site.
        slope: of the roof [deg].
        run: W, eave to ridge, horizontal [m].
    """
    cap = 20.0 if site.standard == SEVEN_16 else MINIMUM_CAP[site.standard][site.risk_category]
    ground = site.ground_snow / PSF
    if not 0 < ground <= cap or slope >= run / FOOT / 50:
        return 0.0
    return 5.0 if site.standard == SEVEN_16 else 8.0
