"""The roof plan of one design as plain geometry, from which every drawing is made.

All in the plane of the slope that carries the array [m], x along the eave from the left rake, y up
the slope from the eave.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.common.tolerances import SUMMED_LENGTH
from engine.comparison.attachment_schedule import Schedule, schedule
from engine.comparison.hardware_plan import HardwarePlan, Segments, hardware_plan, segments
from engine.design.design import Design
from engine.loads.interface import RoofZones
from engine.mounting.layout import Field, Rectangles
from engine.mounting.neighbours import free_sides
from engine.project.array import KeepClear
from engine.project.building import Building


@dataclass(frozen=True, eq=False)
class Plan:
    """Places of everything on the slope.

    `length` along the eave and `depth` up the slope [m]. `top`, `side` and `rib_word` name its upper edge, its left and
    right ones, and its seams or ribs; `eave_faces`: the direction of the eave, clockwise from north [deg], None if not
    stated. `ribs` (R,), `rafters` (N,) and `supports` (F,) are lines across it. `roof_zones` are the roof's own wind
    zones; `zone` (M,) and `exposed` (M,) are those of the modules. `borders` separate the roof's zones, and its slopes
    at hips. `exposed_edges` are the sides of exposed modules without a neighbour.
    """

    length: float
    depth: float
    top: str
    side: str
    rib_word: str
    eave_faces: float | None
    ribs: Floats
    supports: Floats
    rafters: Floats
    roof_zones: RoofZones
    borders: Segments
    keep_clear: tuple[KeepClear, ...]
    modules: Rectangles
    zone: tuple[str, ...]
    exposed: Bools
    exposed_edges: Segments
    attachments: Schedule
    hardware: HardwarePlan

    @property
    def north(self) -> tuple[float, float] | None:
        """Unit vector to the north, along the eave and up the slope; None if the eave's direction is not stated."""
        if self.eave_faces is None:
            return None
        turn = math.radians(self.eave_faces - 90)
        return math.cos(turn), math.sin(turn)

    @property
    def along_eave(self) -> tuple[float, ...]:
        """A chain of dimensions along the eave: roof, array, roof [m from the left rake]."""
        return (0.0, float(self.modules.left.min()), float(self.modules.right.max()), self.length)

    @property
    def up_slope(self) -> tuple[float, ...]:
        """A chain of dimensions up the slope: roof, array, roof [m from the eave]."""
        return (0.0, float(self.modules.low.min()), float(self.modules.high.max()), self.depth)


def plan(design: Design) -> Plan:
    """The plan of one design."""
    job, building, loads = design.job, design.job.building, design.loads
    zones = loads.roof_zones()
    return Plan(
        length=building.length,
        depth=building.slope_length,
        top="ridge" if building.has_ridge else "high edge",
        side=building.side_word,
        rib_word=job.roof.rib_word,
        eave_faces=building.eave_faces,
        ribs=job.ribs,
        supports=job.roof.supports(building),
        rafters=job.roof.rafters.along(building.length),
        roof_zones=zones,
        borders=segments([*_borders(zones), *_hips(building)]),
        keep_clear=job.keep_clear,
        modules=design.field.outlines,
        zone=tuple(loads.zone_names[zone] for zone in loads.zone),
        exposed=loads.exposed,
        exposed_edges=_exposed_edges(design.field, loads.exposed),
        attachments=schedule(design),
        hardware=hardware_plan(design.layout),
    )


def _hips(building: Building) -> list[tuple[float, float, float, float]]:
    """Both hips, from the eave to the ridge."""
    if building.roof_shape != "hip":
        return []
    return [(end, 0.0, abs(end - building.run), building.slope_length) for end in (0.0, building.length)]


def _borders(zones: RoofZones) -> list[tuple[float, float, float, float]]:
    """Sides of the zones' rectangles with another zone beyond them, each once."""
    at, zone = zones.places, zones.zone
    rows = []
    for first, second in _touching(at.right, at.left, at.low, at.high):
        if zone[first] != zone[second]:
            rows.append((at.right[first], at.low[first], at.right[first], at.high[first]))
    for first, second in _touching(at.high, at.low, at.left, at.right):
        if zone[first] != zone[second]:
            rows.append((at.left[first], at.high[first], at.right[first], at.high[first]))
    return rows


def _touching(end: Floats, start: Floats, low: Floats, high: Floats) -> list[tuple[int, int]]:
    """Pairs of rectangles of a grid of which the second begins where the first ends."""
    pairs = np.argwhere(
        np.isclose(end[:, None], start) & np.isclose(low[:, None], low) & np.isclose(high[:, None], high)
    )
    return [(int(first), int(second)) for first, second in pairs]


def _exposed_edges(field: Field, exposed: Bools) -> Segments:
    """Sides of exposed modules at which no row or column of the array goes on."""
    at = field.outlines
    levels = np.unique(at.low.round(6))
    between_rows = float(np.diff(levels).min(initial=np.inf)) - float(at.high[0] - at.low[0])
    gap = max(field.gap, between_rows if np.isfinite(between_rows) else 0.0)
    ends = {
        "low": (at.left, at.low, at.right, at.low),
        "high": (at.left, at.high, at.right, at.high),
        "left": (at.left, at.low, at.left, at.high),
        "right": (at.right, at.low, at.right, at.high),
    }
    free = free_sides(at, gap + SUMMED_LENGTH, field.gap)
    sides = [np.column_stack(ends[side])[free[side] & exposed] for side in ends]
    return Segments(*np.concatenate(sides).T)
