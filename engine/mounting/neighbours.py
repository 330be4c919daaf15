"""Neighbours of modules on the roof: which lie near each other, and which sides have none."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import product
from types import MappingProxyType

import numpy as np

from engine.common.arrays import FAR_APART, Bools, Floats, Ints
from engine.common.tolerances import SAME_LENGTH, SUMMED_LENGTH
from engine.mounting.layout import Rectangles

SIDES: Mapping[str, tuple[int, int]] = MappingProxyType(
    {"low": (0, -1), "high": (0, 1), "left": (-1, 0), "right": (1, 0)}
)
"""The sides of a module, each with its direction along the eave and up the slope."""


def pairs_within(at: Rectangles, reach: float) -> tuple[Ints, Ints]:
    """Numbers of every two rectangles (n,) that lie at most `reach` [m] apart along both axes, both ways round."""
    size = max(float((at.right - at.left).max()), float((at.high - at.low).max())) + reach + SUMMED_LENGTH
    column, row = (((start - start.min()) / size).astype(np.int64) for start in (at.left, at.low))
    width = int(column.max()) + 3
    cell = row * width + column
    order = np.argsort(cell, kind="stable")
    in_order = cell[order]
    pairs = []
    for up, along in product((-1, 0, 1), repeat=2):
        first = np.searchsorted(in_order, cell + up * width + along, side="left")
        count = np.searchsorted(in_order, cell + up * width + along, side="right") - first
        one = np.repeat(np.arange(len(at)), count)
        place = np.arange(len(one)) - np.repeat(np.cumsum(count) - count, count)
        pairs.append((one, order[np.repeat(first, count) + place]))
    one, other = (np.concatenate(numbers) for numbers in zip(*pairs, strict=True))
    near = (one != other) & (np.maximum(*clear_distances(at.subset(one), at.subset(other))) <= reach + SAME_LENGTH)
    return one[near], other[near]


def clear_distances(one: Rectangles, other: Rectangles) -> tuple[Floats, Floats]:
    """Clear distances of pairs of rectangles along the eave and up the slope (n,) [m]; negative where they overlap."""
    along = np.maximum(other.left - one.right, one.left - other.right)
    up = np.maximum(other.low - one.high, one.low - other.high)
    return along, up


def free_sides(at: Rectangles, gap: float, slit: float) -> dict[str, Bools]:
    """Of each side of `SIDES`, the modules (M,) that it is free at: no others beside all of its length within `gap`.

    Args:
        at: the modules.
        gap: largest clear distance to a neighbour [m].
        slit: largest part of a side beside which there may be none, as between two modules of the next row [m].
    """
    one, other = pairs_within(at, gap)
    along, up = clear_distances(at.subset(one), at.subset(other))
    free = {}
    for name, (right, above) in SIDES.items():
        low, high = (at.low, at.high) if right else (at.left, at.right)
        distance, beside = (along, up) if right else (up, along)
        start, other_start = (at.left, at.left[other]) if right else (at.low, at.low[other])
        outward = (other_start - start[one]) * (right + above) > 0
        chosen = outward & (distance >= -SUMMED_LENGTH) & (beside < -SUMMED_LENGTH)
        free[name] = _uncovered(low, high, one[chosen], other[chosen]) > slit + SUMMED_LENGTH
    return free


def _uncovered(low: Floats, high: Floats, one: Ints, other: Ints) -> Floats:
    """Longest part of each interval (M,) [m] that no other covers; `other` (n,) covers some of `one` (n,)."""
    every = np.arange(len(low))
    owner = np.concatenate([every, one, every])
    start = np.concatenate([low, low[other], high])
    end = np.concatenate([low, np.minimum(high[other], high[one]), high])
    order = np.lexsort((start, owner))
    owner, start, end = owner[order], start[order], end[order]
    covered_to = np.maximum.accumulate(owner * FAR_APART + end)
    hole = np.maximum(0.0, start[1:] + owner[1:] * FAR_APART - covered_to[:-1])
    longest = np.zeros(len(low))
    same = owner[1:] == owner[:-1]
    np.maximum.at(longest, owner[1:][same], hole[same])
    return longest


def unbroken(line: Ints, start: Floats, end: Floats, gap: float) -> Ints:
    """Number of the unbroken sequence that each module belongs to (M,).

    Args:
        line: number of each module's row or column.
        start: where each module begins along it [m].
        end: where each module ends along it [m].
        gap: largest clear distance to the next module of a sequence [m].
    """
    order = np.lexsort((start, line))
    breaks = np.diff(line[order], prepend=-1).astype(bool)
    breaks[1:] |= start[order][1:] - end[order][:-1] > gap
    sequence = np.empty(len(line), dtype=np.int64)
    sequence[order] = np.cumsum(breaks) - 1
    return sequence
