"""One method on one job: the stages strung together, as the user asks for it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from engine.bill.take_off import Bill, take_off
from engine.common.progress import Tell, nobody
from engine.design.search import SpanLimits, as_the_member_spans, explore, fewest, span_limits, sparsest_that_holds
from engine.design.trial import Attempt, Stage
from engine.design.wind_strips import strips_of
from engine.links import Check, check_bare_roof
from engine.links.check import resistances
from engine.load_path.demands import Demands
from engine.load_path.roof_loads import roof_state
from engine.loads.interface import Loads, LoadStandard
from engine.mounting.interface import MountingMethod, Refusal
from engine.mounting.layout import Field, Layout, Pattern
from engine.project.job import Job
from engine.strength import strength

BEYOND_LAYOUT = frozenset({"module", "structure"})
"""Links that no other layout of the same modules relieves."""


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
    then laid out at the count rule's minimum, counted and priced, and nothing is checked. `remedied`
    where the method's options as stated hold with no pattern, and others were taken; `exhausted` where
    those were tried in vain.
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
    remedied: bool = False
    exhausted: bool = False

    @property
    def status(self) -> str:
        """One of "holds", "over" and "outside scope"."""
        if self.attempt is None or self.bare_roof is None:
            return "outside scope"
        return "holds" if self.attempt.holds and self.bare_roof.holds else "over"


def design(job: Job, method: MountingMethod, standard: LoadStandard, tell: Tell = nobody) -> Design | Refused:
    """Place, load, lay out, follow and check one method; where it holds with no pattern, try its remedies."""
    stage = prepare(job, method, standard, tell)
    if not isinstance(stage, Stage):
        return stage
    answer = _as_asked(stage)
    if isinstance(answer, Refused) or method.spacing.rule != "fewest" or not _layout_may_help(answer):
        return answer
    return _remedied(stage, answer) or replace(answer, exhausted=True)


def prepare(job: Job, method: MountingMethod, standard: LoadStandard, tell: Tell = nobody) -> Stage | Design | Refused:
    """All that stays the same while patterns are tried; a design or refusal where there is nothing to try."""
    title = method.title(job)
    refusal = method.suits(job)
    if refusal:
        return Refused(method, title, refusal)
    field = method.place(job)
    if isinstance(field, Refusal):
        return Refused(method, title, field)
    loads = standard.loads(job, field)
    strips = strips_of(field, loads)
    if loads.outside:
        return _uncovered(job, method, title, field, loads, strips)
    return Stage(job, method, field, loads, roof_state(job, field, loads), strips, tell)


def _as_asked(stage: Stage) -> Design | Refused:
    """With the options as stated."""
    limits, spanned = None, 1.0
    closest_first: tuple[float, ...] = tuple(reversed(stage.method.sparsest(stage.job, stage.field)))
    if stage.method.spans:
        explored = explore(stage)
        if isinstance(explored, Refusal):
            return Refused(stage.method, stage.method.title(stage.job), explored)
        closest_first = tuple(attempt.layout.pattern.spacings[0] for attempt in explored)
        limits = span_limits(explored)
        widest = as_the_member_spans(explored)
        spanned = widest.layout.pattern.spacings[0] if widest else 1.0
    asked = stage.method.spacing
    if asked.rule == "fewest":
        attempt = fewest(stage, closest_first)
    else:
        layout = stage.even(asked.number if asked.rule == "fixed" else spanned)
        attempt = layout if isinstance(layout, Refusal) else stage.attempt(layout)
    if isinstance(attempt, Refusal):
        return Refused(stage.method, stage.method.title(stage.job), attempt)
    return designed(stage, attempt, limits)


def designed(stage: Stage, attempt: Attempt, limits: SpanLimits | None) -> Design:
    """The design that an attempt makes."""
    bare = check_bare_roof(attempt.demands)
    title = stage.method.title(stage.job)
    return Design(stage.method, title, stage.field, stage.loads, attempt.layout, attempt.bill, attempt, bare, limits)


def _layout_may_help(answer: Design) -> bool:
    """Whether what is over could hold in another layout."""
    if answer.status != "over" or answer.attempt is None or answer.bare_roof is None or not answer.bare_roof.holds:
        return False
    over = {check.link for check in answer.attempt.checks if not check.holds}
    return not over & BEYOND_LAYOUT and asked_at_least(answer.attempt.demands) <= 1


def asked_at_least(demands: Demands) -> float:
    """What the air alone asks of a fastening under the array, however finely attachments are spread [-]."""
    can = resistances(strength(demands.job.roof.fastening.uplift), demands.combinations)
    return float(np.max(-demands.bound / can))


def _remedied(stage: Stage, answer: Design) -> Design | None:
    """The first of the method's remedies that holds; the span limits stay those of the options as stated."""
    for method in stage.method.remedies():
        remedy = stage.with_method(method)
        attempt = sparsest_that_holds(remedy, range(1, FEW + 1))
        if attempt:
            return replace(designed(remedy, attempt, answer.limits), remedied=True)
    return None


FEW = 3
"""Remedies are looked for up to this many ribs from point to point: staggered, that is as far as neighbours help."""


def _uncovered(job: Job, method: MountingMethod, title: str, field: Field, loads: Loads, strips: Pattern) -> Design | Refused:
    """Outside the standard's scope: as asked, or as few points as the count rule allows, counted and priced only."""
    asked = method.spacing
    if asked.rule == "fixed":
        layouts = [method.lay(job, field, strips.with_even(asked.number), 0)]
    else:
        spacings = method.sparsest(job, field)
        layouts = [method.lay(job, field, strips.with_even(spacing), field.minimum_points) for spacing in spacings]
    possible = [layout for layout in layouts if not isinstance(layout, Refusal)]
    if not possible:
        return Refused(method, title, next(layout for layout in layouts if isinstance(layout, Refusal)))
    layout = min(possible, key=lambda layout: (len(layout.points), layout.pattern.spacings))
    return Design(method, title, field, loads, layout, take_off(job, field, method, layout))
