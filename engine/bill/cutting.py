"""Cutting of bars from stock: which pieces each stock length gives, and where long bars are spliced.

The rule is simple and no optimum: whole stock lengths first, then the remaining pieces from the longest to the
shortest, each from the shortest offcut that is long enough (best fit decreasing).
"""

from __future__ import annotations

import math
from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

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
    places = list(accumulate(pieces))[:-1]
    return SplicedBar(pieces, tuple(_splice(place, attachments) for place in places))


def _splice(place: float, attachments: Floats) -> Splice:
    distance = round(float(np.abs(attachments - place).min()), DECIMALS)
    spans = [(low, high) for low, high in pairwise(attachments.tolist()) if low < place < high]
    near = any(distance > NEAR_MIDSPAN * (high - low) + SUMMED_LENGTH for low, high in spans)
    return Splice(round(place, DECIMALS), distance, near)


def _farthest(bar: SplicedBar) -> tuple[int, float]:
    """The smaller, the better: number of splices near midspan, then the largest distance from an attachment."""
    return sum(each.near_midspan for each in bar.splices), max((each.distance for each in bar.splices), default=0.0)
