"""One method on one job: the stages strung together, the search for spacing, and both span limits."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from dataclasses import field as dataclass_field

from engine.bill import Bill, take_off
from engine.checks import LINKS, ROOF_LINKS, Check, check_bare_roof
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout
from engine.load_path import trace
from engine.loads import Loads, LoadStandard
from engine.mounting import MountingMethod, Refusal
from engine.roof_state import RoofState, roof_state

FEWEST_EXPLORED = 3
"""So many spacings are looked at even where the closest already fails: a wider one may meet ribs and clamps more evenly."""


@dataclass(frozen=True, eq=False)
class Attempt:
    """One layout, what it is built of, what it asks of every link, and whether they hold."""

    layout: Layout
    bill: Bill
    demands: Demands
    checks: tuple[Check, ...]

    @property
    def weakest(self) -> Check:
        """The link with the largest utilisation."""
        return max(self.checks, key=lambda check: check.utilisation or 0.0)

    @property
    def holds(self) -> bool:
        """Whether every checked link holds."""
        return all(check.holds for check in self.checks)


@dataclass(frozen=True)
class SpanLimits:
    """The largest whole number of ribs from point to point at which each holds [m]; None where it holds at none."""

    member: float | None
    roof: float | None

    @property
    def overspan(self) -> float | None:
        """How many times farther the member spans than the roof can take."""
        return self.member / self.roof if self.member and self.roof else None


@dataclass(frozen=True, eq=False)
class Refused:
    """A method that cannot be used here, and why."""

    method: MountingMethod
    title: str
    refusal: Refusal


@dataclass(frozen=True, eq=False)
class Design:
    """One method's answer.

    `attempt` is None where the load standard does not cover it (`loads.outside` says why): it is
    then laid out at the count rule's minimum, counted and priced, and nothing is checked.
    """

    method: MountingMethod
    title: str
    field: Field
    loads: Loads
    layout: Layout
    bill: Bill
    attempt: Attempt | None = None
    bare_roof: Check | None = None
    limits: SpanLimits | None = None

    @property
    def status(self) -> str:
        """One of "holds", "over" and "outside scope"."""
        if self.attempt is None or self.bare_roof is None:
            return "outside scope"
        return "holds" if self.attempt.holds and self.bare_roof.holds else "over"


@dataclass(frozen=True, eq=False)
class Stage:
    """What stays the same while spacings are tried."""

    job: Job
    method: MountingMethod
    field: Field
    loads: Loads
    roof: RoofState
    laid: dict[int, Layout | Refusal] = dataclass_field(default_factory=dict)
    tried: dict[tuple[int, ...], Attempt] = dataclass_field(default_factory=dict)

    def lay(self, spacing: int, minimum: int) -> Layout | Refusal:
        """The layout of a spacing, with at least so many points; the even pattern itself where it has them."""
        if spacing not in self.laid:
            self.laid[spacing] = self.method.lay(self.job, self.field, spacing, 0)
        even = self.laid[spacing]
        if isinstance(even, Refusal) or len(even.points) >= minimum:
            return even
        return self.method.lay(self.job, self.field, spacing, minimum)

    def count(self, spacing: int) -> int:
        """Points of a spacing once it is filled up to the count rule; none where it cannot be laid."""
        even = self.lay(spacing, 0)
        return 0 if isinstance(even, Refusal) else max(len(even.points), self.field.minimum_points)

    def attempt(self, layout: Layout) -> Attempt:
        """Bill, trace and check a layout; the same pattern is not followed twice."""
        key = (layout.spacing, len(layout.points))
        if key not in self.tried:
            bill = take_off(self.job, self.field, self.method, layout)
            demands = trace(self.job, self.field, self.loads, self.roof, layout, bill)
            checks = tuple(check(self.job, self.field, layout, demands) for check in LINKS)
            self.tried[key] = Attempt(layout, bill, demands, checks)
        return self.tried[key]


def design(job: Job, method: MountingMethod, standard: LoadStandard) -> Design | Refused:
    """Place, load, lay out, follow and check one method."""
    stage = prepare(job, method, standard)
    return _chosen(stage, method.title(job)) if isinstance(stage, Stage) else stage


def prepare(job: Job, method: MountingMethod, standard: LoadStandard) -> Stage | Design | Refused:
    """All that stays the same while spacings are tried; a design or refusal where there is nothing to try."""
    title = method.title(job)
    refusal = method.suits(job)
    if refusal:
        return Refused(method, title, refusal)
    field = method.place(job)
    if isinstance(field, Refusal):
        return Refused(method, title, field)
    loads = standard.loads(job, field)
    if loads.outside:
        return _uncovered(job, method, title, field, loads)
    return Stage(job, method, field, loads, roof_state(job, field, loads))


def _chosen(stage: Stage, title: str) -> Design | Refused:
    spacings = stage.method.sparsest(stage.job, stage.field)
    limits, known, spanned = None, spacings, 1
    if stage.method.spans:
        explored = explore(stage, spacings)
        if isinstance(explored, Refusal):
            return Refused(stage.method, title, explored)
        known = tuple(attempt.layout.spacing for attempt in explored)
        limits = span_limits(explored)
        held = [attempt for attempt in explored if _member_holds(attempt)]
        spanned = max(held, key=lambda attempt: attempt.layout.longest_span).layout.spacing if held else 1
    attempt = _attempt_asked_for(stage, known, spanned)
    if isinstance(attempt, Refusal):
        return Refused(stage.method, title, attempt)
    bare = check_bare_roof(stage.job, attempt.demands)
    return Design(stage.method, title, stage.field, stage.loads, attempt.layout, attempt.bill, attempt, bare, limits)


def explore(stage: Stage, spacings: Sequence[int]) -> list[Attempt] | Refusal:
    """Even patterns from the closest outward, until both the member and the roof have given out."""
    explored: list[Attempt] = []
    for spacing in reversed(spacings):
        layout = stage.lay(spacing, 0)
        if isinstance(layout, Refusal):
            return layout
        attempt = stage.attempt(layout)
        explored.append(attempt)
        if len(explored) >= FEWEST_EXPLORED and not _member_holds(attempt) and not _roof_holds(attempt):
            break
    return explored


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


def _attempt_asked_for(stage: Stage, known: Sequence[int], spanned: int) -> Attempt | Refusal:
    """The layout that the user's rule asks for; `spanned` is the largest spacing at which the member holds."""
    asked = stage.method.spacing
    if asked.rule == "fewest":
        return _fewest(stage, known)
    layout = stage.lay(asked.number if asked.rule == "fixed" else spanned, 0)
    return layout if isinstance(layout, Refusal) else stage.attempt(layout)


