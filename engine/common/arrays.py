"""Array types, and a few small operations on arrays."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from engine.common.tolerances import SAME_DECIMALS

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Bools = npt.NDArray[np.bool_]

FAR_APART = 1e5
"""Offset that keeps the lengths of several things apart in one sorted array [m]: longer than any roof."""


def sum_by_group(group: Ints, values: Floats, groups: int) -> Floats:
    """Sum of the values of each group, (n,) into (groups,)."""
    totals: Floats = np.bincount(group, values, groups).astype(np.float64, copy=False)
    return totals


def first_minimum(values: Floats) -> int:
    """Index of the smallest value; of equal values the first."""
    return int(np.argmin(values.round(SAME_DECIMALS)))


def index_of_largest(values: Floats) -> tuple[int, ...]:
    """Index of the largest value, one number for each axis; of equal values the first."""
    return tuple(int(part) for part in np.unravel_index(int(np.argmax(values)), values.shape))


def group_nearby(values: Floats, tolerance: float) -> tuple[Ints, Ints]:
    """Group values that lie within `tolerance` of their neighbour.

    Args:
        values: (n,), in any order.
        tolerance: largest distance between neighbours of one group, in the unit of the values.

    Returns:
        Index of the smallest value of each group (g,), and each value's group index (n,).
    """
    order = np.argsort(values, kind="stable")
    starts = np.diff(values[order], prepend=-np.inf) > tolerance
    group = np.empty(len(values), dtype=np.int64)
    group[order] = np.cumsum(starts) - 1
    return order[starts], group
