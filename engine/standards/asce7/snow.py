"""Snow, ASCE 7 chapter 7: balanced, minimum, with rain, unbalanced on gables.

Pressures are of horizontal projection, in psf.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from engine.arrays import Floats
from engine.reference import Recorder, Reference, Step, Term, silent
from engine.roof import Building
from engine.standards.asce7.references import clause, single
from engine.standards.asce7.site import SEVEN_16, SEVEN_22, Site
from engine.units import FOOT, PSF, UNITS

EXPOSURE = {
    "fully exposed": {"B": 0.9, "C": 0.9, "D": 0.8},
    "partially exposed": {"B": 1.0, "C": 1.0, "D": 0.9},
    "sheltered": {"B": 1.2, "C": 1.1, "D": 1.0},
}
"""Ce, Table 7.3-1: how open the roof stands → exposure category."""

IMPORTANCE = {"I": 0.80, "II": 1.00, "III": 1.10, "IV": 1.20}
"""Is, Table 1.5-2, ASCE 7-16 only: in 7-22 the map depends on the risk category instead."""

MINIMUM_CAP = {SEVEN_16: dict.fromkeys(("I", "II", "III", "IV"), 20.0), SEVEN_22: {"I": 25.0, "II": 30.0, "III": 35.0, "IV": 40.0}}
"""Largest ground snow that the minimum for low slopes follows, and up to which rain counts [psf], §7.3.4 and §7.10."""

RAIN = {SEVEN_16: 5.0, SEVEN_22: 8.0}
"""Surcharge of rain on snow [psf], §7.10."""

THERMAL_16 = {"heated": 1.0, "just above freezing": 1.1, "unheated": 1.2, "freezer": 1.3}
"""Ct, ASCE 7-16 Table 7.3-2."""

THERMAL_22 = {"just above freezing": 1.2, "unheated": 1.2, "freezer": 1.3}
"""Ct, ASCE 7-22 Table 7.3-2; just above freezing was not seen and counts as unheated, the safe side."""

RESISTANCES = (20.0, 30.0, 40.0, 50.0)
GROUND = (10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0)
HEATED_22 = (
    (1.20, 1.11, 1.05, 1.01, 1.00, 1.00, 1.00),
    (1.20, 1.17, 1.14, 1.13, 1.12, 1.11, 1.10),
    (1.20, 1.19, 1.17, 1.16, 1.16, 1.15, 1.15),
    (1.20, 1.20, 1.19, 1.19, 1.19, 1.18, 1.18),
)
"""Ct of heated, unventilated roofs by thermal resistance [h ft² °F/Btu] and ground snow [psf], ASCE 7-22 Table 7.3-3."""

SAFE_THERMAL = 1.2
"""The table's largest value: where the resistance is unknown or beyond its last row."""

THERMAL_RESISTANCE = UNITS["thermal resistance"]["h ft2 F/Btu"]
"""One h ft² °F/Btu in m² K/W."""

UNBALANCED = "S unbalanced"

LOW_SLOPE_END = 15.0
"""Slopes below this have a minimum [deg], §7.3.4."""

UNBALANCED_FROM, UNBALANCED_TO = 2.38, 30.2
"""Slopes of gables that unbalanced snow concerns [deg], §7.6.1: 1/2 to 7 on 12."""

SHORT_RUN = 20.0
"""Eave to ridge up to which a gable carries the whole ground snow unbalanced, and the least fetch [ft], §7.6.1."""


@dataclass(frozen=True)
class Surface:
    """What snow lies on: its angle to the horizontal [deg], its Ct and where that comes from."""

    angle: float
    thermal_factor: float
    thermal_source: Reference


def heated_thermal_factor(resistance: float | None, ground: float) -> float:
    """Ct of a heated roof, ASCE 7-22 Table 7.3-3, bilinear; 1.2 where the resistance is unknown or beyond 50.

    Args:
        resistance: of the roof [h ft² °F/Btu]; None where unknown.
        ground: ground snow [psf].
    """
    if resistance is None or resistance > RESISTANCES[-1]:
        return SAFE_THERMAL
    rows = [float(np.interp(ground, GROUND, row)) for row in HEATED_22]
    return float(np.interp(resistance, RESISTANCES, rows))


def roof_thermal_factor(site: Site, thermal: str) -> float:
    """Ct of the bare roof, Table 7.3-2 (7-16), Tables 7.3-2 and 7.3-3 (7-22); thermal as the building's table names it."""
    if site.standard == SEVEN_16:
        return THERMAL_16[thermal]
    if thermal == "heated":
        resistance = site.roof_thermal_resistance
        return heated_thermal_factor(None if resistance is None else resistance / THERMAL_RESISTANCE, site.ground_snow / PSF)
    return THERMAL_22[thermal]


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
    record(Step("pf", "flat-roof snow", Term(flat, "psf"), equation, terms, clause(site.standard, "Eq. 7.3-1")))
    return flat


