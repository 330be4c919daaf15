"""The search for the fewest attachments: even patterns first, then strip by strip."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, takewhile

from engine.design.trial import Attempt, Stage
from engine.links import check_member, check_rib, check_roof_fastening
from engine.mounting.interface import Refusal
from engine.mounting.layout import Layout

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
    """The largest whole number of ribs from point to point up to which each holds [m]; None where it holds at none."""

    member: float | None
    roof: float | None

    @property
    def overspan(self) -> float | None:
        """How many times farther the member spans than the roof can take."""
        return self.member / self.roof if self.member and self.roof else None


def explore(stage: Stage, beyond: int = 0) -> list[Attempt] | Refusal:
    """Even patterns from the closest outward, until both the member and the roof have given out, and so many `beyond`.

    All of them where the spacing is no span. Where ribs leave room for no other pattern than the one before, it is told once.
    """
    explored: list[Attempt] = []
    given_out = 0
    for spacing in reversed(stage.method.sparsest(stage.job, stage.field)):
        layout = stage.even(spacing)
        if isinstance(layout, Refusal):
            return layout
        if explored and layout.points.same_as(explored[-1].layout.points):
            continue
        attempt = stage.attempt(layout)
        explored.append(attempt)
        given_out += stage.method.spans and not _member_holds(attempt) and not _roof_holds(attempt)
        if len(explored) >= FEWEST_EXPLORED and given_out > beyond:
            break
    return explored


def as_the_member_spans(explored: Sequence[Attempt]) -> Attempt | None:
    """The widest pattern up to which the rail or rack itself holds, of equals the sparsest; None if it holds at none."""
    return max(
        _up_to_where(explored, _member_holds),
        key=lambda attempt: (round(attempt.layout.longest_span, 9), -len(attempt.layout.points)),
        default=None,
    )


def span_limits(explored: Sequence[Attempt]) -> SpanLimits:
    """The largest spacing up to which each holds."""

    def limit(holds: Callable[[Attempt], bool]) -> float | None:
        return max((attempt.layout.longest_span for attempt in _up_to_where(explored, holds)), default=None)

    return SpanLimits(limit(_member_holds), limit(_roof_holds))


def _up_to_where(explored: Sequence[Attempt], holds: Callable[[Attempt], bool]) -> list[Attempt]:
    """The patterns that hold before one does not; the closest few may fail, where a wider one meets ribs and clamps more evenly."""
    begins = next((number for number, attempt in enumerate(explored[:FEWEST_EXPLORED]) if holds(attempt)), len(explored))
    return list(takewhile(holds, explored[begins:]))


def _member_holds(attempt: Attempt) -> bool:
    return attempt.check(check_member).holds


def _roof_holds(attempt: Attempt) -> bool:
    return attempt.check(check_roof_fastening).holds and attempt.check(check_rib).holds


def fewest(stage: Stage, closest_first: Sequence[float]) -> Attempt | Refusal:
    """The sparsest layout found that every link can carry; where none does, the even one whose weakest link is least over.

    Args:
        stage: the job and the method.
        closest_first: the whole spacings worth a look.
    """
    return sparsest_that_holds(stage, closest_first) or _least_over(stage, [closest_first, *_finer(stage, closest_first)])


def sparsest_that_holds(stage: Stage, closest_first: Sequence[float]) -> Attempt | None:
    """The sparsest layout found that every link can carry, never below the count rule; None where none does.

    Where whole spacings are spans, halves between them are looked at too.
    """
    best = _held(stage, closest_first, MOST_TRIED)
    if best and _at_least_possible(stage, best):
        return best
    finer = (_held(stage, spacings, FINER_TRIED) for spacings in _finer(stage, closest_first))
    return min(filter(None, (best, *finer)), key=_points, default=None)


def _finer(stage: Stage, closest_first: Sequence[float]) -> list[Sequence[float]]:
    """Where spacings are spans, the whole ones and halves between the closest."""
    return [sorted([*closest_first, *(low + 0.5 for low in closest_first[:-1] if low < WIDE)])] if stage.method.spans else []


def _points(attempt: Attempt) -> int:
    return len(attempt.layout.points)


def _at_least_possible(stage: Stage, attempt: Attempt) -> bool:
    """Whether nothing can do with fewer."""
    return _points(attempt) <= stage.field.minimum_points


def _held(stage: Stage, closest_first: Sequence[float], tries: int) -> Attempt | None:
    """The sparsest even pattern that holds, then strips of their own spacing."""
    possible = (layout for layout in _even(stage, closest_first) if not isinstance(layout, Refusal))
    even = next((attempt for attempt in map(stage.attempt, possible) if attempt.holds), None)
    return even and _by_need(stage, closest_first, even, tries)


def _even(stage: Stage, closest_first: Sequence[float]) -> Iterator[Layout | Refusal]:
    """Even patterns, sparsest first.

    Those that fall short of the count rule are filled up to it with single points, so several may
    come to the same number: of those only the closest, most even one is looked at.
    """
    closest_of_count = {stage.count(spacing): spacing for spacing in reversed(closest_first)}
    for _, spacing in sorted(closest_of_count.items()):
        yield stage.even(spacing, stage.field.minimum_points)


def _least_over(stage: Stage, of_spacings: Sequence[Sequence[float]]) -> Attempt | Refusal:
    """Of even patterns the one whose weakest link is least over, of equals the sparsest; what is checked already may rule others out."""

    def over(attempt: Attempt, used: float) -> tuple[float, int]:
        return round(used, 2), _points(attempt)

    layouts = [layout for spacings in of_spacings for layout in _even(stage, spacings)]
    attempts = [stage.attempt(layout) for layout in layouts if not isinstance(layout, Refusal)]
    if not attempts:
        return next(layout for layout in layouts if isinstance(layout, Refusal))
    least, *others = sorted(attempts, key=lambda attempt: over(attempt, attempt.at_least))
    for other in others:
        if over(other, other.at_least) < over(least, least.weakest.used):
            least = min(least, other, key=lambda attempt: over(attempt, attempt.weakest.used))
    return least


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
            best = min(best, attempt, key=_points)
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
