"""The search for the fewest attachments: even patterns first, then strip by strip."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, takewhile

from engine.design.trial import Candidate, DesignContext
from engine.links import check_member, check_rib, check_roof_fastening
from engine.mounting.interface import Refusal
from engine.mounting.layout import Layout

MIN_SPACINGS_SCANNED = 3
"""So many spacings are looked at even where the closest already fails: a wider one may meet ribs and clamps more evenly."""

HALF_SPACING_BELOW = 3
"""Spans of two lengths by turns are looked at below so many ribs: an installer counts no farther."""

MAX_TRIED = 24
"""So many patterns with strips of their own spacing are followed to the end."""

MAX_FINER_TRIED = 8
"""And so many more with spans of two lengths by turns."""

MAX_ADDED_SHARE = 0.25
"""With a larger part of its points added singly nobody would call it a pattern."""

MAX_CONSECUTIVE_FAILURES = 4
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


def scan_spacings(context: DesignContext, beyond: int = 0) -> list[Candidate] | Refusal:
    """Even patterns from the closest outward, until both the member and the roof have given out, and so many `beyond`.

    All of them where the spacing is no span. Where ribs leave room for no other pattern than the one before, it is told once.
    """
    scanned: list[Candidate] = []
    given_out = 0
    for spacing in reversed(context.method.candidate_spacings(context.job, context.field)):
        layout = context.uniform_layout(spacing)
        if isinstance(layout, Refusal):
            return layout
        if scanned and layout.attachments.same_as(scanned[-1].layout.attachments):
            continue
        candidate = context.candidate(layout)
        scanned.append(candidate)
        given_out += context.method.spacing_is_span and not _member_holds(candidate) and not _roof_holds(candidate)
        if len(scanned) >= MIN_SPACINGS_SCANNED and given_out > beyond:
            break
    return scanned


def widest_member_holds(scanned: Sequence[Candidate]) -> Candidate | None:
    """The widest pattern up to which the rail or rack itself holds, of equals the sparsest; None if it holds at none."""
    return max(
        _holding_run(scanned, _member_holds),
        key=lambda candidate: (round(candidate.layout.longest_span, 9), -len(candidate.layout.attachments)),
        default=None,
    )


def span_limits(scanned: Sequence[Candidate]) -> SpanLimits:
    """The largest spacing up to which each holds."""

    def limit(holds: Callable[[Candidate], bool]) -> float | None:
        return max((candidate.layout.longest_span for candidate in _holding_run(scanned, holds)), default=None)

    return SpanLimits(limit(_member_holds), limit(_roof_holds))


def _holding_run(scanned: Sequence[Candidate], holds: Callable[[Candidate], bool]) -> list[Candidate]:
    """The patterns that hold before one does not; the closest few may fail, where a wider one meets ribs and clamps more evenly."""
    begins = next(
        (number for number, candidate in enumerate(scanned[:MIN_SPACINGS_SCANNED]) if holds(candidate)), len(scanned)
    )
    return list(takewhile(holds, scanned[begins:]))


def _member_holds(candidate: Candidate) -> bool:
    return candidate.check(check_member).holds


def _roof_holds(candidate: Candidate) -> bool:
    return candidate.check(check_roof_fastening).holds and candidate.check(check_rib).holds


def fewest_attachments(context: DesignContext, closest_first: Sequence[float]) -> Candidate | Refusal:
    """The sparsest layout found that every link can carry; where none does, the even one whose weakest link is least over.

    Args:
        context: the job and the method.
        closest_first: the whole spacings worth a look.
    """
    return sparsest_holding(context, closest_first) or _least_overloaded(
        context, [closest_first, *_finer(context, closest_first)]
    )


def sparsest_holding(context: DesignContext, closest_first: Sequence[float]) -> Candidate | None:
    """The sparsest layout found that every link can carry, never below the count rule; None where none does.

    Where whole spacings are spans, halves between them are looked at too.
    """
    best = _held(context, closest_first, MAX_TRIED)
    if best and _at_least_possible(context, best):
        return best
    finer = (_held(context, spacings, MAX_FINER_TRIED) for spacings in _finer(context, closest_first))
    return min(filter(None, (best, *finer)), key=_attachment_count, default=None)


def _finer(context: DesignContext, closest_first: Sequence[float]) -> list[Sequence[float]]:
    """Where spacings are spans, the whole ones and halves between the closest."""
    return (
        [sorted([*closest_first, *(low + 0.5 for low in closest_first[:-1] if low < HALF_SPACING_BELOW)])]
        if context.method.spacing_is_span
        else []
    )


def _attachment_count(candidate: Candidate) -> int:
    return len(candidate.layout.attachments)


def _at_least_possible(context: DesignContext, candidate: Candidate) -> bool:
    """Whether nothing can do with fewer."""
    return _attachment_count(candidate) <= context.field.minimum_attachments


def _held(context: DesignContext, closest_first: Sequence[float], tries: int) -> Candidate | None:
    """The sparsest even pattern that holds, then strips of their own spacing."""
    possible = (layout for layout in _even(context, closest_first) if not isinstance(layout, Refusal))
    even = next((candidate for candidate in map(context.candidate, possible) if candidate.holds), None)
    return even and _refine_by_strip(context, closest_first, even, tries)


def _even(context: DesignContext, closest_first: Sequence[float]) -> Iterator[Layout | Refusal]:
    """Even patterns, sparsest first.

    Those that fall short of the count rule are filled up to it with single points, so several may
    come to the same number: of those only the closest, most even one is looked at.
    """
    closest_of_count = {context.count(spacing): spacing for spacing in reversed(closest_first)}
    for _, spacing in sorted(closest_of_count.items()):
        yield context.uniform_layout(spacing, context.field.minimum_attachments)


def _least_overloaded(context: DesignContext, of_spacings: Sequence[Sequence[float]]) -> Candidate | Refusal:
    """Of even patterns the one whose weakest link is least over, of equals the sparsest; what is checked already may rule others out."""

    def over(candidate: Candidate, used: float) -> tuple[float, int]:
        return round(used, 2), _attachment_count(candidate)

    layouts = [layout for spacings in of_spacings for layout in _even(context, spacings)]
    candidates = [context.candidate(layout) for layout in layouts if not isinstance(layout, Refusal)]
    if not candidates:
        return next(layout for layout in layouts if isinstance(layout, Refusal))
    least, *others = sorted(candidates, key=lambda candidate: over(candidate, candidate.largest_so_far))
    for other in others:
        if over(other, other.largest_so_far) < over(least, least.weakest.used):
            least = min(least, other, key=lambda candidate: over(candidate, candidate.weakest.used))
    return least


def _refine_by_strip(context: DesignContext, closest_first: Sequence[float], best: Candidate, tries: int) -> Candidate:
    """Strips of their own spacing: one strip after another sparser, whatever has fewest points first.

    A pattern sparser than one that fails may still hold, where it meets ribs and clamps more evenly or is
    filled up to the count rule; after so many failures in a row nothing sparser is looked at.
    """
    sparser, start = dict(pairwise(closest_first)), best.layout.pattern.spacings
    waiting, seen = list(_one_strip_sparser(context, sparser, start, 0)), {start}
    for _ in range(tries):
        waiting = sorted(
            (each for each in waiting if each.layout.pattern.spacings not in seen),
            key=lambda each: len(each.layout.attachments),
        )
        if not waiting or _at_least_possible(context, best):
            break
        tried, *waiting = waiting
        seen.add(tried.layout.pattern.spacings)
        candidate = context.candidate(tried.layout)
        if candidate.holds:
            best = min(best, candidate, key=_attachment_count)
        failed = 0 if candidate.holds else tried.failed + 1
        if failed < MAX_CONSECUTIVE_FAILURES:
            waiting += _one_strip_sparser(context, sparser, tried.layout.pattern.spacings, failed)
    return best


@dataclass(frozen=True, eq=False)
class _Waiting:
    """A layout to be tried, and how many closer ones in a row have failed before it."""

    layout: Layout
    failed: int


def _one_strip_sparser(
    context: DesignContext, sparser: Mapping[float, float], spacings: tuple[float, ...], failed: int
) -> Iterator[_Waiting]:
    """A pattern's neighbours with one strip at the next sparser spacing."""
    for strip, spacing in enumerate(spacings):
        if spacing in sparser:
            wider = (*spacings[:strip], sparser[spacing], *spacings[strip + 1 :])
            layout = context.lay_out(replace(context.strips, spacings=wider), context.field.minimum_attachments)
            if not isinstance(layout, Refusal) and layout.added_attachments <= MAX_ADDED_SHARE * len(
                layout.attachments
            ):
                yield _Waiting(layout, failed)
