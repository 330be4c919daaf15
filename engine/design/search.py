"""Search for the layout with the fewest attachments in which every link holds.

Uniform spacings are tried first, fewest attachments first, until one holds. From that pattern on, one wind strip after
another is given the next larger spacing, and of all patterns waiting the one with the fewest attachments is tried next.
A pattern that fails may still lead to one that holds, because a larger spacing can meet ribs and clamps more evenly, so
a branch ends only after several failures in a row. The search stops at the minimum by rule of practice, below which no
layout may go, or after a fixed number of patterns. If no uniform spacing holds, the least overloaded one is returned.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, takewhile
from operator import attrgetter

from engine.design.trial import Candidate, DesignContext
from engine.mounting.interface import Refusal
from engine.mounting.layout import Layout

MIN_SPACINGS_SCANNED = 3
"""Minimum number of spacings evaluated even if the closest fails: a wider one may meet ribs and clamps more evenly."""

HALF_SPACING_BELOW = 3
"""Half spacings, with spans of two lengths in turn, are tried below this [ribs]: an installer counts no farther."""

MAX_TRIED = 24
"""Largest number of patterns with strips of different spacing that are checked."""

MAX_FINER_TRIED = 8
"""Largest number of further such patterns with half spacings."""

MAX_ADDED_SHARE = 0.25
"""Largest share of attachments that may be added singly to a pattern with strips: more would be no pattern [-]."""

MAX_CONSECUTIVE_FAILURES = 4
"""Number of patterns in a row, each sparser than the one before, that may fail before a branch of the search ends."""


SPACINGS_BEYOND_LIMITS = 2
"""Spacings shown beyond the first at which neither member nor roof holds."""


@dataclass(frozen=True)
class SpanLimits:
    """Largest uniform spacing up to which the member and the roof hold [m]; None if one fails at every spacing."""

    member: float | None
    roof: float | None

    @property
    def overspan(self) -> float | None:
        """Rail span limit over attachment spacing limit of the roof [-]; None if one of them fails at every spacing."""
        return self.member / self.roof if self.member and self.roof else None


def scan_spacings(context: DesignContext, beyond: int = 0) -> list[Candidate] | Refusal:
    """Candidates of uniform spacing, closest first, until both the member and the roof fail.

    All spacings are scanned if the spacing is no span. On short rows several spacings give the same attachments; they
    are listed once.

    Args:
        context: the job and the method.
        beyond: number of spacings added after the first at which both fail.
    """
    scanned: list[Candidate] = []
    failures = 0
    for spacing in reversed(context.method.candidate_spacings(context.job, context.field)):
        layout = context.uniform_layout(spacing)
        if isinstance(layout, Refusal):
            return layout
        if scanned and layout.attachments.same_as(scanned[-1].layout.attachments):
            continue
        candidate = context.candidate(layout)
        scanned.append(candidate)
        failures += context.method.spacing_is_span and not candidate.member_holds and not candidate.roof_holds
        if len(scanned) >= MIN_SPACINGS_SCANNED and failures > beyond:
            break
    return scanned


def widest_member_holds(scanned: Sequence[Candidate]) -> Candidate | None:
    """The candidate with the widest spacing up to which the member holds; None if it fails at every spacing.

    Of candidates with equal spans that with the fewest attachments is taken.
    """
    return max(
        _holding_run(scanned, attrgetter("member_holds")),
        key=lambda candidate: (round(candidate.layout.longest_span, 9), -_attachment_count(candidate)),
        default=None,
    )


def span_limits(scanned: Sequence[Candidate]) -> SpanLimits:
    """Largest spacings up to which the member and the roof hold."""

    def limit(holds: Callable[[Candidate], bool]) -> float | None:
        return max((candidate.layout.longest_span for candidate in _holding_run(scanned, holds)), default=None)

    return SpanLimits(limit(attrgetter("member_holds")), limit(attrgetter("roof_holds")))


def _holding_run(scanned: Sequence[Candidate], holds: Callable[[Candidate], bool]) -> list[Candidate]:
    """The consecutive candidates that hold, from the first one of the closest few that does."""
    closest = enumerate(scanned[:MIN_SPACINGS_SCANNED])
    first = next((number for number, candidate in closest if holds(candidate)), len(scanned))
    return list(takewhile(holds, scanned[first:]))


def fewest_attachments(context: DesignContext, closest_first: Sequence[float]) -> Candidate | Refusal:
    """The candidate with the fewest attachments in which every link holds, or else the least overloaded uniform one.

    Args:
        context: the job and the method.
        closest_first: the whole spacings to be tried, closest first.
    """
    found = sparsest_holding(context, closest_first)
    return found or _least_overloaded(context, [closest_first, *_with_half_spacings(context, closest_first)])


def sparsest_holding(context: DesignContext, closest_first: Sequence[float]) -> Candidate | None:
    """The candidate with the fewest attachments in which every link holds; None if none does.

    It has at least the minimum by rule of practice. Half spacings are tried too if the spacing is a span.
    """
    best = _search(context, closest_first, MAX_TRIED)
    if best and _is_minimum(context, best):
        return best
    finer = (_search(context, spacings, MAX_FINER_TRIED) for spacings in _with_half_spacings(context, closest_first))
    return min(filter(None, (best, *finer)), key=_attachment_count, default=None)


def _with_half_spacings(context: DesignContext, closest_first: Sequence[float]) -> list[Sequence[float]]:
    """One list of the spacings with the half ones between the closest; no list if the spacing is no span."""
    if not context.method.spacing_is_span:
        return []
    halves = (spacing + 0.5 for spacing in closest_first[:-1] if spacing < HALF_SPACING_BELOW)
    return [sorted([*closest_first, *halves])]


def _attachment_count(candidate: Candidate) -> int:
    return len(candidate.layout.attachments)


def _is_minimum(context: DesignContext, candidate: Candidate) -> bool:
    """True if no layout may have fewer attachments, by rule of practice."""
    return _attachment_count(candidate) <= context.field.minimum_attachments


def _search(context: DesignContext, closest_first: Sequence[float], max_tried: int) -> Candidate | None:
    """The sparsest uniform candidate that holds, refined strip by strip; None if no uniform one holds."""
    possible = (layout for layout in _uniform_layouts(context, closest_first) if not isinstance(layout, Refusal))
    uniform = next((candidate for candidate in map(context.candidate, possible) if candidate.holds), None)
    return uniform and _refine_by_strip(context, closest_first, uniform, max_tried)


def _uniform_layouts(context: DesignContext, closest_first: Sequence[float]) -> Iterator[Layout | Refusal]:
    """Layouts of uniform spacing, fewest attachments first.

    Single attachments are added up to the minimum by rule of practice, so that several spacings may have the same
    number of attachments: of these only the closest, most even one is tried.
    """
    closest_of_count = {context.count(spacing): spacing for spacing in reversed(closest_first)}
    for _, spacing in sorted(closest_of_count.items()):
        yield context.uniform_layout(spacing, context.field.minimum_attachments)


def _least_overloaded(context: DesignContext, spacing_lists: Sequence[Sequence[float]]) -> Candidate | Refusal:
    """The uniform candidate whose controlling link is least overloaded, of equals that with the fewest attachments.

    Candidates are ordered by the largest utilisation found so far, which the full utilisation can only exceed: one that
    is already worse than the best needs no further checks.
    """

    def rank(candidate: Candidate, utilisation: float) -> tuple[float, int]:
        return round(utilisation, 2), _attachment_count(candidate)

    layouts = [layout for spacings in spacing_lists for layout in _uniform_layouts(context, spacings)]
    candidates = [context.candidate(layout) for layout in layouts if not isinstance(layout, Refusal)]
    if not candidates:
        return next(layout for layout in layouts if isinstance(layout, Refusal))
    best, *others = sorted(candidates, key=lambda candidate: rank(candidate, candidate.utilisation_so_far))
    for other in others:
        if rank(other, other.utilisation_so_far) < rank(best, best.controlling.ratio):
            best = min(best, other, key=lambda candidate: rank(candidate, candidate.controlling.ratio))
    return best


@dataclass(frozen=True, eq=False)
class _Waiting:
    """A layout to be tried, and the number of closer ones that failed in a row before it."""

    layout: Layout
    failures: int

    @property
    def spacings(self) -> tuple[float, ...]:
        """Spacing of each strip."""
        return self.layout.pattern.spacings


def _refine_by_strip(
    context: DesignContext, closest_first: Sequence[float], uniform: Candidate, max_tried: int
) -> Candidate:
    """The candidate with the fewest attachments found by making one strip after another sparser.

    Args:
        context: the job and the method.
        closest_first: the spacings a strip may have, closest first.
        uniform: the candidate to begin with, which holds.
        max_tried: largest number of layouts that are checked.
    """
    next_sparser, best, start = dict(pairwise(closest_first)), uniform, uniform.layout.pattern.spacings
    waiting, seen = list(_one_strip_sparser(context, next_sparser, start, 0)), {start}
    for _ in range(max_tried):
        waiting = [each for each in waiting if each.spacings not in seen]
        if not waiting or _is_minimum(context, best):
            break
        tried = min(waiting, key=lambda each: len(each.layout.attachments))
        seen.add(tried.spacings)
        candidate = context.candidate(tried.layout)
        if candidate.holds:
            best = min(best, candidate, key=_attachment_count)
        failures = 0 if candidate.holds else tried.failures + 1
        if failures < MAX_CONSECUTIVE_FAILURES:
            waiting += _one_strip_sparser(context, next_sparser, tried.spacings, failures)
    return best


def _one_strip_sparser(
    context: DesignContext, next_sparser: Mapping[float, float], spacings: tuple[float, ...], failures: int
) -> Iterator[_Waiting]:
    """The layouts in which one strip has the next larger spacing."""
    for strip, spacing in enumerate(spacings):
        if spacing in next_sparser:
            wider = (*spacings[:strip], next_sparser[spacing], *spacings[strip + 1 :])
            layout = context.lay_out(replace(context.strips, spacings=wider), context.field.minimum_attachments)
            if not isinstance(layout, Refusal) and layout.added_attachments <= MAX_ADDED_SHARE * len(
                layout.attachments
            ):
                yield _Waiting(layout, failures)
