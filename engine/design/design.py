"""The design of one method on one job: placed, loaded, laid out, checked, and if needed remedied."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from engine.bill.take_off import Bill, take_off
from engine.common.progress import ProgressListener, no_listener
from engine.design.acceptance import UncheckedLinks, divide
from engine.design.remedies import best_remedy, layout_may_help, sparser_with_open_options
from engine.design.search import (
    SpanLimits,
    fewest_attachments,
    scan_spacings,
    spacings_to_try,
    span_limits,
    widest_member_holds,
)
from engine.design.shared_roof import SharedRoof
from engine.design.status import Status, Verdict
from engine.design.trial import Candidate, DesignContext
from engine.design.wind_strips import strips_of
from engine.links import Check
from engine.links.roof_fastening import STRENGTH_UNKNOWN
from engine.links.unchecked import unproven_wind
from engine.load_path.roof_loads import find_roof_loads
from engine.load_path.run_response import Responses
from engine.loads.interface import Loads, LoadStandard
from engine.mounting.interface import MountingMethod, Refusal
from engine.mounting.layout import Field, Layout, SpacingPattern
from engine.mounting.layouts import Layouts
from engine.mounting.places import no_places
from engine.project.job import Job


@dataclass(frozen=True, eq=False)
class Refused:
    """A method that cannot be used on a job, and the reason."""

    method: MountingMethod
    title: str
    refusal: Refusal


@dataclass(frozen=True, eq=False)
class Design:
    """The layout chosen for one method, with its bill and its checks.

    `candidate` and `roof_alone` are None if the load standard does not cover the method (`loads.outside` says why): the
    layout then has the minimum number of attachments by rule of practice and is counted and priced only. `remedied`:
    the options as stated hold at no spacing, and others were taken; `exhausted`: these were tried too, and none holds.
    `spared`: number of attachments that options which the user left open save.
    `within_tolerance`: the worst verdict with the array set out inaccurately; None where nothing was checked, or
    something is over in any case. `places_tried`: number of places of the roof's ribs and supports that were tried, as
    nobody has surveyed them; this is the design at the worst one.
    """

    job: Job
    method: MountingMethod
    title: str
    field: Field
    loads: Loads
    layout: Layout
    bill: Bill
    candidate: Candidate | None = None
    roof_alone: Check | None = None
    limits: SpanLimits | None = None
    remedied: bool = False
    exhausted: bool = False
    spared: int = 0
    within_tolerance: Verdict | None = None
    places_tried: int = 1

    @property
    def spacing_label(self) -> str:
        """The attachment spacing in words: "every 2nd seam + 32"."""
        return self.method.spacing_label(self.layout, self.job)

    @property
    def total_cost(self) -> float:
        """Hardware and labour, at the scenario's rate an hour [currency]."""
        return self.bill.total_cost(self.job.hardware.labour_rate)

    @cached_property
    def unchecked(self) -> UncheckedLinks:
        """The links that are not checked: still open, or shown by others."""
        checks = self.candidate.checks.values() if self.candidate else ()
        entries = [entry for check in checks for entry in check.unchecked]
        if self.loads.unproven:
            entries.extend(unproven_wind(self.loads.unproven))
        return divide(entries, self.job.accepted, self.method.id)

    @property
    def decisive(self) -> Check | None:
        """The check that the verdict rests on: the controlling one, or that of the roof alone if it is over by more."""
        check, alone = self.candidate.controlling if self.candidate else None, self.roof_alone
        return alone if check and alone and not alone.holds and alone.ratio > check.ratio else check

    @property
    def verdict(self) -> Verdict:
        """The verdict, and the check that it rests on."""
        return Verdict(self.status, self.decisive)

    @property
    def status(self) -> Status:
        """The verdict as a word, "refused" excepted."""
        if self.candidate is None or self.roof_alone is None:
            return Status.OUTSIDE_SCOPE
        if not (self.candidate.holds and self.roof_alone.holds):
            return Status.OVER
        if any(entry.reason == STRENGTH_UNKNOWN for entry in self.unchecked.still_open):
            return Status.STRENGTH_UNKNOWN
        return Status.INCOMPLETE if self.unchecked.still_open else Status.HOLDS


def design(
    job: Job,
    method: MountingMethod,
    standard: LoadStandard,
    tell: ProgressListener = no_listener,
    shared: SharedRoof | None = None,
) -> Design | Refused:
    """The design of one method on a job, with the options left open that need the fewest attachments.

    If the options as stated hold at no spacing, it is that of the best remedy.

    Methods of one job may have a `shared` roof, which is then worked out once.
    """
    context = prepare(job, method, standard, tell, shared)
    if not isinstance(context, DesignContext):
        return context
    stated = _design_as_stated(context)
    if isinstance(stated, Refused) or method.spacing.rule != "fewest":
        return stated
    if stated.status.nothing_over:
        return _with_open_options(context, stated)
    if not _may_be_remedied(stated):
        return stated
    found = best_remedy(context)
    if found is None:
        return replace(stated, exhausted=True)
    # The span limits stay those of the options as stated: the comparison shows what they are.
    return replace(make_design(*found, stated.limits), remedied=True)


@dataclass(frozen=True, eq=False)
class LoadedModules:
    """The modules of a method on a job, the loads on them, and the strips in which they may share a spacing.

    `responses`: what they bring to lines under them.
    """

    field: Field
    loads: Loads
    strips: SpacingPattern
    responses: Responses


def load_modules(
    job: Job, method: MountingMethod, standard: LoadStandard, beside: Responses | None = None
) -> LoadedModules | Refusal:
    """The modules of a method on a job, or its refusal; where seams drift to makes no difference.

    `beside`: the responses of the same modules at another place.
    """
    field = method.place_modules(job)
    if isinstance(field, Refusal):
        return field
    loads = standard.loads(job, field)
    responses = beside.elsewhere(job, field, loads) if beside else Responses(job, field, loads)
    return LoadedModules(field, loads, strips_of(field, loads), responses)


