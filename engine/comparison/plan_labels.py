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
    at, zones, labels = plan.roof_zones.places, plan.roof_zones, list[ZoneLabel]()
    sides, blocked = np.column_stack([at.left, at.low, at.right, at.high]), _blocked(plan, BESIDE * letter)
    for number in np.unique(zones.zone).tolist():
        name, own = zones.names[number], zones.zone == number
        taken = np.concatenate([blocked, sides[~own]])
        halves = [half for half in _halves(sides[own], plan.length / 2) if half]
        free = (next(filter(None, (_free(each, name, letter, taken, plan) for each in half)), None) for half in halves)
        within = [ZoneLabel(name, *place) for place in free if place]
        if len(within) > 1 and within[1].x - within[0].x < plan.length / 4:
            del within[1]
        labels += within or [_beyond_rake(plan, name, halves[-1][0], letter, labels)]
    return tuple(labels)


Rectangle = tuple[float, float, float, float]
"""Left, low, right and high side [m]."""


def _halves(sides: Floats, middle: float) -> Iterator[list[Rectangle]]:
    """Rectangles (n, 4) on the left half of the roof, then those on the right, the largest first."""
    area = (sides[:, 2] - sides[:, 0]) * (sides[:, 3] - sides[:, 1])
    ordered = sides[np.argsort(-area, kind="stable")]
    on_left = ordered[:, [0, 2]].mean(axis=1) < middle
    for half in (ordered[on_left], ordered[~on_left]):
        yield [tuple(row) for row in half.tolist()]


def _blocked(plan: Plan, beside: float) -> Floats:
    """Rectangles that no label may touch: modules with the numbers beside them, and areas to keep clear (n, 4)."""
    at = plan.modules
    clear = [(*area.at, area.at[0] + area.size[0], area.at[1] + area.size[1]) for area in plan.keep_clear]
    modules = np.column_stack([at.left - beside, at.low, at.right + beside, at.high])
    return np.concatenate([modules, np.reshape(clear, (-1, 4))])


def _free(near: Rectangle, name: str, letter: float, taken: Floats, plan: Plan) -> tuple[float, float] | None:
    """The place nearest to the middle of a rectangle at which a name touches nothing; None if there is none."""
    left, low, right, high = near
    half_width, half_height = letter * (0.4 * len(name) + 0.3), 0.8 * letter
    x, y = np.meshgrid(np.linspace(left, right, TRIES), np.linspace(low, high, TRIES))
    x, y = x.ravel()[:, None], y.ravel()[:, None]
    apart = (x + half_width <= taken[:, 0]) | (x - half_width >= taken[:, 2])
    apart |= (y + half_height <= taken[:, 1]) | (y - half_height >= taken[:, 3])
    on_roof = (x >= half_width) & (x <= plan.length - half_width) & (y >= half_height) & (y <= plan.depth - half_height)
    away = np.abs(x - (left + right) / 2) + np.abs(y - (low + high) / 2)
    away[~(apart.all(axis=1, keepdims=True) & on_roof)] = np.inf
    best = int(np.argmin(away))
    return (float(x[best, 0]), float(y[best, 0])) if np.isfinite(away[best, 0]) else None


def _beyond_rake(plan: Plan, name: str, zone: Rectangle, letter: float, labels: list[ZoneLabel]) -> ZoneLabel:
    """A label beyond the right rake, below those that are there already at this height."""
    left, low, right, high = zone
    y, taken = (low + high) / 2, [label.y for label in labels if label.points_at]
    points_at = right - min(letter, (right - left) / 2), y
    while any(abs(y - other) < LINE * letter for other in taken):
        y -= LINE * letter
    return ZoneLabel(name, plan.length + OUTSIDE * letter, y, points_at)
