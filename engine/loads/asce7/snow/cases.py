"""The snow cases that apply to a roof, and the snow of each case on a surface."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from engine.common.arrays import Floats
from engine.common.calculation import CalculationStep, Recorder, Reference, Term, silent
from engine.loads.asce7.references import clause
from engine.loads.asce7.site import SEVEN_16, Site
from engine.loads.asce7.snow.balanced import importance, minimum_snow, rain_on_snow, sloped_snow
from engine.loads.asce7.snow.drift import has_unbalanced, is_narrow, ridge_drift
from engine.project.building import Building
from engine.units import PSF

BALANCED, UNBALANCED = "S", "S unbalanced"


@dataclass(frozen=True)
class Surface:
    """A surface with snow: angle to the horizontal [deg], Ct and the source of Ct."""

    angle: float
    thermal_factor: float
    thermal_source: Reference


def _balanced(site: Site, building: Building, surface: Surface, record: Recorder = silent) -> float:
    record(CalculationStep("Ct", "thermal factor", Term(surface.thermal_factor), "", {}, surface.thermal_source))
    return sloped_snow(site, surface.angle, surface.thermal_factor, record)


def _minimum(site: Site, building: Building, surface: Surface, record: Recorder = silent) -> float | None:
    return minimum_snow(site, building.slope, record)


def _rain(site: Site, building: Building, surface: Surface, record: Recorder = silent) -> float | None:
    rain = rain_on_snow(site, building.slope, building.run)
    if not rain:
        return None
    sloped = _balanced(site, building, surface, record)
    terms = {"ps": Term(sloped, "psf"), "rain": Term(rain, "psf")}
    record(
        CalculationStep(
            "pr", "rain on snow", Term(sloped + rain, "psf"), "ps + rain", terms, clause(site.standard, "§7.10")
        )
    )
    return sloped + rain


def _unbalanced(site: Site, building: Building, surface: Surface, record: Recorder = silent) -> float | None:
    """The lee slope of a gable, §7.6.1: ps, to which `_on_lee_slope` adds the drift."""
    return _balanced(site, building, surface, record) if has_unbalanced(building) else None


Clause = Callable[[Site, Building, Surface, Recorder], float | None]

CASES: Mapping[str, Clause] = MappingProxyType(
    {BALANCED: _balanced, "S min": _minimum, "S rain": _rain, UNBALANCED: _unbalanced}
)
"""Case → its snow on a surface [psf]; None if it does not apply to the roof."""


def cases(site: Site, building: Building, surface: Surface) -> tuple[str, ...]:
    """The snow cases that apply; none without ground snow."""
    if site.ground_snow <= 0:
        return ()
    return tuple(case for case, clause_of in CASES.items() if clause_of(site, building, surface, silent) is not None)


def on_places(
    case: str, site: Site, building: Building, surface: Surface, to_ridge: Floats, record: Recorder = silent
) -> Floats:
    """Snow of a case on surfaces whose upper edge is `to_ridge` [ft] from the ridge, horizontally (n,) [psf]."""
    balanced = CASES[case](site, building, surface, record) or 0.0
    if case == UNBALANCED:
        return _on_lee_slope(site, building, balanced, to_ridge, record)
    return np.full(len(to_ridge), balanced)


def _on_lee_slope(site: Site, building: Building, balanced: float, to_ridge: Floats, record: Recorder) -> Floats:
    """Unbalanced snow, §7.6.1 (n,) [psf]: the drift behind the ridge; on a narrow gable the full ground snow if larger.

    Notes:
        A surface with any part under the drift carries the full surcharge (loadpath's choice, safe). The clause has
        the ground snow for narrow roofs on simple rafters only; the framing is not an input, so the larger counts.
    """
    surcharge, reach = ridge_drift(site, building.slope, building.run, record)
    snow, equation = np.where(to_ridge < reach, balanced + surcharge, balanced), "ps + pd * (x < xd)"
    terms = {
        "ps": Term(balanced, "psf"),
        "pd": Term(surcharge, "psf"),
        "xd": Term(reach, "ft"),
        "x": Term(float(to_ridge[0]), "ft"),
    }
    if is_narrow(building):
        ground = importance(site) * site.ground_snow / PSF
        snow, equation = np.maximum(snow, ground), f"max(pn, {equation})"
        terms["pn"] = _ground_snow_on_narrow_gable(site, ground, record)
    record(
        CalculationStep(
            "pu",
            "unbalanced snow on the lee slope",
            Term(float(snow[0]), "psf"),
            equation,
            terms,
            clause(site.standard, "§7.6.1"),
        )
    )
    return snow


def _ground_snow_on_narrow_gable(site: Site, ground: float, record: Recorder) -> Term:
    """Is pg on the lee slope [psf]; in 7-22 the importance is part of pg."""
    equation, terms = "pg", {"pg": Term(site.ground_snow / PSF, "psf")}
    if site.standard == SEVEN_16:
        equation, terms = "Is * pg", terms | {"Is": Term(importance(site))}
    source, result = clause(site.standard, "§7.6.1"), Term(ground, "psf")
    record(
        CalculationStep(
            "pn",
            "narrow gables on simple rafters: ground snow on the lee slope",
            result,
            equation,
            terms,
            source,
        )
    )
    return result
