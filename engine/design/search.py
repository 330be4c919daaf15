"""Search for the layout with the fewest attachments in which every link holds that another layout could relieve.

Uniform spacings are tried first, fewest attachments first, until one holds. Then every wind strip may have a spacing of
its own: those are left out at which a strip is far over beside every spacing that holds. All combinations of the rest
that need fewer attachments are tried, again the fewest first, until one holds. Their order depends on no strength, and
a stronger part only adds to them: so it never needs more attachments. The search stops at the minimum by rule of
practice. If no uniform spacing holds, the least overloaded one is returned.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, product
from operator import itemgetter

import numpy as np

from engine.common.arrays import Bools, Ints
from engine.common.tolerances import SAME_DECIMALS, SUMMED_LENGTH
from engine.design.closer_failure import CloserFailure, closer_failure
from engine.design.trial import Candidate, DesignContext
from engine.links import Check
from engine.mounting.interface import Refusal
from engine.mounting.layout import Layout, SpacingPattern

MIN_SPACINGS_SCANNED = 3
"""Minimum number of spacings evaluated even if the closest fails: a wider one may meet ribs and clamps more evenly."""

FAR_OVER = 1.5
"""Beyond this utilisation of both member and roof no wider spacing is tried [-]: of 3,000 generated jobs none held."""

STRIP_FAR_OVER = 1.5
"""A strip's spacing above this utilisation beside every uniform one that holds is not combined with others [-]: in 79
searches of generated jobs that could spare attachments a wider search without this limit found none sparser."""

HALF_SPACING_BELOW = 3
"""Half spacings, with spans of two lengths in turn, are tried below this [ribs]: an installer counts no farther."""

MAX_STRIPS = 4
"""Largest number of strips with spacings of their own: of more, the smallest share theirs with a neighbour."""

MAX_ADDED_SHARE = 0.25
"""Largest share of attachments that may be added singly to a pattern with strips: more would be no pattern [-]."""

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
        key=lambda candidate: (round(candidate.layout.longest_span, 9), -len(candidate.layout.attachments)),
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
    return sparsest_holding(context, closest_first) or _least_overloaded(context, closest_first)


def sparsest_holding(context: DesignContext, closest_first: Sequence[float]) -> Candidate | None:
    """The candidate with the fewest attachments in which every link holds; None if no uniform one does.

    It has at least the minimum by rule of practice. Half spacings are tried too if the spacing is a span.
    """
    spacings = _with_half_spacings(context, closest_first)
    uniform = _holding(context, map(context.strips.with_uniform, spacings))
    fewest, has_strips = next(uniform, None), len(context.strips.names) > 1
    if fewest is None or not has_strips or len(fewest.layout.attachments) <= context.field.minimum_attachments:
        return fewest
    patterns = _combinations(context, spacings, [fewest, *uniform])
    return next(_holding(context, patterns, fewer_than=len(fewest.layout.attachments)), fewest)


def _with_half_spacings(context: DesignContext, closest_first: Sequence[float]) -> list[float]:
    """The spacings with the half ones between the closest, if the spacing is a span."""
    is_span = context.method.spacing_is_span
    halves = [spacing + 0.5 for spacing in closest_first[:-1] if is_span and spacing < HALF_SPACING_BELOW]
    return sorted([*closest_first, *halves], reverse=not is_span)


def _holding(
    context: DesignContext, patterns: Iterable[SpacingPattern], fewer_than: float = math.inf
) -> Iterator[Candidate]:
    """The candidates of patterns that hold, fewest attachments first."""
    candidates = map(context.candidate, _layouts(context, patterns, fewer_than))
    return (candidate for candidate in candidates if candidate.layout_holds)


def _layouts(
    context: DesignContext, patterns: Iterable[SpacingPattern], fewer_than: float = math.inf
) -> Iterator[Layout]:
    """Different layouts of patterns, fewest attachments first, then the fewest added ones, then the most even pattern.

    Single attachments are added up to the minimum by rule of practice. Of uniform patterns that have as many then only
    the closest is taken.
    """
    found = dict[object, tuple[int, int, SpacingPattern]]()
    for pattern in sorted(patterns, key=_unevenness):
        runs = context.runs(pattern)
        if not isinstance(runs, Refusal):
            count = sum(len(laid.attachments) for laid in runs)
            added = sum(laid.added_attachments for laid in runs)
            found.setdefault((count, pattern.has_half) if pattern.is_uniform else runs, (count, added, pattern))
    for count, _, pattern in sorted(found.values(), key=itemgetter(0, 1)):
        layout = context.lay_out(pattern, context.field.minimum_attachments) if count < fewer_than else None
        if isinstance(layout, Layout) and _is_pattern(layout):
            yield layout


def _unevenness(pattern: SpacingPattern) -> tuple[int, bool, tuple[float, ...]]:
    """Orders patterns: few different spacings first, then whole ones, then small numbers."""
    return len(set(pattern.spacings)), pattern.has_half, pattern.spacings


def _is_pattern(layout: Layout) -> bool:
    """False for strips whose pattern is lost among the attachments that were added to it."""
    return layout.pattern.is_uniform or layout.added_attachments <= MAX_ADDED_SHARE * len(layout.attachments)


def _combinations(
    context: DesignContext, spacings: Sequence[float], uniform: Sequence[Candidate]
) -> Iterator[SpacingPattern]:
    """Patterns in which every strip has one of the spacings at which it may hold, given the uniform ones that do."""
    group, beside = groups_of(context.strips), [each.layout.pattern.spacings[0] for each in uniform]
    possible = [
        [each for each in spacings if any(_may_hold(context, group == number, each, other) for other in beside)]
        for number in range(int(group.max()) + 1)
    ]
    for chosen in product(*possible):
        yield replace(context.strips, spacings=tuple(chosen[number] for number in group.tolist()))


def groups_of(strips: SpacingPattern) -> Ints:
    """Number of the group of each strip (S,): as many groups as may have a spacing of their own.

    The group with the fewest modules is joined with the next, harsher one; the last with the one before.
    """
    modules = np.bincount(strips.strip, minlength=len(strips.names))
    group = np.arange(len(modules))
    while group.max() >= MAX_STRIPS:
        smallest = np.bincount(group, modules).argmin()
        group[group > min(smallest, group.max() - 1)] -= 1
    return group


def _may_hold(context: DesignContext, strips: Bools, spacing: float, others: float) -> bool:
    """True if some strips (S,) at a spacing, and the others at another, are not far over."""
    pattern = replace(context.strips, spacings=tuple(np.where(strips, spacing, others).tolist()))
    layout = context.lay_out(pattern, context.field.minimum_attachments)
    return isinstance(layout, Layout) and not context.candidate(layout).layout_over(STRIP_FAR_OVER)


def _least_overloaded(context: DesignContext, closest_first: Sequence[float]) -> Candidate | Refusal:
    """The uniform candidate whose controlling link is least overloaded, of equals that with the fewest attachments.

    Utilisations are compared in two decimals, then, of equal numbers of attachments, to the last; candidates that are
    equal in all this are told apart by their spacings, the closest first. They are ordered by the largest utilisation
    found so far, which the full one can only exceed: one that is already worse than the best needs no further checks.
    """

    def rank(candidate: Candidate, utilisation: float) -> tuple[float, int, float, tuple[float, ...]]:
        attachments, spacings = len(candidate.layout.attachments), candidate.layout.pattern.spacings
        return round(utilisation, 2), attachments, round(utilisation, SAME_DECIMALS), spacings

    spacings = _with_half_spacings(context, closest_first)
    candidates = list(map(context.candidate, _layouts(context, map(context.strips.with_uniform, spacings))))
    if not candidates:
        refusal = context.uniform_layout(spacings[0], context.field.minimum_attachments)
        assert isinstance(refusal, Refusal)
        return refusal
    best, *others = sorted(candidates, key=lambda candidate: rank(candidate, candidate.utilisation_so_far))
    for other in others:
        if rank(other, other.utilisation_so_far) < rank(best, best.controlling.ratio):
            best = min(best, other, key=lambda candidate: rank(candidate, candidate.controlling.ratio))
    return best
