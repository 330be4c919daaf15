"""Spacing patterns of ribs, worked out by hand."""

from __future__ import annotations

from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.mounting.layout import SpacingPattern
from engine.mounting.spacing_pattern import add_attachments, describe_strips, even_ribs, stagger, stepped_ribs

RIBS = np.arange(0, 30, 1.0)


@pytest.mark.parametrize(
    ("start", "end", "step", "cantilever", "expected"),
    [
        (0.0, 8.0, 4, 0.0, [0, 4, 8]),
        (
            0.0,
            8.0,
            4,
            1.3,
            [0, 4, 8],
        ),  # from 1 to 7 is six ribs: two spans of four, ribs left over used to reach outward
        (0.0, 10.0, 4, 0.0, [0, 3, 7, 10]),  # ten ribs in spans of at most four: the end spans are the shorter
        (0.0, 6.0, 4, 1.3, [1, 5]),
        (0.5, 6.5, 2, 0.7, [1, 2, 4, 6]),
        (0.2, 4.9, 1, 0.3, [1, 2, 3, 4]),  # overhangs of 0.8 and 0.9 beyond the last ribs: no less is possible
        (0.2, 1.9, 1, 0.3, [1]),
        (0.2, 0.9, 1, 0.3, []),
        # beyond the first or the last rib no rib can be reached: both ribs left over are used at the other end
        (21.8, 30.4, 7, 2.3, [22, 29]),
        (-1.4, 7.2, 7, 2.3, [0, 7]),
    ],
)
def test_patterns_by_hand(start: float, end: float, step: int, cantilever: float, expected: list[int]) -> None:
    assert even_ribs(RIBS, start, end, step, cantilever).tolist() == expected


def with_shorter_spans_at_the_ends(first: int, last: int, step: int, *, mirrored: bool = False) -> list[int]:
    """The rule for uneven divisions, tried on every choice of ribs from `first` to `last`.

    Of the choices without a span above `step` those with the fewest ribs, of these those whose spans differ by at most
    one rib, and of these the one whose spans, read from both ends inward in turn, come soonest to the shorter ones.
    """
    for count in range(last - first):
        allowed = []
        for between in combinations(range(first + 1, last), count):
            spans = [high - low for low, high in pairwise([first, *between, last])]
            if max(spans) <= step and max(spans) - min(spans) <= 1:
                if mirrored:
                    spans.reverse()
                inward = [span for pair in zip(spans, reversed(spans), strict=True) for span in pair]
                allowed.append((inward, [first, *between, last]))
        if allowed:
            return min(allowed)[1]
    return [first, last]


def by_the_rule(start: float, end: float, step: int, cantilever: float) -> list[int]:
    """The rule for one line, tried on every pair of ribs for its ends.

    Of the pairs with short overhangs (or the outermost ribs, where none is short enough) those that need the fewest
    spans, of these the farthest apart; what lies outside the innermost such pair is divided evenly, an odd rib left.
    """
    crossed = [rib for rib in range(len(RIBS)) if start <= rib <= end]
    firsts = [rib for rib in crossed if rib - start <= cantilever] or crossed[:1]
    lasts = [rib for rib in crossed if end - rib <= cantilever] or crossed[-1:]
    if firsts[-1] >= lasts[0]:
        firsts, lasts = crossed[:1], crossed[-1:]

    def order(ends: tuple[int, int]) -> tuple[int, int, int, int]:
        first, last = ends
        outward_left, outward_right = firsts[-1] - first, last - lasts[0]
        return -((first - last) // step), first - last, abs(outward_left - outward_right), first

    first, last = min(((first, last) for first in firsts for last in lasts), key=order)
    return with_shorter_spans_at_the_ends(first, last, step)


@given(st.integers(0, 99), st.integers(250, 1400), st.integers(1, 9), st.integers(0, 300))
@settings(max_examples=300, deadline=None)
def test_remainders_go_where_the_rule_says(start: int, length: int, step: int, cantilever: int) -> None:
    """Source: the rule in words, tried on every choice of ribs; lengths in hundredths of a rib."""
    line = start / 100, (start + length) / 100, step, (cantilever + 0.5) / 100
    assert even_ribs(RIBS, *line).tolist() == by_the_rule(*line)


@given(st.floats(0, 10), st.floats(2.5, 18), st.integers(1, 9), st.floats(0, 3))
@settings(max_examples=300, deadline=None)
def test_no_span_is_longer_than_the_step(start: float, length: float, step: int, cantilever: float) -> None:
    end = start + length
    chosen = even_ribs(RIBS, start, end, step, cantilever)
    crossed = np.flatnonzero((RIBS >= start - 1e-9) & (RIBS <= end + 1e-9))
    assert set(chosen) <= set(crossed)
    if len(crossed) >= 2:
        assert len(chosen) >= 2
        assert np.diff(chosen).max() <= step
        assert np.diff(chosen).min() >= 1
        nearest = min(crossed[0] - start, 1.0)
        assert RIBS[chosen[0]] - start <= max(cantilever, nearest) + 1e-6 or chosen[0] == crossed[0]


@given(st.integers(2, 9), st.integers(0, 30))
@settings(max_examples=100, deadline=None)
def test_added_attachments_reach_the_minimum_and_keep_the_pattern(step: int, min_attachments: int) -> None:
    even = even_ribs(RIBS, 2.0, 22.0, step, 0.0)
    more = add_attachments(even, RIBS, 2.0, 22.0, min_attachments)
    assert set(even) <= set(more)
    assert len(more) == max(len(even), min(min_attachments, 21))


def test_attachments_are_added_beyond_a_pattern_without_gaps() -> None:
    """Three ribs side by side, ten crossed: the first crossed one is added, then the middle of the new span."""
    ribs = np.arange(10.0)
    assert add_attachments(np.array([4, 5, 6]), ribs, 0.0, 9.0, 4).tolist() == [0, 4, 5, 6]
    assert add_attachments(np.array([4, 5, 6]), ribs, 0.0, 9.0, 5).tolist() == [0, 2, 4, 5, 6]
    assert add_attachments(np.array([4, 5, 6]), ribs, 0.0, 9.0, 99).tolist() == list(range(10))


def test_attachments_are_added_at_the_ends_first() -> None:
    """End spans of a continuous line carry the most."""
    assert add_attachments(np.array([0, 2, 4, 6, 8]), RIBS, 0.0, 8.0, 7).tolist() == [0, 1, 2, 4, 6, 7, 8]


MODULES = np.arange(0.0, 12.0, 2.0)


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        ([2, 2, 4, 4, 2, 2], [0, 2, 4, 8, 10, 12]),
        ([1, 4, 4, 4, 4, 1], [0, 1, 2, 6, 10, 11, 12]),
        ([3, 3, 3, 3, 1, 1], [0, 2, 5, 8, 9, 10, 11, 12]),  # eight ribs in spans of three: the end span is the shorter
        ([4, 4, 1, 1, 4, 4], [0, 4, 5, 6, 7, 8, 12]),
    ],
)
def test_a_closer_stretch_leaves_the_others_unchanged(steps: list[int], expected: list[int]) -> None:
    assert stepped_ribs(RIBS, MODULES, MODULES + 2.0, np.array(steps), 0.0).tolist() == expected


