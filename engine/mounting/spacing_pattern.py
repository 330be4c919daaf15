"""Spacing patterns: the ribs at which a line is attached.

A line that crosses a number of ribs is attached at every n-th of them. First the ribs nearest to its ends are found
whose overhangs are short enough; the pattern is filled in between them. If the number of ribs is no multiple of n, the
spans at the ends become shorter, because end spans carry the most. A line under modules of several wind strips is
divided where the spacing changes, and each piece is filled with its own spacing; the rib at a change belongs to the
closer spacing. Patterns can then be staggered, or single attachments added up to a minimum number.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.common.tolerances import SAME_LENGTH
from engine.mounting.layout import SpacingPattern


def even_ribs(ribs: Floats, start: float, end: float, step: float, cantilever: float) -> Ints:
    """Numbers of the ribs for a line of one spacing, in rising order; fewer than two if it crosses fewer than two.

    Ribs left over by an uneven division are first used to attach the line nearer to its ends; the rest shortens the
    end spans. If even the last rib crossed leaves a longer overhang than allowed, that rib is taken. A step with a half
    alternates the spans of the two whole numbers beside it.

    Args:
        ribs: positions of all ribs [m].
        start: the line's left end [m].
        end: its right end [m].
        step: ribs from attachment to attachment.
        cantilever: longest overhang allowed beyond the last attachment [m].
    """
    crossed = _crossed_ribs(ribs, start, end)
    if len(crossed) < 2:
        return crossed
    first, last = _end_ribs(ribs, crossed, start + cantilever, end - cantilever)
    left_over = 0 if step % 1 else int(-(last - first) % step)
    room_left, room_right = first - crossed[0], crossed[-1] - last
    to_the_left = min(room_left, max((left_over + 1) // 2, left_over - room_right))
    to_the_right = min(room_right, left_over - to_the_left)
    return _every_step(first - to_the_left, last + to_the_right, step)


def stepped_ribs(ribs: Floats, left: Floats, right: Floats, steps: Floats, free_end: float) -> Ints:
    """Numbers of the ribs for a line under modules with spacings of their own, in rising order.

    Neighbouring modules with the same spacing form a stretch. Between two stretches the closer spacing is continued to
    the first rib beyond its last module. Fewer than two ribs are returned if the line crosses fewer than two.

    Args:
        ribs: positions of all ribs [m].
        left: left edges of the modules, side by side in rising order [m], (n,).
        right: their right edges [m], (n,).
        steps: ribs from attachment to attachment at each module, (n,).
        free_end: longest overhang allowed, for each rib of the step beside it [m].
    """
    changes = np.flatnonzero(np.diff(steps)) + 1
    if not len(changes):
        return even_ribs(ribs, float(left[0]), float(right[-1]), float(steps[0]), free_end * float(steps[0]))
    crossed = _crossed_ribs(ribs, float(left[0]), float(right[-1]))
    if len(crossed) < 2:
        return crossed
    start = float(left[0]) + free_end * steps[0]
    end = float(right[-1]) - free_end * steps[-1]
    first, last = _end_ribs(ribs, crossed, start, end)
    borders = np.where(
        steps[changes - 1] < steps[changes],
        np.searchsorted(ribs, right[changes - 1] - SAME_LENGTH),
        np.searchsorted(ribs, left[changes] + SAME_LENGTH, "right") - 1,
    )
    bounds = np.concatenate([[first], np.clip(borders, first, last), [last]])
    step_of_stretch = steps[np.concatenate([[0], changes])]
    stretches = zip(pairwise(np.maximum.accumulate(bounds)), step_of_stretch, strict=True)
    # Right of the middle the shorter spans are laid from the right, so that the pattern is symmetrical.
    pieces = [_every_step(low, high, step, mirrored=low + high > first + last) for (low, high), step in stretches]
    return np.unique(np.concatenate(pieces))


def _crossed_ribs(ribs: Floats, start: float, end: float) -> Ints:
    """Numbers of the ribs that a line from `start` to `end` [m] crosses."""
    return np.flatnonzero((ribs >= start - SAME_LENGTH) & (ribs <= end + SAME_LENGTH))


def _end_ribs(ribs: Floats, crossed: Ints, start: float, end: float) -> tuple[int, int]:
    """The crossed ribs next before `start` and next after `end` [m], or the outermost two if both are the same rib."""
    before_start = int(np.searchsorted(ribs[crossed], start + SAME_LENGTH)) - 1
    after_end = int(np.searchsorted(ribs[crossed], end - SAME_LENGTH))
    first = int(crossed[max(0, before_start)])
    last = int(crossed[min(len(crossed) - 1, after_end)])
    return (first, last) if first < last else (int(crossed[0]), int(crossed[-1]))


def _every_step(first: int, last: int, step: float, *, mirrored: bool = False) -> Ints:
    """Every `step`-th rib from `first` to `last`, with shorter spans at the ends if the division is uneven.

    `mirrored`: an odd number of shorter spans begins at the right end instead of the left one.
    """
    spans = math.ceil((last - first) / step)
    if step % 1:
        return _alternating_spans(first, last, spans)
    lengths = _shorter_at_the_ends(spans, int(step), spans * int(step) - (last - first))
    chosen: Ints = first + np.concatenate([[0], np.cumsum(lengths[::-1] if mirrored else lengths)])
    return chosen


def _alternating_spans(first: int, last: int, spans: int) -> Ints:
    """Ribs that divide a line into `spans` nearly equal spans; a position half-way between two ribs goes outward."""
    even = np.linspace(first, last, spans + 1)
    nearest = np.where(even < (first + last) / 2, np.ceil(even - 0.5), np.floor(even + 0.5))
    return nearest.astype(np.int64)


def _shorter_at_the_ends(spans: int, step: int, missing: int) -> Ints:
    """Lengths of spans [ribs]: `step` each, less `missing` in all, taken from both ends inward in turn."""
    lengths = np.full(spans, step)
    inward = [span for pair in zip(range(spans), reversed(range(spans)), strict=True) for span in pair][:spans]
    for number in range(missing):
        lengths[inward[number % spans]] -= 1
    return lengths[lengths > 0]


def stagger(chosen: Ints) -> Ints:
    """Rib numbers midway between those of another pattern, with the same first and last rib.

    Of two middle ribs the outer one is taken; spans of one rib, which have none, keep their own ribs.
    """
    left, right = chosen[:-1], chosen[1:]
    right_of_middle = left + right > chosen[0] + chosen[-1]
    has_middle = right - left > 1
    middle = ((left + right + right_of_middle) // 2)[has_middle]
    return np.unique(np.concatenate([chosen[:1], middle, left[~has_middle], right[~has_middle], chosen[-1:]]))


def add_attachments(chosen: Ints, ribs: Floats, start: float, end: float, min_attachments: int) -> Ints:
    """A pattern with single ribs added until it has `min_attachments`, or every rib crossed.

    Each is added in the middle of the widest span; of equal spans in the outermost one.

    Args:
        chosen: rib numbers of the pattern.
        ribs: positions of all ribs [m].
        start: the line's left end [m].
        end: its right end [m].
        min_attachments: number of attachments the line must have.
    """
    crossed = _crossed_ribs(ribs, start, end)
    pattern = chosen.tolist()
    while len(pattern) < min(min_attachments, len(crossed)):
        left, right = _widest_outermost_span(pattern)
        if right - left > 1:
            in_last_span = right == pattern[-1]  # there the outer one of two middle ribs is the right one
            pattern.append((left + right + in_last_span) // 2)
        else:
            pattern.append(next(rib for rib in crossed.tolist() if rib not in pattern))
        pattern.sort()
    return np.array(pattern, dtype=np.int64)


def _widest_outermost_span(pattern: list[int]) -> tuple[int, int]:
    """The two ribs of the widest span, of equal spans the outermost; (0, 0) if the pattern has no span."""

    def order(span: tuple[int, int]) -> tuple[int, int]:
        left, right = span
        return left - right, min(left - pattern[0], pattern[-1] - right)

    return min(pairwise(pattern), key=order, default=(0, 0))


def describe_strips(pattern: SpacingPattern, describe: Callable[[float], str], added: int = 0) -> str:
    """The pattern in words, the most frequent spacing first: "every 2nd seam; zone 3: every seam + 12".

    Args:
        pattern: the pattern.
        describe: words for one spacing.
        added: number of single attachments added to the pattern.
    """
    modules = np.bincount(pattern.strip, minlength=len(pattern.names))
    strips: dict[float, list[int]] = {}
    for strip, spacing in enumerate(pattern.spacings):
        strips.setdefault(spacing, []).append(strip)
    usual, *others = sorted(strips, key=lambda spacing: -modules[strips[spacing]].sum())
    words = [describe(usual)]
    for spacing in others:
        names = ", ".join(pattern.names[strip] for strip in strips[spacing])
        words.append(f"{names}: {describe(spacing)}")
    return "; ".join(words) + (f" + {added}" if added else "")
