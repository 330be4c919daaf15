"""Placement: at which places the array holds, with every method, and which of them is best.

On a surveyed roof the array is moved within the window of the job. Where nobody has surveyed the ribs or the supports,
these are moved instead: that shows what the survey may find, and no place is best.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from engine.common.progress import ProgressListener, counted, no_listener
from engine.common.tolerances import WHOLE_NUMBER
from engine.comparison.compare import Column, Comparison
from engine.comparison.flags.layout_rules import distances_to_edges
from engine.design.design import Design, Refused
from engine.design.elsewhere import largest_offset, layout_or_search, moved, within_tolerance
from engine.design.shared_roof import SharedRoof
from engine.design.status import Status, Verdict
from engine.design.unknown_places import possible_first_bays, possible_first_ribs, with_roof
from engine.project.job import Job
from engine.project.placement import places_within
from engine.scenario.read import Scenario

ALONG, UP = 8, 5
"""Number of places along the eave and up the slope, where no step is stated."""


@dataclass(frozen=True)
class Axis:
    """The places along one axis [m]: how far the array is moved, or the place of the first rib, or the first bay."""

    key: str
    places: tuple[float, ...]

    @property
    def moves(self) -> bool:
        """True if the array is moved, not the roof."""
        return self.key in ("right", "up")

    def changed(self, job: Job, place: float) -> Job:
        """The job at one place of this axis."""
        if self.moves:
            return moved(job, place if self.key == "right" else 0.0, place if self.key == "up" else 0.0)
        return with_roof(job, {self.key: place})


@dataclass(frozen=True)
class Place:
    """One method at one place of the axis along the eave and of the axis up the slope [m].

    `verdict` as it is placed; `within_tolerance`: the worst if it is set out inaccurately. `clear`: no module is nearer
    to an edge than the stated setback.
    """

    along: float
    up: float
    verdict: Verdict
    within_tolerance: Verdict | None = None
    attachments: int = 0
    modules: int = 0
    clear: bool = True

    @property
    def holds(self) -> bool:
        """True if nothing is over, nor would be if the array were set out inaccurately."""
        return self.within_tolerance is not None and self.within_tolerance.status.nothing_over

    @property
    def distance(self) -> float:
        """Distance from the stated place [m]."""
        return math.hypot(self.along, self.up)


@dataclass(frozen=True, eq=False)
class PlacementMap:
    """One method at every place, row by row from the lowest, and the best place for it; None if there is none.

    `largest_offset`: the farthest that a seam may lie from its place under the array, within the tolerance [m].
    """

    column: Column
    largest_offset: float
    along: Axis
    up: Axis
    places: tuple[Place, ...]
    best: Place | None

    @property
    def rows(self) -> list[tuple[Place, ...]]:
        """The places of each row, the lowest row first."""
        across = len(self.along.places)
        return [self.places[start : start + across] for start in range(0, len(self.places), across)]

    @property
    def holding(self) -> int:
        """Number of places at which it holds."""
        return sum(place.holds for place in self.places)


@dataclass(frozen=True, eq=False)
class Placement:
    """The maps of all methods, and the best place for all of them together: (along, up) [m]; None if there is none."""

    maps: tuple[PlacementMap, ...]
    shared: tuple[float, float] | None


def placement(comparison: Comparison, tell: ProgressListener = no_listener) -> Placement:
    """The maps of all methods that were checked."""
    scenario = comparison.scenario
    checked = [(column, column.design) for column in comparison.columns if column.design and column.candidate]
    rooms = [_room_at_edges(design) for _, design in checked]
    left, right, eave, high_edge = np.min(rooms, axis=0, initial=scenario.job.building.length).tolist()
    axes = _along_eave(scenario.job, left, right), _up_slope(scenario.job, eave, high_edge)
    tell = counted(tell, len(checked) * math.prod(len(axis.places) for axis in axes))
    maps = tuple(_map(scenario, column, stated, *axes, tell) for column, stated in checked)
    return Placement(maps, _best_for_all(maps))


def _room_at_edges(design: Design) -> list[float]:
    """Smallest distance of the modules from their setback at both sides, the eave and the high edge [m]."""
    at, (eave, high_edge, sides) = design.field.outlines, distances_to_edges(design)
    left, right = design.job.building.from_sides(at.left, at.right, at.high)
    distances = (left, sides), (right, sides), (eave.distance, eave), (high_edge.distance, high_edge)
    return [float((distance - edge.setback).min()) for distance, edge in distances]


def _along_eave(job: Job, left: float, right: float) -> Axis:
    """The places along the eave, for an array with so much room at the rakes [m]."""
    if not job.roof.ribs_surveyed:
        return Axis("first_rib", tuple(possible_first_ribs(job.roof)))
    return Axis("right", _within(job.placement_window[0], job.placement.step, ALONG, left, right))


def _up_slope(job: Job, below: float, above: float) -> Axis:
    """The places up the slope, for an array with so much room at the eave and the high edge [m]."""
    if not job.roof.supports_surveyed:
        return Axis("first_bay", tuple(possible_first_bays(job.roof)))
    return Axis("up", _within(job.placement_window[1], job.placement.step, UP, below, above))


def _within(window: float, step: float | None, number: int, before: float, after: float) -> tuple[float, ...]:
    """Moves within a window, with the stated place in its middle where there is room `before` and `after` it [m]."""
    step = step or window / number
    count = places_within(window, step)
    most_back, most_on = (int(max(room, 0.0) / step + WHOLE_NUMBER) for room in (before, after))
    first = -min(most_back, max(count // 2, count - 1 - most_on))
    return tuple(place * step for place in range(first, min(first + count, most_on + 1)))


def _map(
    scenario: Scenario, column: Column, stated: Design, along: Axis, up: Axis, tell: ProgressListener
) -> PlacementMap:
    """One method at every place."""
    places, shared = list[Place](), SharedRoof()
    for higher, right in product(up.places, along.places):
        tell(f"{column.title}, place by place")
        job = up.changed(along.changed(scenario.job, right), higher)
        places.append(_place(scenario, job, stated, right, higher, shared))
    best = _best(places) if along.moves and up.moves else None
    return PlacementMap(column, largest_offset(stated), along, up, tuple(places), best)


def _place(scenario: Scenario, job: Job, stated: Design, right: float, higher: float, shared: SharedRoof) -> Place:
    """The method at one place, with the fewest attachments that hold there."""
    (method,) = scenario.methods_named((stated.method.id,))
    # With the minimum by rule of practice no search finds fewer.
    found = layout_or_search(job, stated, stated.field.minimum_attachments, method, scenario.standard, shared)
    if isinstance(found, Refused):
        return Place(right, higher, Verdict(Status.REFUSED))
    clear = not any(edge.inside.any() for edge in distances_to_edges(found))
    within = within_tolerance(found, scenario.standard, shared) if found.status.nothing_over else None
    return Place(right, higher, found.verdict, within, len(found.layout.attachments), found.field.modules, clear=clear)


def _best(places: Sequence[Place]) -> Place | None:
    """The place with the fewest attachments, then the lowest utilisation, then the nearest one."""
    return min(_usable(places), key=lambda place: (place.attachments, _used(place), place.distance), default=None)


def _best_for_all(maps: Sequence[PlacementMap]) -> tuple[float, float] | None:
    """The place at which most methods hold, then with the fewest attachments in all, least used, nearest."""
    usable = [{(place.along, place.up): place for place in _usable(each.places)} for each in maps if each.best]
    places = {place for of_method in usable for place in of_method}

    def order(at: tuple[float, float]) -> tuple[float, ...]:
        here = [of_method[at] for of_method in usable if at in of_method]
        attachments, used = sum(place.attachments for place in here), max(map(_used, here))
        return -len(here), attachments, used, math.hypot(*at)

    return min(places, key=order, default=None)


def _usable(places: Sequence[Place]) -> list[Place]:
    """The places where the method holds with all modules, none of them in a setback."""
    most = max((place.modules for place in places), default=0)
    return [place for place in places if place.holds and place.clear and place.modules == most]


def _used(place: Place) -> float:
    """Utilisation as shown, so that rounding decides nothing."""
    return round(place.verdict.utilisation, 2)