@given(st.lists(st.integers(1, 5), min_size=6, max_size=6))
@settings(max_examples=200, deadline=None)
def test_no_module_has_wider_spans_than_its_step(steps: list[int]) -> None:
    chosen = stepped_ribs(RIBS, MODULES, MODULES + 2.0, np.array(steps), 0.0)
    for low, high in zip(chosen[:-1], chosen[1:], strict=True):
        over = [
            step
            for step, left in zip(steps, MODULES, strict=True)
            if left + 1e-9 < RIBS[high] and left + 2.0 - 1e-9 > RIBS[low]
        ]
        assert high - low <= min(over)


@given(st.lists(st.integers(1, 5), min_size=6, max_size=6), st.integers(0, 99))
@settings(max_examples=200, deadline=None)
def test_remainders_of_stretches_go_where_the_rule_says(steps: list[int], shift: int) -> None:
    """Source: the rule in words. The closer spacing reaches to the first rib beyond its last module.

    Each stretch is divided evenly, those right of the line's middle as if seen from the right.
    """
    left, right = MODULES + shift / 100, MODULES + 2.0 + shift / 100
    crossed = [rib for rib in range(len(RIBS)) if left[0] <= rib <= right[-1]]
    bounds, chosen = [crossed[0]], set[int]()
    for number, (before, after) in enumerate(pairwise(steps)):
        if before != after:
            border = left[number + 1]
            beyond = [rib for rib in crossed if rib >= border], [rib for rib in crossed if rib <= border]
            bounds.append(beyond[0][0] if before < after else beyond[1][-1])
    different = [step for step, before in zip(steps, [0, *steps], strict=False) if step != before]
    for (low, high), step in zip(pairwise([*bounds, crossed[-1]]), different, strict=True):
        right_of_middle = low + high > crossed[0] + crossed[-1]
        chosen.update(with_shorter_spans_at_the_ends(low, high, step, mirrored=right_of_middle))
    found = stepped_ribs(RIBS, left, right, np.array(steps), 0.0)
    assert found.tolist() == sorted(chosen)


@pytest.mark.parametrize(
    ("chosen", "expected"),
    [([0, 4, 8], [0, 2, 6, 8]), ([0, 3, 6], [0, 1, 5, 6]), ([0, 1, 2], [0, 1, 2]), ([0, 2, 4], [0, 1, 3, 4])],
)
def test_staggered_patterns_lie_midway(chosen: list[int], expected: list[int]) -> None:
    assert stagger(np.array(chosen)).tolist() == expected


@pytest.mark.parametrize(
    ("end", "step", "expected"),
    [
        (9.0, 1.5, [0, 1, 3, 5, 6, 8, 9]),
        (6.0, 1.5, [0, 1, 3, 5, 6]),
        (10.0, 2.5, [0, 2, 5, 8, 10]),
        (3.0, 1.5, [0, 2, 3]),
    ],
)
def test_half_steps_alternate_two_lengths(end: float, step: float, expected: list[int]) -> None:
    assert even_ribs(RIBS, 0.0, end, step, 0.0).tolist() == expected


@given(st.integers(3, 25), st.sampled_from([1.5, 2.5]))
@settings(max_examples=60, deadline=None)
def test_half_steps_have_no_span_above_the_longer_length(last: int, step: float) -> None:
    chosen = even_ribs(RIBS, 0.0, float(last), step, 0.0)
    assert chosen[0] == 0
    assert chosen[-1] == last
    assert np.diff(chosen).max() <= step + 0.5
    assert len(chosen) == np.ceil(last / step) + 1


def test_words_of_a_pattern_begin_with_the_most_frequent_spacing() -> None:
    pattern = SpacingPattern((2, 1, 1), np.array([0, 0, 0, 1, 2]), ("zone 1", "zone 2", "zone 3"))
    assert describe_strips(pattern, lambda step: f"{step} apart", 4) == "2 apart; zone 2, zone 3: 1 apart + 4"
    assert describe_strips(pattern.with_uniform(3), lambda step: f"{step} apart") == "3 apart"
