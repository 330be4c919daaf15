"""The search for the fewest attachments: even patterns first, then strip by strip."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from engine.checks import ROOF_LINKS
from engine.layout import Layout
from engine.mounting import Refusal
from engine.stage import Attempt, Stage

FEWEST_EXPLORED = 3
"""So many spacings are looked at even where the closest already fails: a wider one may meet ribs and clamps more evenly."""

WIDE = 3
"""Spans of two lengths by turns are looked at below so many ribs: an installer counts no farther."""

MOST_TRIED = 24
"""So many patterns with strips of their own spacing are followed to the end."""

FINER_TRIED = 8
"""And so many more with spans of two lengths by turns."""

MOST_ADDED = 0.25
"""With a larger part of its points added singly nobody would call it a pattern."""

GIVEN_UP = 4
"""So many patterns, each sparser than the one before, may fail before nothing sparser is looked at."""


@dataclass(frozen=True)
class SpanLimits:
    """The largest whole number of ribs from point to point at which each holds [m]; None where it holds at none."""

    member: float | None
    roof: float | None

    @property
    def overspan(self) -> float | None:
        """How many times farther the member spans than the roof can take."""
        return self.member / self.roof if self.member and self.roof else None


def explore(stage: Stage) -> list[Attempt] | Refusal:
    """Even patterns from the closest outward, until both the member and the roof have given out."""
    explored: list[Attempt] = []
    for spacing in reversed(stage.method.sparsest(stage.job, stage.field)):
        layout = stage.even(spacing)
        if isinstance(layout, Refusal):
            return layout
        attempt = stage.attempt(layout)
        explored.append(attempt)
        if len(explored) >= FEWEST_EXPLORED and not _member_holds(attempt) and not _roof_holds(attempt):
            break
    return explored


def as_the_member_spans(explored: Sequence[Attempt]) -> Attempt | None:
    """The widest pattern at which the rail or rack itself holds, whatever the roof can take, of equals the sparsest; None if none does."""
    return max(
        filter(_member_holds, explored),
        key=lambda attempt: (round(attempt.layout.longest_span, 9), -len(attempt.layout.points)),
        default=None,
    )


def _member_holds(attempt: Attempt) -> bool:
    return all(check.holds for check in attempt.checks if check.link == attempt.layout.member.link)


def _roof_holds(attempt: Attempt) -> bool:
    return all(check.holds for check in attempt.checks if check.link in ROOF_LINKS)


def span_limits(explored: Sequence[Attempt]) -> SpanLimits:
    """The largest spacing at which each holds; a closer one may still fail, where ribs meet clamps less evenly."""

    def limit(holds: Callable[[Attempt], bool]) -> float | None:
        held = [attempt.layout.longest_span for attempt in explored if holds(attempt)]
        return max(held, default=None)

    return SpanLimits(limit(_member_holds), limit(_roof_holds))


def fewest(stage: Stage, closest_first: Sequence[float]) -> Attempt | Refusal:
    """The sparsest layout found that every link can carry, never below the count rule; where none does, the least over.

    Args:
        stage: the job and the method.
        closest_first: the whole spacings worth a look; where they are spans, halves between them are looked at too.
    """
    best = _fewest_of(stage, closest_first)
    if not stage.method.spans or isinstance(best, Refusal) or _at_least_possible(stage, best):
        return best
    finer = sorted([*closest_first, *(low + 0.5 for low in closest_first[:-1] if low < WIDE)])
    even = _fewest_even(stage, finer)
    if isinstance(even, Refusal):
        return best
    if even.holds:
        even = _by_need(stage, finer, even, FINER_TRIED)
    held = [attempt for attempt in (best, even) if attempt.holds]
    return min(held, key=lambda attempt: len(attempt.layout.points)) if held else _least_over([best, even])


def _at_least_possible(stage: Stage, attempt: Attempt) -> bool:
    """Whether nothing can do with fewer."""
    return attempt.holds and len(attempt.layout.points) <= stage.field.minimum_points


def _fewest_of(stage: Stage, closest_first: Sequence[float]) -> Attempt | Refusal:
    """The sparsest even pattern that holds, then strips of their own spacing."""
    best = _fewest_even(stage, closest_first)
    return best if isinstance(best, Refusal) or not best.holds else _by_need(stage, closest_first, best, MOST_TRIED)


def _fewest_even(stage: Stage, closest_first: Sequence[float]) -> Attempt | Refusal:
    """The sparsest even pattern that every link can carry.

    Patterns that fall short of the count rule are filled up to it with single points, so several may
    come to the same number: of those only the closest, most even one is looked at. Where none
    holds, the one whose weakest link is least over.
    """
    by_count = sorted(closest_first, key=stage.count)
    closest_of_count = {stage.count(spacing): spacing for spacing in reversed(by_count)}
    attempts: list[Attempt] = []
    layout: Layout | Refusal = Refusal("no_layout", "no layout is possible")
    for _, spacing in sorted(closest_of_count.items()):
        layout = stage.even(spacing, stage.field.minimum_points)
        if isinstance(layout, Refusal):
            continue
        attempts.append(stage.attempt(layout))
        if attempts[-1].holds:
            return attempts[-1]
    if not attempts:
        return layout if isinstance(layout, Refusal) else Refusal("no_layout", "no layout is possible")
    return _least_over(attempts)


def _least_over(attempts: Sequence[Attempt]) -> Attempt:
    """Where none holds: the one whose weakest link is least over, of equals the sparsest."""
    return min(attempts, key=lambda attempt: (round(attempt.weakest.utilisation or 0.0, 2), len(attempt.layout.points)))


def _by_need(stage: Stage, closest_first: Sequence[float], best: Attempt, tries: int) -> Attempt:
    """Strips of their own spacing: one strip after another sparser, whatever has fewest points first.

    A pattern sparser than one that fails may still hold, where it meets ribs and clamps more evenly or is
    filled up to the count rule; after so many failures in a row nothing sparser is looked at.
    """
    sparser, start = dict(pairwise(closest_first)), best.layout.pattern.spacings
    waiting, seen = list(_one_strip_sparser(stage, sparser, start, 0)), {start}
    for _ in range(tries):
        waiting = sorted((each for each in waiting if each.layout.pattern.spacings not in seen), key=lambda each: len(each.layout.points))
        if not waiting or _at_least_possible(stage, best):
            break
        tried, *waiting = waiting
        seen.add(tried.layout.pattern.spacings)
        attempt = stage.attempt(tried.layout)
        if attempt.holds:
            best = min(best, attempt, key=lambda each: len(each.layout.points))
        failed = 0 if attempt.holds else tried.failed + 1
        if failed < GIVEN_UP:
            waiting += _one_strip_sparser(stage, sparser, tried.layout.pattern.spacings, failed)
    return best


@dataclass(frozen=True, eq=False)
class _Waiting:
    """A layout to be tried, and how many closer ones in a row have failed before it."""

    layout: Layout
    failed: int


def _one_strip_sparser(stage: Stage, sparser: Mapping[float, float], spacings: tuple[float, ...], failed: int) -> Iterator[_Waiting]:
    """A pattern's neighbours with one strip at the next sparser spacing."""
    for strip, spacing in enumerate(spacings):
        if spacing in sparser:
            wider = (*spacings[:strip], sparser[spacing], *spacings[strip + 1 :])
            layout = stage.lay(replace(stage.strips, spacings=wider), stage.field.minimum_points)
            if not isinstance(layout, Refusal) and layout.added <= MOST_ADDED * len(layout.points):
                yield _Waiting(layout, failed)
