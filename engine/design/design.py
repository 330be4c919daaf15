"""One method on one job: the stages strung together, as the user asks for it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from engine.bill.take_off import Bill, take_off
from engine.common.progress import ProgressListener, no_listener
from engine.design.search import (
    SpanLimits,
    fewest_attachments,
    scan_spacings,
    span_limits,
    sparsest_holding,
    widest_member_holds,
)
from engine.design.trial import Candidate, DesignContext
from engine.design.wind_strips import strips_of
from engine.links import Check, check_bare_roof
from engine.links.check import resistances
from engine.load_path.demands import Demands
from engine.load_path.roof_loads import find_roof_loads
from engine.loads.interface import Loads, LoadStandard
from engine.mounting.interface import MountingMethod, Refusal
from engine.mounting.layout import Field, Layout, SpacingPattern
from engine.project.job import Job
from engine.strength import strength

NOT_RELIEVED_BY_LAYOUT = frozenset({"module", "structure"})
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

    `candidate` is None where the load standard does not cover it (`loads.outside` says why): it is
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
    candidate: Candidate | None = None
    bare_roof: Check | None = None
    limits: SpanLimits | None = None
    remedied: bool = False
    exhausted: bool = False

    @property
    def status(self) -> str:
        """One of "holds", "over" and "outside scope"."""
        if self.candidate is None or self.bare_roof is None:
            return "outside scope"
        return "holds" if self.candidate.holds and self.bare_roof.holds else "over"


def design(
    job: Job, method: MountingMethod, standard: LoadStandard, tell: ProgressListener = no_listener
) -> Design | Refused:
    """Place, load, lay out, follow and check one method; where it holds with no pattern, try its remedies."""
    context = prepare(job, method, standard, tell)
    if not isinstance(context, DesignContext):
        return context
    answer = _design_as_stated(context)
    if isinstance(answer, Refused) or method.spacing.rule != "fewest" or not _layout_may_help(answer):
        return answer
    return _remedied(context, answer) or replace(answer, exhausted=True)


def prepare(
    job: Job, method: MountingMethod, standard: LoadStandard, tell: ProgressListener = no_listener
) -> DesignContext | Design | Refused:
    """All that stays the same while patterns are tried; a design or refusal where there is nothing to try."""
    title = method.title(job)
    refusal = method.refusal_of_roof(job)
    if refusal:
        return Refused(method, title, refusal)
    field = method.place_modules(job)
    if isinstance(field, Refusal):
        return Refused(method, title, field)
    loads = standard.loads(job, field)
    strips = strips_of(field, loads)
    if loads.outside:
        return _outside_scope(job, method, title, field, loads, strips)
    return DesignContext(job, method, field, loads, find_roof_loads(job, field, loads), strips, tell)


def _design_as_stated(context: DesignContext) -> Design | Refused:
    """With the options as stated."""
    limits, spanned = None, 1.0
    closest_first: tuple[float, ...] = tuple(reversed(context.method.candidate_spacings(context.job, context.field)))
    if context.method.spacing_is_span:
        scanned = scan_spacings(context)
        if isinstance(scanned, Refusal):
            return Refused(context.method, context.method.title(context.job), scanned)
        closest_first = tuple(candidate.layout.pattern.spacings[0] for candidate in scanned)
        limits = span_limits(scanned)
        widest = widest_member_holds(scanned)
        spanned = widest.layout.pattern.spacings[0] if widest else 1.0
    asked = context.method.spacing
    if asked.rule == "fewest":
        candidate = fewest_attachments(context, closest_first)
    else:
        layout = context.uniform_layout(asked.number if asked.rule == "fixed" else spanned)
        candidate = layout if isinstance(layout, Refusal) else context.candidate(layout)
    if isinstance(candidate, Refusal):
        return Refused(context.method, context.method.title(context.job), candidate)
    return make_design(context, candidate, limits)


def make_design(context: DesignContext, candidate: Candidate, limits: SpanLimits | None) -> Design:
    """The design that an attempt makes."""
    bare = check_bare_roof(candidate.demands)
    title = context.method.title(context.job)
    return Design(
        context.method, title, context.field, context.loads, candidate.layout, candidate.bill, candidate, bare, limits
    )


def _layout_may_help(answer: Design) -> bool:
    """Whether what is over could hold in another layout."""
    if answer.status != "over" or answer.candidate is None or answer.bare_roof is None or not answer.bare_roof.holds:
        return False
    over = {check.link for check in answer.candidate.checks if not check.holds}
    return not over & NOT_RELIEVED_BY_LAYOUT and wind_alone_utilisation(answer.candidate.demands) <= 1


def wind_alone_utilisation(demands: Demands) -> float:
    """What the air alone asks of a fastening under the array, however finely attachments are spread [-]."""
    can = resistances(strength(demands.job.roof.fastening.uplift), demands.combinations)
    return float(np.max(-demands.unavoidable_fastening_load / can))


def _remedied(context: DesignContext, answer: Design) -> Design | None:
    """The first of the method's remedies that holds; the span limits stay those of the options as stated."""
    for method in context.method.remedies():
        remedy = context.with_method(method)
        candidate = sparsest_holding(remedy, range(1, REMEDY_MAX_SPACING + 1))
        if candidate:
            return replace(make_design(remedy, candidate, answer.limits), remedied=True)
    return None


REMEDY_MAX_SPACING = 3
"""Remedies are looked for up to this many ribs from point to point: staggered, that is as far as neighbours help."""


def _outside_scope(
    job: Job, method: MountingMethod, title: str, field: Field, loads: Loads, strips: SpacingPattern
) -> Design | Refused:
    """Outside the standard's scope: as asked, or as few points as the count rule allows, counted and priced only."""
    asked = method.spacing
    if asked.rule == "fixed":
        layouts = [method.lay_out(job, field, strips.with_uniform(asked.number), 0)]
    else:
        spacings = method.candidate_spacings(job, field)
        layouts = [
            method.lay_out(job, field, strips.with_uniform(spacing), field.minimum_attachments) for spacing in spacings
        ]
    possible = [layout for layout in layouts if not isinstance(layout, Refusal)]
    if not possible:
        return Refused(method, title, next(layout for layout in layouts if isinstance(layout, Refusal)))
    layout = min(possible, key=lambda layout: (len(layout.attachments), layout.pattern.spacings))
    return Design(method, title, field, loads, layout, take_off(job, field, method, layout))
