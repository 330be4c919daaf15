"""Which ribs a line stands on: even, explainable patterns, closer where a strip of the array asks for it."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.mounting.layout import SpacingPattern


def even_ribs(ribs: Floats, start: float, end: float, step: float, cantilever: float) -> Ints:
    """Ribs for a line from `start` to `end`, every `step`-th, with ends no longer than allowed.

    Where the ribs cannot be met evenly, the spans at the ends are the shorter ones, for they
    carry the most. Where even the outermost rib leaves a longer end than allowed, it is taken. With half a
    rib in the step, spans of both whole numbers follow by turns.

    Args:
        ribs: every rib's place [m].
        start: the line's left end [m].
        end: its right end [m].
        step: ribs from point to point.
        cantilever: longest end allowed beyond the outermost point [m].

    Returns:
        Rib numbers in rising order; fewer than two where the line crosses fewer than two ribs.
    """
    crossed = _crossed(ribs, start, end)
    if len(crossed) < 2:
        return crossed
    first, last = _outermost(ribs, crossed, start + cantilever, end - cantilever)
    spare = 0 if step % 1 else int(-(last - first) % step)
    to_the_left = min(first - crossed[0], (spare + 1) // 2)
    to_the_right = min(crossed[-1] - last, spare - to_the_left)
    return _filled(first - to_the_left, last + to_the_right, step)


def stepped_ribs(ribs: Floats, left: Floats, right: Floats, steps: Floats, free_end: float) -> Ints:
    """Ribs for a line under modules that ask for steps of their own.

    Modules side by side that ask alike form a stretch, spaced evenly. Where two stretches meet, the
    closer one reaches to the first rib beyond its last module.

    Args:
        ribs: every rib's place [m].
        left: the modules' left edges, side by side in rising order [m], (n,).
        right: their right edges [m], (n,).
        steps: ribs from point to point that each asks for, (n,).
        free_end: longest end allowed beyond the outermost point for each rib of the step beside it [m].

    Returns:
        Rib numbers in rising order; fewer than two where the line crosses fewer than two ribs.
    """
    meets = np.flatnonzero(np.diff(steps)) + 1
    if not len(meets):
        return even_ribs(ribs, float(left[0]), float(right[-1]), float(steps[0]), free_end * float(steps[0]))
    crossed = _crossed(ribs, float(left[0]), float(right[-1]))
    if len(crossed) < 2:
        return crossed
    first, last = _outermost(
        ribs, crossed, float(left[0]) + free_end * steps[0], float(right[-1]) - free_end * steps[-1]
    )
    onward = steps[meets - 1] < steps[meets]
    beyond = np.where(
        onward, np.searchsorted(ribs, right[meets - 1] - 1e-9), np.searchsorted(ribs, left[meets] + 1e-9, "right") - 1
    )
    bounds = np.concatenate([[first], np.clip(beyond, first, last), [last]])
    of_stretch = steps[np.concatenate([[0], meets])]
    stretches = zip(pairwise(np.maximum.accumulate(bounds)), of_stretch, strict=True)
    pieces = [_filled(low, high, step, mirrored=low + high > first + last) for (low, high), step in stretches]
    return np.unique(np.concatenate(pieces))


def _crossed(ribs: Floats, start: float, end: float) -> Ints:
    """The ribs that a line crosses."""
    return np.flatnonzero((ribs >= start - 1e-9) & (ribs <= end + 1e-9))


def _outermost(ribs: Floats, crossed: Ints, first: float, last: float) -> tuple[int, int]:
    """The crossed ribs next outward of two places [m]; the outermost where those would be one."""
    low = int(crossed[max(0, int(np.searchsorted(ribs[crossed], first + 1e-9)) - 1)])
    high = int(crossed[min(len(crossed) - 1, int(np.searchsorted(ribs[crossed], last - 1e-9)))])
    return (low, high) if low < high else (int(crossed[0]), int(crossed[-1]))


def _filled(first: int, last: int, step: float, *, mirrored: bool = False) -> Ints:
    """Every `step`-th rib from `first` to `last`; what does not go evenly shortens the spans at the ends, one before the other."""
    spans = math.ceil((last - first) / step)
    if step % 1:
        return _by_turns(first, last, spans)
    gaps = _shorter_at_the_ends(spans, int(step), spans * int(step) - (last - first))
    chosen: Ints = first + np.concatenate([[0], np.cumsum(gaps[::-1] if mirrored else gaps)])
    return chosen


def _by_turns(first: int, last: int, spans: int) -> Ints:
    """So many spans of as even a length as ribs allow; a place half-way between two ribs goes outward."""
    even = np.linspace(first, last, spans + 1)
    nearest = np.where(even < (first + last) / 2, np.ceil(even - 0.5), np.floor(even + 0.5))
    return nearest.astype(np.int64)


def _shorter_at_the_ends(spans: int, step: int, spare: int) -> Ints:
    """Spans of `step` ribs, `spare` of them shorter by a rib, from the ends inward by turns."""
    gaps = np.full(spans, step)
    inward = [index for pair in zip(range(spans), reversed(range(spans)), strict=True) for index in pair][:spans]
    for turn in range(spare):
        gaps[inward[turn % spans]] -= 1
    return gaps[gaps > 0]


def stagger(chosen: Ints) -> Ints:
    """The pattern between the points of another, of two middle ribs the outer one; where there is none, their own."""
    left, right = chosen[:-1], chosen[1:]
    outward, apart = left + right > chosen[0] + chosen[-1], right - left > 1
    between = ((left + right + outward) // 2)[apart]
    return np.unique(np.concatenate([chosen[:1], between, left[~apart], right[~apart], chosen[-1:]]))


def add_attachments(chosen: Ints, ribs: Floats, start: float, end: float, min_attachments: int) -> Ints:
    """Add single ribs to a pattern until it has `min_attachments`: the middle of the widest span, of equals the outermost.

    Returns:
        The pattern with as many of the crossed ribs added as are wanted and available.
    """
    crossed = _crossed(ribs, start, end)
    pattern = chosen.tolist()
    while len(pattern) < min(min_attachments, len(crossed)):
        spans = list(pairwise(pattern))
        left, right = min(
            spans,
            key=lambda span: (span[0] - span[1], min(span[0] - pattern[0], pattern[-1] - span[1])),
            default=(0, 0),
        )
        if right - left > 1:
            pattern.append((left + right) // 2 if right - pattern[-1] else (left + right + 1) // 2)
        else:
            pattern.append(next(rib for rib in crossed.tolist() if rib not in pattern))
        pattern.sort()
    return np.array(pattern, dtype=np.int64)


def describe_strips(pattern: SpacingPattern, say: Callable[[float], str], added: int = 0) -> str:
    """A pattern in words, what most modules have first: "every 2nd seam, in zone 3 every seam + 12"."""
    modules = np.bincount(pattern.strip, minlength=len(pattern.names))
    strips: dict[float, list[int]] = {}
    for strip, spacing in enumerate(pattern.spacings):
        strips.setdefault(spacing, []).append(strip)
    usual, *others = sorted(strips, key=lambda spacing: -modules[strips[spacing]].sum())
    words = [
        say(usual),
        *(f"{', '.join(pattern.names[strip] for strip in strips[other])}: {say(other)}" for other in others),
    ]
    return "; ".join(words) + (f" + {added}" if added else "")