def knee(edition: str, thermal_factor: float, slippery: bool) -> float:
    """The slope up to which Cs is 1, Fig. 7.4-1 [deg]; Ct to 1.0 (7-16) or 1.1 (7-22) warm, from 1.2 cold."""
    warm = 1.0 if edition == SEVEN_16 else 1.1
    if thermal_factor <= warm + 1e-9:
        return 5.0 if slippery else 30.0
    if thermal_factor < 1.2 - 1e-9:
        return 10.0 if slippery else 37.5
    return 15.0 if slippery else 45.0


def slope_factor(edition: str, angle: float, thermal_factor: float, slippery: bool, record: Recorder = silent) -> float:
    """Cs, Fig. 7.4-1: 1 to a knee, then straight to 0 at 70 deg.

    Args:
        edition: "ASCE 7-16" or "ASCE 7-22".
        angle: of the surface to the horizontal [deg].
        thermal_factor: Ct.
        slippery: whether snow slides off unobstructed.
        record: takes the step.
    """
    k = knee(edition, thermal_factor, slippery)
    factor = min(1.0, max(0.0, 1 - (angle - k) / (70 - k)))
    terms = {"theta": Term(angle, "deg"), "k": Term(k, "deg")}
    equation = "min(1, max(0, 1 - (theta - k) / (70 - k)))"
    record(Step("Cs", "slope factor", Term(factor), equation, terms, clause(edition, "Fig. 7.4-1")))
    return factor


def sloped_snow(site: Site, angle: float, thermal_factor: float, record: Recorder = silent) -> float:
    """Balanced snow, Eq. 7.4-1: ps = Cs pf [psf]; angle to the horizontal [deg], thermal_factor Ct."""
    flat = flat_roof_snow(site, thermal_factor, record)
    factor = slope_factor(site.standard, angle, thermal_factor, site.roof_surface == "slippery", record)
    terms = {"Cs": Term(factor), "pf": Term(flat, "psf")}
    record(Step("ps", "snow on the slope", Term(factor * flat, "psf"), "Cs * pf", terms, clause(site.standard, "Eq. 7.4-1")))
    return factor * flat


def minimum_snow(site: Site, slope: float, record: Recorder = silent) -> float | None:
    """pm, §7.3.4, roofs [deg] below 15: Is min(pg, 20) (7-16), pg to a cap (7-22) [psf]; None where it does not apply."""
    if slope >= LOW_SLOPE_END:
        return None
    ground, cap = site.ground_snow / PSF, MINIMUM_CAP[site.standard][site.risk_category]
    least, equation = importance(site) * min(ground, cap), "min(pg, cap)"
    terms = {"pg": Term(ground, "psf"), "cap": Term(cap, "psf")}
    if site.standard == SEVEN_16:
        equation, terms = "Is * min(pg, cap)", terms | {"Is": Term(importance(site))}
    record(Step("pm", "minimum snow for low slopes", Term(least, "psf"), equation, terms, clause(site.standard, "§7.3.4")))
    return least


def rain_on_snow(site: Site, slope: float, run: float) -> float:
    """Surcharge of rain, §7.10 [psf]: 5 (7-16) or 8 (7-22) where θ [deg] < W/50 and ground snow is little, else 0.

    Args:
        site: the site.
        slope: of the roof [deg].
        run: W, eave to ridge, horizontal [m].
    """
    little = 0 < site.ground_snow / PSF <= MINIMUM_CAP[site.standard][site.risk_category] + 1e-9
    return RAIN[site.standard] if little and slope < run / FOOT / 50 else 0.0


def has_unbalanced(building: Building) -> bool:
    """Gable and hip roofs between 1/2 and 7 on 12, §7.6.1."""
    return building.has_ridge and UNBALANCED_FROM <= building.slope <= UNBALANCED_TO


def density(site: Site, record: Recorder = silent) -> float:
    """γ, Eq. 7.7-1: min(0.13 pg + 14, 30) [pcf]."""
    ground = site.ground_snow / PSF
    gamma = min(0.13 * ground + 14, 30.0)
    equation = "min(0.13 * pg + 14, 30)"
    record(Step("gamma", "density of snow", Term(gamma, "pcf"), equation, {"pg": Term(ground, "psf")}, clause(site.standard, "Eq. 7.7-1")))
    return gamma


