"""Which ribs a line stands on: even, explainable patterns."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from engine.arrays import Floats, Ints


def even_ribs(ribs: Floats, start: float, end: float, step: int, cantilever: float) -> Ints:
    """Ribs for a line from `start` to `end`, every `step`-th, with ends no longer than allowed.

    Where the ribs cannot be met evenly, the spans at the ends are the shorter ones, for they
    carry the most. Where even the outermost rib leaves a longer end than allowed, it is taken.

    Args:
        ribs: every rib's place [m].
        start: the line's left end [m].
        end: its right end [m].
        step: ribs from point to point.
        cantilever: longest end allowed beyond the outermost point [m].

    Returns:
        Rib numbers in rising order; fewer than two where the line crosses fewer than two ribs.
    """
    crossed = np.flatnonzero((ribs >= start - 1e-9) & (ribs <= end + 1e-9))
    if len(crossed) < 2:
        return crossed
    first = crossed[max(0, int(np.searchsorted(ribs[crossed], start + cantilever + 1e-9)) - 1)]
    last = crossed[min(len(crossed) - 1, int(np.searchsorted(ribs[crossed], end - cantilever - 1e-9)))]
    if first >= last:
        first, last = crossed[0], crossed[-1]
    spans = -(-(last - first) // step)
    spare = spans * step - (last - first)
    to_the_left = min(first - crossed[0], (spare + 1) // 2)
    to_the_right = min(crossed[-1] - last, spare - to_the_left)
    first, last = first - to_the_left, last + to_the_right
    gaps = _shorter_at_the_ends(spans, step, spare - to_the_left - to_the_right)
    chosen: Ints = first + np.concatenate([[0], np.cumsum(gaps)])
    return chosen


def _shorter_at_the_ends(spans: int, step: int, spare: int) -> Ints:
    """Spans of `step` ribs, `spare` of them shorter by a rib, from the ends inward by turns."""
    gaps = np.full(spans, step)
    inward = [index for pair in zip(range(spans), reversed(range(spans)), strict=True) for index in pair][:spans]
    for turn in range(spare):
        gaps[inward[turn % spans]] -= 1
    return gaps[gaps > 0]


def thicken(chosen: Ints, ribs: Floats, start: float, end: float, wanted: int) -> Ints:
    """Add single ribs to a pattern until it has `wanted`: the middle of the widest span, of equals the outermost.

    Returns:
        The pattern with as many of the crossed ribs added as are wanted and available.
    """
    crossed = np.flatnonzero((ribs >= start - 1e-9) & (ribs <= end + 1e-9))
    pattern = chosen.tolist()
    while len(pattern) < min(wanted, len(crossed)):
        spans = list(pairwise(pattern))
        left, right = min(spans, key=lambda span: (span[0] - span[1], min(span[0] - pattern[0], pattern[-1] - span[1])), default=(0, 0))
        if right - left > 1:
            pattern.append((left + right) // 2 if right - pattern[-1] else (left + right + 1) // 2)
        else:
            pattern.append(next(rib for rib in crossed.tolist() if rib not in pattern))
        pattern.sort()
    return np.array(pattern, dtype=np.int64)
