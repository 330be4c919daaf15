"""Names for the arrays the engine passes along."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Bools = npt.NDArray[np.bool_]


def sum_by_group(group: Ints, values: Floats, groups: int) -> Floats:
    """Sum the values of each group, (n,) into (groups,)."""
    totals: Floats = np.bincount(group, values, groups).astype(np.float64, copy=False)
    return totals


def first_minimum(values: Floats) -> int:
    """Which value is the least: of equals to a billionth the first, so that rounding does not choose."""
    return int(np.argmin(values.round(9)))


def group_nearby(values: Floats, tolerance: float) -> tuple[Ints, Ints]:
    """Group values (n,) that lie closer than `tolerance` to their neighbour: the first of each group, and each value's group."""
    order = np.argsort(values, kind="stable")
    starts = np.diff(values[order], prepend=-np.inf) > tolerance
    group = np.empty(len(values), dtype=np.int64)
    group[order] = np.cumsum(starts) - 1
    return order[starts], group
