"""Support of the modules of a layout: the side that is held, distances from its corners, number of points."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.tolerances import SUMMED_LENGTH
from engine.mounting.layout import Field, Layout
from engine.project.module import ACROSS, CLAMP, LONG, SHORT, RatingBySupport

HOLD = CLAMP
"""Every mounting method here holds modules by clamps; none bolts their frames or holds a whole side."""

LONGEST_OVERHANG = 1 / 3
"""Longest overhang of a module's side that may be shown to hold, as part of the side (judgement, no source) [-]."""


@dataclass(frozen=True, eq=False)
class Holding:
    """Support of the modules M of a layout.

    The `side` that is held is long or short, with its `length` [m]; `rails` lie across it, None without rails.
    `nearest` and `overhang` (M,) [m] are the smallest and the largest distance from a corner to the outermost support
    beside it; `points` (M,) counts the clamps on each module, one shared with a neighbour included.
    """

    side: str
    length: float
    rails: str | None
    nearest: Floats
    overhang: Floats
    points: Ints

    def within(self, zone: tuple[float, float]) -> Bools:
        """True for the modules (M,) whose outermost supports all lie in a zone, from and to from the corner [m]."""
        low, high = zone
        return (self.nearest >= low - SUMMED_LENGTH) & (self.overhang <= high + SUMMED_LENGTH)

    def as_in(self, row: RatingBySupport) -> Bools:
        """True for the modules (M,) held as a row of the maker's ratings says, wherever along the side."""
        fits = row.side == self.side and row.hold == HOLD and row.rails in (None, self.rails)
        return fits & (self.points >= (row.points or 0))

    def rated_by(self, row: RatingBySupport) -> Bools:
        """True for the modules (M,) to which a row of the maker's ratings applies."""
        return self.as_in(row) if row.zone is None else self.as_in(row) & self.within(row.zone)


def find_holding(field: Field, layout: Layout) -> Holding:
    """Support of the modules of a field in a layout.

    Clamps on rails hold the sides that the rails cross; without rails the lines are themselves the sides that are held.
    """
    at, member = field.outlines, layout.member
    along_x = member.clamped == member.runs_up_slope
    low, high = (at.left, at.right) if along_x else (at.low, at.high)
    projected = float(high[0] - low[0])
    length = projected if along_x else field.attitude.chord
    ends = _crossed_sides(layout, low, high) if member.clamped else _sides_on_ribs(layout, field.modules)
    return Holding(
        side=LONG if length >= field.attitude.long_side - SUMMED_LENGTH else SHORT,
        length=length,
        rails=ACROSS if member.clamped else None,
        nearest=ends.nearest * length / projected,
        overhang=ends.overhang * length / projected,
        points=ends.points,
    )


@dataclass(frozen=True, eq=False)
class _Ends:
    """As in `Holding`, with lengths projected on the roof."""

    nearest: Floats
    overhang: Floats
    points: Ints


def _crossed_sides(layout: Layout, low: Floats, high: Floats) -> _Ends:
    """Sides from `low` to `high` (M,) [m] that rails cross; a rack has a beam over each of its feet."""
    first, last = np.full(len(low), np.inf), np.full(len(low), np.inf)
    points = np.zeros(len(low), dtype=np.int64)
    for lines in layout.lines:
        for foot in lines.feet:
            rail = np.broadcast_to((lines.across + foot.offset)[:, None], lines.module.shape)
            np.minimum.at(first, lines.module, rail - low[lines.module])
            np.minimum.at(last, lines.module, high[lines.module] - rail)
            np.add.at(points, lines.module, 1)
    return _Ends(np.minimum(first, last), np.maximum(first, last), points)


def _sides_on_ribs(layout: Layout, modules: int) -> _Ends:
    """Sides that the lines are, each on its own ribs; a module's two sides may be held at different ribs."""
    nearest, overhang = np.full(modules, np.inf), np.zeros(modules)
    points = np.zeros(modules, dtype=np.int64)
    for lines in layout.lines:
        supports = layout.supports(lines)
        ends = supports[0] - lines.start, lines.end - supports[-1]
        np.minimum.at(nearest, lines.module, min(ends))
        np.maximum.at(overhang, lines.module, max(ends))
        np.add.at(points, lines.module, len(supports))
    return _Ends(nearest, overhang, points)
