"""Search for the layout with the fewest attachments in which every link holds that another layout could relieve.

Uniform spacings are tried first, fewest attachments first, until one holds. From that pattern on, one wind strip after
another is given the next larger spacing, and of all patterns waiting the one with the fewest attachments is tried next.
A pattern that fails may still lead to one that holds, because a larger spacing can meet ribs and clamps more evenly, so
a branch ends only after several failures in a row. The search stops at the minimum by rule of practice, below which no
layout may go, or after a fixed number of patterns. If no uniform spacing holds, the least overloaded one is returned.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise
from operator import itemgetter

from engine.common.tolerances import SAME_DECIMALS, SUMMED_LENGTH
from engine.design.closer_failure import CloserFailure, closer_failure
from engine.design.trial import Candidate, DesignContext
from engine.links import Check
from engine.mounting.interface import Refusal
from engine.mounting.layout import Layout

MIN_SPACINGS_SCANNED = 3
"""Minimum number of spacings evaluated even if the closest fails: a wider one may meet ribs and clamps more evenly."""

FAR_OVER = 1.5
"""No wider spacing is tried beyond this utilisation of both member and roof: of 3,000 generated jobs none held."""

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

Stretch = tuple[float, float]
"""The first and the last of consecutive spacings [m]."""


@dataclass(frozen=True)
class SpanLimits:
    """Largest uniform spacing at which the member holds, and at which the roof holds, and what fails below it.

    Attributes:
        member: largest spacing at which the member holds [m]; None if it fails at every spacing.
        roof: largest spacing at which the roof holds [m]; None if it fails at every spacing.
        member_fails: closer spacings at which the member fails.
        roof_fails: closer spacings at which the roof fails.
        roof_at_member_span: the roof's controlling check at the member's limit; None if the member has no limit.
        closer: a spacing that fails although a wider one holds; None if there is none.
    """

    member: float | None
    roof: float | None
    member_fails: tuple[Stretch, ...] = ()
    roof_fails: tuple[Stretch, ...] = ()
    roof_at_member_span: Check | None = None
    closer: CloserFailure | None = None

    @property
    def overspan_basis(self) -> str | None:
        """Basis of the overspan: "spans", or "load" where the roof fails at every spacing; None if there is none."""
        if self.member is None:
            return None
        return "load" if self.roof is None else "spans"

    @property
    def overspan(self) -> float | None:
        """Member's limit over the roof's; where the roof fails at every spacing, its utilisation at the member's limit.

        None if the member fails at every spacing.
        """
        if self.member is None:
            return None
        if self.roof is None:
            return self.roof_at_member_span.utilisation if self.roof_at_member_span else None
        return self.member / self.roof

    @property
    def closer_fails(self) -> bool:
        """True if the member or the roof fails at a spacing within both limits."""
        within = min(self.member or 0.0, self.roof or 0.0)
        return any(first <= within + SUMMED_LENGTH for first, _ in (*self.member_fails, *self.roof_fails))


def scan_spacings(context: DesignContext, beyond: int = 0) -> list[Candidate] | Refusal:
    """Candidates of uniform spacing, closest first, to the widest at which the member or the roof holds.

    Wider spacings are evaluated until both are far over their allowable. All are returned if the spacing is no span. On
    short rows several spacings give the same attachments; they are listed once.

    Args:
        context: the job and the method.
        beyond: number of spacings added after the first at which both fail and beyond which neither holds.
    """
    scanned: list[Candidate] = []
    is_span, shown = context.method.spacing_is_span, MIN_SPACINGS_SCANNED
    for spacing in reversed(context.method.candidate_spacings(context.job, context.field)):
        layout = context.uniform_layout(spacing)
        if isinstance(layout, Refusal):
            return layout
        if scanned and layout.attachments.same_as(scanned[-1].layout.attachments):
            continue
        candidate = context.candidate(layout)
        scanned.append(candidate)
        if is_span and not (candidate.member_over() and candidate.roof_over()):
            shown = max(shown, len(scanned) + 1 + beyond)
        if is_span and len(scanned) >= shown and candidate.member_over(FAR_OVER) and candidate.roof_over(FAR_OVER):
            break
    return scanned[:shown] if is_span else scanned


def spacings_to_try(scanned: Sequence[Candidate]) -> tuple[float, ...]:
    """Spacings for the search: to the first at which both the member and the roof fail, or to the widest that holds."""
    first_failure = next(
        (n for n, each in enumerate(scanned, 1) if each.member_over() and each.roof_over()), len(scanned)
    )
    holding = [n for n, each in enumerate(scanned, 1) if not (each.member_over() or each.roof_over())]
    number = max(MIN_SPACINGS_SCANNED, first_failure, *holding)
    return tuple(candidate.layout.pattern.spacings[0] for candidate in scanned[:number])


def widest_member_holds(scanned: Sequence[Candidate]) -> Candidate | None:
    """The candidate with the widest spacing at which the member holds; None if it fails at every spacing.

    Of candidates with equal spans that with the fewest attachments is taken.
    """
    return max(
        (candidate for candidate in scanned if not candidate.member_over()),
        key=lambda candidate: (round(candidate.layout.longest_span, 9), -_attachment_count(candidate)),
        default=None,
    )


def span_limits(scanned: Sequence[Candidate]) -> SpanLimits:
    """Largest spacings at which the member and the roof hold, and the closer ones at which they fail."""
    widest = widest_member_holds(scanned)
    member, member_fails = _limit([(each.layout.longest_span, not each.member_over()) for each in scanned])
    roof, roof_fails = _limit([(each.layout.longest_span, not each.roof_over()) for each in scanned])
    at_member_span = widest.roof_check if widest else None
    return SpanLimits(member, roof, member_fails, roof_fails, at_member_span, closer_failure(scanned))


def _limit(spacings: Sequence[tuple[float, bool]]) -> tuple[float | None, tuple[Stretch, ...]]:
    """Largest of the spacings [m] that hold, and the stretches of closer ones that fail."""
    limit = max((span for span, holds in spacings if holds), default=None)
    if limit is None:
        return None, ()
    closer = [each for each in spacings if each[0] < limit - SUMMED_LENGTH]
    runs = [(holds, [span for span, _ in run]) for holds, run in groupby(closer, key=itemgetter(1))]
    return limit, tuple((min(spans), max(spans)) for holds, spans in runs if not holds)


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
    uniform = next((candidate for candidate in map(context.candidate, possible) if candidate.layout_holds), None)
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

    Utilisations are compared in two decimals, then, of equal numbers of attachments, to the last; candidates that are
    equal in all this are told apart by their spacings, the closest first. They are ordered by the largest utilisation
    found so far, which the full one can only exceed: one that is already worse than the best needs no further checks.
    """

    def rank(candidate: Candidate, utilisation: float) -> tuple[float, int, float, tuple[float, ...]]:
        spacings = candidate.layout.pattern.spacings
        return round(utilisation, 2), _attachment_count(candidate), round(utilisation, SAME_DECIMALS), spacings

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
        if candidate.layout_holds:
            best = min(best, candidate, key=_attachment_count)
        failures = 0 if candidate.layout_holds else tried.failures + 1
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