def drift_height(site: Site, gamma: float, fetch: float, record: Recorder = silent) -> float:
    """hd, Fig. 7.6-1 [ft]: √Is (0.43 lu^(1/3) (pg + 10)^(1/4) - 1.5) (7-16), 1.5 √(pg^0.74 lu^0.70 W2^1.7/γ) (7-22).

    Args:
        site: the site.
        gamma: density of snow [pcf].
        fetch: lu, not below 20 ft [ft].
        record: takes the step.
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
    record(Step("hd", "height of the drift behind the ridge", Term(height, "ft"), equation, terms, single(site.standard, "Fig. 7.6-1")))
    return height


def ridge_drift(site: Site, slope: float, run: float, record: Recorder = silent) -> tuple[float, float]:
    """Unbalanced snow of a wide gable, §7.6.1: surcharge hd γ/√S [psf] over 8 hd √S/3 [ft] behind the ridge.

    Args:
        site: the site.
        slope: of the roof [deg]; S is its run for a unit rise.
        run: W, eave to ridge, horizontal [m].
        record: takes the steps.
    """
    gamma = density(site, record)
    height = drift_height(site, gamma, max(run / FOOT, SHORT_RUN), record)
    s = 1 / math.tan(math.radians(slope))
    surcharge, reach = height * gamma / math.sqrt(s), 8 * height * math.sqrt(s) / 3
    terms, source = {"hd": Term(height, "ft"), "S": Term(s)}, clause(site.standard, "§7.6.1")
    weight = terms | {"gamma": Term(gamma, "pcf")}
    record(Step("pd", "surcharge behind the ridge", Term(surcharge, "psf"), "hd * gamma / sqrt(S)", weight, source))
    record(Step("xd", "its reach from the ridge", Term(reach, "ft"), "8 * hd * sqrt(S) / 3", terms, source))
    return surcharge, reach


def _balanced(site: Site, building: Building, surface: Surface, record: Recorder = silent) -> float:
    record(Step("Ct", "thermal factor", Term(surface.thermal_factor), "", {}, surface.thermal_source))
    return sloped_snow(site, surface.angle, surface.thermal_factor, record)


def _minimum(site: Site, building: Building, surface: Surface, record: Recorder = silent) -> float | None:
    return minimum_snow(site, building.slope, record)


def _rain(site: Site, building: Building, surface: Surface, record: Recorder = silent) -> float | None:
    rain = rain_on_snow(site, building.slope, building.run)
    if not rain:
        return None
    sloped = _balanced(site, building, surface, record)
    terms = {"ps": Term(sloped, "psf"), "rain": Term(rain, "psf")}
    record(Step("pr", "rain on snow", Term(sloped + rain, "psf"), "ps + rain", terms, clause(site.standard, "§7.10")))
    return sloped + rain


def _unbalanced(site: Site, building: Building, surface: Surface, record: Recorder = silent) -> float | None:
    """The lee slope of a gable, §7.6.1: Is pg everywhere on a narrow one; on a wide one ps, and a drift: see `on_places`."""
    if not has_unbalanced(building):
        return None
    if is_wide(building):
        return _balanced(site, building, surface, record)
    factor, ground = importance(site), site.ground_snow / PSF
    equation, terms = "pg", {"pg": Term(ground, "psf")}
    if site.standard == SEVEN_16:
        equation, terms = "Is * pg", terms | {"Is": Term(factor)}
    meaning = "all of the ground's snow on the lee slope"
    record(Step("pu", meaning, Term(factor * ground, "psf"), equation, terms, clause(site.standard, "§7.6.1")))
    return factor * ground


def on_places(case: str, site: Site, building: Building, surface: Surface, to_ridge: Floats, record: Recorder = silent) -> Floats:
    """A case's snow on things whose nearest part lies `to_ridge` [ft] from the ridge, horizontally (n,) [psf].

    What the drift of unbalanced snow touches carries its surcharge whole (a stated choice, safe).
    """
    even = CASES[case](site, building, surface, record) or 0.0
    snow = np.full(len(to_ridge), even)
    if case == UNBALANCED and is_wide(building):
        surcharge, reach = ridge_drift(site, building.slope, building.run, record)
        snow = np.where(to_ridge < reach, even + surcharge, even)
        if record is not silent:
            terms = {"ps": Term(even, "psf"), "pd": Term(surcharge, "psf"), "xd": Term(reach, "ft"), "x": Term(float(to_ridge[0]), "ft")}
            source = clause(site.standard, "§7.6.1")
            record(Step("pu", "unbalanced snow on the lee slope", Term(float(snow[0]), "psf"), "ps + pd * (x < xd)", terms, source))
    return snow


def is_wide(building: Building) -> bool:
    """Gables wider than 20 ft from eave to ridge drift behind the ridge, §7.6.1."""
    return building.run > SHORT_RUN * FOOT


Clause = Callable[[Site, Building, Surface, Recorder], float | None]

CASES: Mapping[str, Clause] = MappingProxyType({"S": _balanced, "S min": _minimum, "S rain": _rain, UNBALANCED: _unbalanced})
"""Case → what it puts on a surface [psf]; None where it does not apply to the roof."""


def cases(site: Site, building: Building, surface: Surface) -> tuple[str, ...]:
    """The snow cases that apply; none where there is no snow."""
    if site.ground_snow <= 0:
        return ()
    return tuple(case for case, clause_of in CASES.items() if clause_of(site, building, surface, silent) is not None)
