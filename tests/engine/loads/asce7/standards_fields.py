"""Small fields and jobs that these tests share."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from engine.loads.asce7.field_loads import Asce7Loads
from engine.loads.asce7.site import Site
from engine.loads.asce7.standard import Asce7
from engine.mounting.layout import Attitude, Field, Rectangles
from engine.project.building import Building
from engine.project.job import Job
from engine.units import FOOT, INCH
from support import scenario_of

FLUSH = Attitude(0.0, 4 * INCH, 5 * INCH, 3 * FOOT, 6 * FOOT)


@dataclass(frozen=True)
class Plan:
    """A grid of modules: corner, size and gap in feet, places left out as (row, column)."""

    rows: int = 4
    columns: int = 6
    at: tuple[float, float] = (60.0, 30.0)
    size: tuple[float, float] = (6.0, 3.0)
    gap: tuple[float, float] = (0.05, 0.05)
    missing: frozenset[tuple[int, int]] = frozenset()


def field(plan: Plan | None = None, attitude: Attitude = FLUSH, **changes: object) -> Field:
    plan = replace(plan or Plan(), **changes)  # type: ignore[arg-type]
    kept = [(r, c) for r in range(plan.rows) for c in range(plan.columns) if (r, c) not in plan.missing]
    row, column = np.array(kept, dtype=np.int64).T
    left = (plan.at[0] + column * (plan.size[0] + plan.gap[0])) * FOOT
    low = (plan.at[1] + row * (plan.size[1] + plan.gap[1])) * FOOT
    outlines = Rectangles(left, low, left + plan.size[0] * FOOT, low + plan.size[1] * FOOT)
    area, array = plan.size[0] * plan.size[1] * FOOT**2, np.zeros(len(row), dtype=np.int64)
    return Field(outlines, row, column, row, attitude, area, min(plan.gap) * FOOT, array, ())


def site(edition: str = "ASCE 7-16", **changes: object) -> Site:
    plain = {"standard": edition, "wind_speed": "115 mph", "exposure": "C", "ground_snow": "25 psf"}
    return Site.model_validate(plain | changes)


def building(**changes: object) -> Building:
    plain = {"length": "200 ft", "width": "120 ft", "mean_roof_height": "20 ft", "slope": "1:12", "roof_shape": "gable"}
    return Building.model_validate(plain | changes)


def job(of: Building | None = None) -> Job:
    return replace(scenario_of().job, building=of or building())


def loads(on: Site | None = None, of: Building | None = None, modules: Field | None = None) -> Asce7Loads:
    return Asce7(on or site()).loads(job(of), modules or field())


def on_module(found: Asce7Loads, case: str, module: int = 0) -> float:
    """Snow on one module [Pa]."""
    return float(found.snow(case, np.array([module]))[0])


def on_roof(found: Asce7Loads, case: str, low: float = 1.0, high: float = 2.0) -> float:
    """Snow on bare roof from `low` to `high` [ft from the eave], in Pa."""
    return float(found.snow_on_roof(case, strip(low, high))[0])


def strip(low: float, high: float) -> Rectangles:
    return Rectangles(*(np.array([value * FOOT]) for value in (10.0, low, 12.0, high)))
