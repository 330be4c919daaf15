"""Cutting of bars from stock: which pieces each stock length gives, and where long bars are spliced.

The rule is simple and no optimum: whole stock lengths first, then the remaining pieces from the longest to the
shortest, each from the shortest offcut that is long enough (best fit decreasing).
"""

from __future__ import annotations

import math
from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats
from engine.common.tolerances import SAME_LENGTH, SUMMED_LENGTH, WHOLE_NUMBER

SAW_CUT = 0.003
"""Length lost at each cut of a bar [m]."""

RULE = (
    "Whole stock lengths first; then the other pieces, longest first, each from the shortest offcut that is long "
    "enough. This is a simple rule, not the best possible plan: another one may need fewer bars"
)
"""The rule of `cut_from_stock`, for people."""

DECIMALS = 6
"""Decimals of lengths on bars [m]: bars that are alike to a micrometre are one."""

NEAR_MIDSPAN = 1 / 3
"""A splice farther than this part of its span from both attachments is near midspan (common practice, no source)."""


@dataclass(frozen=True)
class Cut:
    """Cutting plan: stock lengths bought, splices, offcut [m], and the pieces of each stock length that is cut [m]."""

    stock: int
    splices: int
    offcut: float
    pieces: tuple[tuple[float, ...], ...] = ()


def pieces_of(length: float, stock: float) -> tuple[int, float]:
    """Number of whole stock lengths in a bar, and its remaining piece [m], 0 if there is none."""
    whole = math.floor(length / stock + WHOLE_NUMBER)
    rest = length - whole * stock
    return whole, rest if rest > SUMMED_LENGTH else 0.0


def cut_from_stock(lengths: Sequence[float], stock: float) -> Cut:
    """Cutting plan of bars, by `RULE`; a bar longer than stock has a splice at each joint of its pieces.

    Args:
        lengths: of the bars [m].
        stock: length of one bar as sold [m].
    """
    parts = [pieces_of(length, stock) for length in lengths]
    opened: list[list[float]] = []
    offcuts: list[tuple[float, int]] = []  # length, and number of the opened stock length
    for piece in sorted((rest for _, rest in parts if rest), reverse=True):
        shortest = bisect_left(offcuts, (piece - SAME_LENGTH, 0))
        if shortest < len(offcuts):
            offcut, number = offcuts.pop(shortest)
        else:
            offcut, number = stock, len(opened)
            opened.append([])
        opened[number].append(piece)
        if offcut - piece > SAW_CUT:
            insort(offcuts, (offcut - piece - SAW_CUT, number))
    whole = sum(count for count, _ in parts)
    splices = sum(count - (not rest) for count, rest in parts if count)
    bought = whole + len(opened)
    return Cut(bought, splices, bought * stock - sum(lengths), tuple(map(tuple, opened)))


@dataclass(frozen=True)
class Splice:
    """A joint of a bar: its place from the bar's start and its distance from the nearest attachment [m]."""

    place: float
    distance: float
    near_midspan: bool


@dataclass(frozen=True)
class SplicedBar:
    """One bar: its pieces from its start [m], and its splices."""

    pieces: tuple[float, ...]
    splices: tuple[Splice, ...]


def spliced_bar(length: float, stock: float, attachments: Floats) -> SplicedBar:
    """The pieces of a bar in the order that keeps its splices nearest to attachments.

    Args:
        length: of the bar [m].
        stock: length of one bar as sold [m].
        attachments: positions from the bar's start, in rising order (S,) [m].
    """
    whole, rest = pieces_of(length, stock)
    if not rest:
        orders = [(stock,) * whole]
    else:
        orders = [(*(stock,) * before, rest, *(stock,) * (whole - before)) for before in range(whole, -1, -1)]
    return min((_spliced(order, attachments) for order in orders), key=_farthest)


def _spliced(pieces: tuple[float, ...], attachments: Floats) -> SplicedBar:
    places = np.cumsum(pieces)[:-1]
    distance = np.abs(attachments[:, None] - places).min(axis=0)
    after = np.searchsorted(attachments, places)
    between = (after > 0) & (after < len(attachments))
    span = attachments[np.minimum(after, len(attachments) - 1)] - attachments[np.maximum(after - 1, 0)]
    near = between & (distance > NEAR_MIDSPAN * span + SUMMED_LENGTH)
    found = zip(places.round(DECIMALS).tolist(), distance.round(DECIMALS).tolist(), near.tolist(), strict=True)
    return SplicedBar(pieces, tuple(Splice(*each) for each in found))


def _farthest(bar: SplicedBar) -> tuple[int, float]:
    """The smaller, the better: number of splices near midspan, then the largest distance from an attachment."""
    return sum(each.near_midspan for each in bar.splices), max((each.distance for each in bar.splices), default=0.0)
