"""The cases of snow that apply to a roof, and what each puts on things."""

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

UNBALANCED = "S unbalanced"


@dataclass(frozen=True)
class Surface:
    """What snow lies on: its angle to the horizontal [deg], its Ct and where that comes from."""

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
    """The lee slope of a gable, §7.6.1: ps, and what `_on_the_lee` puts on top of it."""
    return _balanced(site, building, surface, record) if has_unbalanced(building) else None


Clause = Callable[[Site, Building, Surface, Recorder], float | None]

CASES: Mapping[str, Clause] = MappingProxyType(
    {"S": _balanced, "S min": _minimum, "S rain": _rain, UNBALANCED: _unbalanced}
)
"""Case → what it puts on a surface [psf]; None where it does not apply to the roof."""


def cases(site: Site, building: Building, surface: Surface) -> tuple[str, ...]:
    """The snow cases that apply; none where there is no snow."""
    if site.ground_snow <= 0:
        return ()
    return tuple(case for case, clause_of in CASES.items() if clause_of(site, building, surface, silent) is not None)


def on_places(
    case: str, site: Site, building: Building, surface: Surface, to_ridge: Floats, record: Recorder = silent
) -> Floats:
    """A case's snow on things whose nearest part lies `to_ridge` [ft] from the ridge, horizontally (n,) [psf]."""
    even = CASES[case](site, building, surface, record) or 0.0
    if case == UNBALANCED:
        return _on_the_lee(site, building, even, to_ridge, record)
    return np.full(len(to_ridge), even)


def _on_the_lee(site: Site, building: Building, even: float, to_ridge: Floats, record: Recorder) -> Floats:
    """Unbalanced snow, §7.6.1: a drift behind the ridge; on a narrow gable all of the ground's snow, where that is more.

    What the drift touches carries its surcharge whole (a stated choice, safe). The clause asks for one or the other by
    what carries a narrow roof, simple rafters or anything else; that is not asked here, so that both are looked at.
    """
    surcharge, reach = ridge_drift(site, building.slope, building.run, record)
    snow, equation = np.where(to_ridge < reach, even + surcharge, even), "ps + pd * (x < xd)"
    terms = {
        "ps": Term(even, "psf"),
        "pd": Term(surcharge, "psf"),
        "xd": Term(reach, "ft"),
        "x": Term(float(to_ridge[0]), "ft"),
    }
    if is_narrow(building):
        ground = importance(site) * site.ground_snow / PSF
        snow, equation = np.maximum(snow, ground), f"max(pn, {equation})"
        terms["pn"] = _all_of_the_ground(site, ground, record)
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


def _all_of_the_ground(site: Site, ground: float, record: Recorder) -> Term:
    """Is pg on the lee slope; 7-22 has the importance in pg."""
    equation, terms = "pg", {"pg": Term(site.ground_snow / PSF, "psf")}
    if site.standard == SEVEN_16:
        equation, terms = "Is * pg", terms | {"Is": Term(importance(site))}
    source, result = clause(site.standard, "§7.6.1"), Term(ground, "psf")
    record(
        CalculationStep(
            "pn",
            "narrow gables on simple rafters: all of the ground's snow on the lee slope",
            result,
            equation,
            terms,
            source,
        )
    )
    return result