def prepare(
    job: Job,
    method: MountingMethod,
    standard: LoadStandard,
    tell: ProgressListener = no_listener,
    shared: SharedRoof | None = None,
    modules: LoadedModules | None = None,
) -> DesignContext | Design | Refused:
    """Everything that stays the same while layouts are tried; a refusal, or a design without checks, if none can be.

    `modules` are those of the job where they are known already.
    """
    title = method.title(job)
    refusal = no_places(job) or method.refusal_of_roof(job)
    if refusal:
        return Refused(method, title, refusal)
    loaded = modules or load_modules(job, method, standard)
    if isinstance(loaded, Refusal):
        return Refused(method, title, loaded)
    field, loads, strips = loaded.field, loaded.loads, loaded.strips
    if loads.outside:
        return _outside_scope(job, method, title, field, loads, strips)
    shared = shared or SharedRoof()
    roof = find_roof_loads(job, field, loads, shared.bare(job, field, loads))
    return DesignContext(job, method, field, loads, roof, strips, shared, loaded.responses, tell)


def stated_span_limits(
    job: Job, method: MountingMethod, standard: LoadStandard, shared: SharedRoof
) -> SpanLimits | None:
    """Span limits of a method with its options as stated; None where it has none."""
    context = prepare(job, method, standard, shared=shared)
    if not isinstance(context, DesignContext) or not _has_span_limits(context):
        return None
    scanned = scan_spacings(context)
    return None if isinstance(scanned, Refusal) else span_limits(scanned)


def _has_span_limits(context: DesignContext) -> bool:
    """True if a span is searched; without the fastening's strength the roof's own limit is unknown."""
    return context.method.spacing_is_span and context.job.roof.fastening.uplift is not None


def make_design(context: DesignContext, candidate: Candidate, limits: SpanLimits | None) -> Design:
    """The design of a candidate; of all layouts that were tried the context keeps its lines alone."""
    context.responses.keep_only(candidate.layout.runs)
    return Design(
        job=context.job,
        method=context.method,
        title=context.method.title(context.job),
        field=context.field,
        loads=context.loads,
        layout=candidate.layout,
        bill=candidate.bill,
        candidate=candidate,
        roof_alone=context.shared.check_alone(candidate.demands),
        limits=limits,
    )


def _design_as_stated(context: DesignContext) -> Design | Refused:
    """The design with the method's options as stated by the user."""
    method, limits, rail_span = context.method, None, 1.0
    closest_first: tuple[float, ...] = tuple(reversed(method.candidate_spacings(context.job, context.field)))
    if method.spacing_is_span:
        scanned = scan_spacings(context)
        if isinstance(scanned, Refusal):
            return Refused(method, method.title(context.job), scanned)
        closest_first = spacings_to_try(scanned)
        widest = widest_member_holds(scanned)
        limits = span_limits(scanned) if _has_span_limits(context) else None
        rail_span = widest.layout.pattern.spacings[0] if widest else 1.0
    candidate = _candidate_by_rule(context, closest_first, rail_span)
    if isinstance(candidate, Refusal):
        return Refused(method, method.title(context.job), candidate)
    return make_design(context, candidate, limits)


def _candidate_by_rule(
    context: DesignContext, closest_first: tuple[float, ...], rail_span: float
) -> Candidate | Refusal:
    """The candidate by the user's spacing rule: the fewest attachments, a fixed spacing or the rail's span."""
    spacing = context.method.spacing
    if spacing.rule == "fewest":
        return fewest_attachments(context, closest_first)
    layout = context.uniform_layout(spacing.number if spacing.rule == "fixed" else rail_span)
    return layout if isinstance(layout, Refusal) else context.candidate(layout)


def _with_open_options(context: DesignContext, stated: Design) -> Design:
    """The design with other options that the user left open, if it then needs fewer attachments; else as stated."""
    attachments = len(stated.layout.attachments)
    if attachments <= context.field.minimum_attachments:
        return stated
    found = sparser_with_open_options(context, attachments)
    if found is None:
        return stated
    sparser = make_design(*found, stated.limits)
    return replace(sparser, spared=attachments - len(sparser.layout.attachments))


def _may_be_remedied(stated: Design) -> bool:
    """True if a design fails and another layout of its modules could hold."""
    if stated.status != Status.OVER or stated.candidate is None or stated.roof_alone is None:
        return False
    return layout_may_help(stated.candidate, stated.roof_alone)


def _outside_scope(
    job: Job, method: MountingMethod, title: str, field: Field, loads: Loads, strips: SpacingPattern
) -> Design | Refused:
    """A design outside the standard's scope, counted and priced only: nothing is checked.

    The spacing is the fixed one, or that with the fewest attachments which the rule of practice allows.
    """
    spacing, possible_layouts = method.spacing, Layouts(job, method, field, strips.strip)
    if spacing.rule == "fixed":
        layouts = [possible_layouts.lay_out(strips.with_uniform(spacing.number), 0)]
    else:
        patterns = map(strips.with_uniform, method.candidate_spacings(job, field))
        layouts = [possible_layouts.lay_out(pattern, field.minimum_attachments) for pattern in patterns]
    possible = [layout for layout in layouts if not isinstance(layout, Refusal)]
    if not possible:
        return Refused(method, title, next(layout for layout in layouts if isinstance(layout, Refusal)))
    layout = min(possible, key=lambda layout: (len(layout.attachments), layout.pattern.spacings))
    return Design(job, method, title, field, loads, layout, take_off(job, field, method, layout))