def _fewest(stage: Stage, known: Sequence[int]) -> Attempt | Refusal:
    """The sparsest layout that every link can carry, never below the count rule.

    Patterns that fall short of the rule are filled up to it with single points, so several may
    come to the same number: of those only the closest, most even one is looked at. Where none
    holds, the one whose weakest link is least over.
    """
    attempts, refusal, counts = [], None, set()
    by_count = sorted(known, key=lambda spacing: (stage.count(spacing), spacing)) if stage.method.spans else known
    for spacing in by_count:
        count = stage.count(spacing)
        if count in counts:
            continue
        counts.add(count)
        layout = stage.lay(spacing, stage.field.minimum_points)
        if isinstance(layout, Refusal):
            refusal = layout
            continue
        attempts.append(stage.attempt(layout))
        if attempts[-1].holds:
            return attempts[-1]
    if not attempts:
        return refusal or Refusal("no_layout", "no layout is possible")
    return min(attempts, key=lambda attempt: (round(attempt.weakest.utilisation or 0.0, 2), len(attempt.layout.points)))


def _uncovered(job: Job, method: MountingMethod, title: str, field: Field, loads: Loads) -> Design | Refused:
    """Outside the standard's scope: as asked, or as few points as the count rule allows, counted and priced only."""
    asked = method.spacing
    if asked.rule == "fixed":
        layouts = [method.lay(job, field, asked.number, 0)]
    else:
        layouts = [method.lay(job, field, spacing, field.minimum_points) for spacing in method.sparsest(job, field)]
    possible = [layout for layout in layouts if not isinstance(layout, Refusal)]
    if not possible:
        return Refused(method, title, next(layout for layout in layouts if isinstance(layout, Refusal)))
    layout = min(possible, key=lambda layout: (len(layout.points), layout.spacing))
    return Design(method, title, field, loads, layout, take_off(job, field, method, layout))
