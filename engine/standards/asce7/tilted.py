"""Tilted rows on a low-slope roof, ASCE 7 §29.4.3."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from engine.arrays import Floats, Ints
from engine.job import Job
from engine.layout import Field
from engine.loads import Limit
from engine.roof import Building
from engine.standards.asce7.zones import edges
from engine.units import FOOT, both, text

AREAS = (1.0, 500.0, 5000.0)
"""Normalized areas An of the figure's break points [-]."""

NOMINAL = {
    5.0: ((1.5, 0.35, 0.10), (2.0, 0.45, 0.15), (2.3, 0.50, 0.15)),
    15.0: ((2.0, 0.56, 0.30), (2.9, 0.65, 0.40), (3.5, 0.80, 0.50)),
}
"""Tilt [deg] → (GCrn)nom of zones 1, 2, 3 at those areas; linear in tilt between 5 and 15 deg (Fig. 29.4-7, seen once)."""

ZONE_NAMES = ("1", "2", "3")


def nominal(tilt: float, zone: Ints, area: Floats) -> Floats:
    """(GCrn)nom for a tilt [deg], zone indices and normalized areas of one shape, straight in log An."""
    part = min(max((tilt - 5) / 10, 0.0), 1.0)
    table = (1 - part) * np.array(NOMINAL[5.0]) + part * np.array(NOMINAL[15.0])
    logs = np.log10(AREAS)
    at = np.clip(np.log10(area), logs[0], logs[-1])
    values = np.stack([np.interp(at, logs, row) for row in table])
    chosen: Floats = np.take_along_axis(values, zone[None], 0)[0]
    return chosen


def normalizing_length(building: Building) -> float:
    """Lb = min(0.4 √(h WL), h, Ws), with the longer and shorter side of the plan [m]."""
    h = building.mean_roof_height
    longer, shorter = max(building.length, building.width), min(building.length, building.width)
    return float(min(0.4 * np.sqrt(h * longer), h, shorter))


def normalized_area(building: Building, area: Floats) -> Floats:
    """An = 1000 A / max(Lb, 15 ft)² [-], areas in m²."""
    return 1000 * area / max(normalizing_length(building), 15 * FOOT) ** 2


def parapet_factor(building: Building) -> float:
    """γp = min(1.2, 0.9 + hpt/h)."""
    return float(min(1.2, 0.9 + building.parapet_height / building.mean_roof_height))


def chord_factor(chord: float) -> float:
    """γc = max(0.6 + 0.06 Lp, 0.8), Lp in feet; chord [m]."""
    return max(0.6 + 0.06 * chord / FOOT, 0.8)


def zones(building: Building, field: Field) -> Ints:
    """Zone index of each module: strips 2h at the edges are zone 2, their corners zone 3 (0, 1, 2)."""
    at = edges(building, field.outlines)
    strip = 2 * building.mean_roof_height
    in_strips = (at.along_plan < strip).astype(np.int64) + (at.rake < strip)
    return in_strips


@dataclass(frozen=True)
class _Bound:
    value: float
    most: float
    words: str
    dimension: str


def limits(job: Job, field: Field) -> Iterator[Limit]:
    """Where the clause ends: roof slope, chord, tilt, heights, gap, distance from the edges."""
    attitude, building = field.attitude, job.building
    bounds = (
        _Bound(building.slope, 7.0, "the roof's slope is", "angle"),
        _Bound(attitude.chord, 6.7 * FOOT, "the modules' size up the slope is", "length"),
        _Bound(attitude.tilt, 35.0, "the tilt is", "angle"),
        _Bound(attitude.low, 2 * FOOT, "the low edge's height is", "length"),
        _Bound(attitude.high, 4 * FOOT, "the high edge's height is", "length"),
    )
    for bound in bounds:
        if bound.value > bound.most + 1e-9:
            given, most = (
                text(value, "angle", "us") if bound.dimension == "angle" else both(value, bound.dimension)
                for value in (bound.value, bound.most)
            )
            yield Limit("ASCE 7 §29.4.3", f"{bound.words} {given}, the clause ends at {most}")
    at = edges(building, field.outlines)
    nearest = float(min(at.along_plan.min(), at.rake.min()))
    least = max(2 * (attitude.high - building.parapet_height), 4 * FOOT)
    if nearest < least - 1e-9:
        yield Limit(
            "ASCE 7 §29.4.3",
            f"the array comes within {both(nearest, 'length')} of a roof edge, the clause asks for {both(least, 'length')}",
        )
