"""Places of labels on a roof plan: names of zones beside the modules, and the ribs and supports that are numbered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.comparison.roof_plan import Plan

STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500)
"""Distances of numbered ribs, in ribs."""

TRIES = 24
"""Places tried for a label along each side of a rectangle."""

NEAR = 0.1
"""Largest distance of an attachment from the modules that it holds, up the slope [m]."""

BESIDE, OUTSIDE, LINE = 2.5, 4.5, 1.8
"""Room beside modules, distance of a label beyond the rake, and from label to label, in heights of their letters."""


@dataclass(frozen=True)
class ZoneLabel:
    """Name of a wind zone, and the middle of its letters [m]; `points_at`: a place in the zone if they are outside."""

    name: str
    x: float
    y: float
    points_at: tuple[float, float] | None = None


def numbered(places: Floats, room: float) -> Ints:
    """Indices of the ribs or supports that are numbered: the first, and every 2nd, 5th, 10th ... after it.

    Args:
        places: of the ribs or supports, rising (n,) [m].
        room: smallest distance between two numbers [m].
    """
    pitch = float(np.diff(places).min()) if len(places) > 1 else room
    step = next((step for step in STEPS if step * pitch >= room), STEPS[-1])
    numbers = np.arange(1, len(places) + 1)
    chosen = np.flatnonzero((numbers % step == 0) | (numbers == 1))
    return chosen if len(chosen) < 2 or places[chosen[1]] - places[0] >= room else np.delete(chosen, 1)


@dataclass(frozen=True)
class RowNumbers:
    """First and last number of a row of attachments; `left` and `right` ends of its modules, and its `y` [m]."""

    first: int
    last: int
    left: float
    right: float
    y: float


def row_numbers(plan: Plan, room: float) -> Iterator[RowNumbers]:
    """The rows that are numbered, from the eave: those at least `room` [m] above the one before."""
    attachments, at, below = plan.attachments, plan.modules, -np.inf
    firsts = np.flatnonzero(np.diff(attachments.row, prepend=0))
    for first, end in zip(firsts.tolist(), [*firsts[1:].tolist(), len(attachments)], strict=True):
        y = float(attachments.y[first])
        if y - below >= room:
            held = (at.low <= y + NEAR) & (at.high >= y - NEAR)
            held |= not held.any()
            yield RowNumbers(first + 1, end, float(at.left[held].min()), float(at.right[held].max()), y)
            below = y


def zone_labels(plan: Plan, letter: float) -> tuple[ZoneLabel, ...]:
    """A label for each zone on either half of the roof, clear of modules and areas to keep clear; one if they are near.

    A zone without room for its name on either half has it beyond the right rake, with a line to the zone.

    Args:
        plan: the plan.
        letter: height of the letters [m].
    """
    blocked, labels = _blocked(plan, BESIDE * letter), list[ZoneLabel]()
    for name, halves in _rectangles_of_zones(plan):
        free = [_first_free(half, name, letter, blocked) for half in halves]
        within = [ZoneLabel(name, *place) for place in free if place]
        if len(within) > 1 and within[1].x - within[0].x < plan.length / 4:
            del within[1]
        labels += within or [_beyond_rake(plan, name, halves[-1][0], letter, labels)]
    return tuple(labels)


Rectangle = tuple[float, float, float, float]
"""Left, low, right and high side [m]."""


def _rectangles_of_zones(plan: Plan) -> Iterator[tuple[str, list[list[Rectangle]]]]:
    """Name of each zone with its rectangles on the left half of the roof and on the right, the largest first."""
    at, zones = plan.roof_zones.places, plan.roof_zones
    area, middle = (at.right - at.left) * (at.high - at.low), (at.left + at.right) / 2
    sides = np.column_stack([at.left, at.low, at.right, at.high])
    for number, name in enumerate(zones.names):
        halves = []
        for half in (middle < plan.length / 2, middle >= plan.length / 2):
            own = np.flatnonzero((zones.zone == number) & half)
            halves.append([tuple(row) for row in sides[own[np.argsort(-area[own], kind="stable")]].tolist()])
        if any(halves):
            yield name, [half for half in halves if half]


def _blocked(plan: Plan, beside: float) -> Floats:
    """Rectangles that no label may touch: modules with the numbers beside them, and areas to keep clear (n, 4)."""
    at = plan.modules
    clear = [(*area.at, area.at[0] + area.size[0], area.at[1] + area.size[1]) for area in plan.keep_clear]
    modules = np.column_stack([at.left - beside, at.low, at.right + beside, at.high])
    return np.concatenate([modules, np.reshape(clear, (-1, 4))])


def _first_free(rectangles: list[Rectangle], name: str, letter: float, blocked: Floats) -> tuple[float, float] | None:
    return next((place for each in rectangles if (place := _free(each, name, letter, blocked))), None)


def _free(inside: Rectangle, name: str, letter: float, blocked: Floats) -> tuple[float, float] | None:
    """The place nearest to the middle of a rectangle at which a name touches nothing; None if there is none."""
    left, low, right, high = inside
    half_width, half_height = letter * (0.4 * len(name) + 0.3), 0.8 * letter
    if right - left < 2 * half_width or high - low < 2 * half_height:
        return None
    x, y = np.meshgrid(
        np.linspace(left + half_width, right - half_width, TRIES),
        np.linspace(low + half_height, high - half_height, TRIES),
    )
    places = np.column_stack([x.ravel(), y.ravel()])
    apart = (
        (places[:, :1] + half_width <= blocked[:, 0])
        | (places[:, :1] - half_width >= blocked[:, 2])
        | (places[:, 1:] + half_height <= blocked[:, 1])
        | (places[:, 1:] - half_height >= blocked[:, 3])
    )
    free = places[apart.all(axis=1)]
    if not len(free):
        return None
    middle = np.array([(left + right) / 2, (low + high) / 2])
    x_free, y_free = free[np.argmin(np.abs(free - middle).sum(axis=1))].tolist()
    return x_free, y_free


def _beyond_rake(plan: Plan, name: str, zone: Rectangle, letter: float, labels: list[ZoneLabel]) -> ZoneLabel:
    """A label beyond the right rake, below those that are there already at this height."""
    left, low, right, high = zone
    y, taken = (low + high) / 2, [label.y for label in labels if label.points_at]
    points_at = right - min(letter, (right - left) / 2), y
    while any(abs(y - other) < LINE * letter for other in taken):
        y -= LINE * letter
    return ZoneLabel(name, plan.length + OUTSIDE * letter, y, points_at)
