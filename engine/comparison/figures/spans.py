"""Span limits: the rail by itself, and the attachment spacing that the roof allows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from operator import attrgetter

from engine import links
from engine.common.calculation import Term
from engine.comparison.compare import Column
from engine.comparison.figure import (
    NOT_IN_TABLE,
    Figure,
    FigureContext,
    Steps,
    Value,
    step,
    value_step,
    words,
)
from engine.comparison.figures.utilisation import ratio_step
from engine.design.design import prepare
from engine.design.search import SPACINGS_BEYOND_LIMITS, SpanLimits, Stretch, scan_spacings
from engine.design.trial import DesignContext
from engine.design.verdict import component_name, spacings_in_words
from engine.links import Link
from engine.mounting.interface import Refusal
from engine.project.job import Job
from engine.units import text

GROUP = "spans"
NONE = "none"


def _limits(column: Column) -> SpanLimits | None:
    """The span limits; None for methods whose spacing is no span."""
    return column.design.limits if column.design else None


def _member(column: Column) -> Value:
    limits = _limits(column)
    return limits.member if limits else None


def _roof(column: Column) -> Value:
    limits = _limits(column)
    return limits.roof if limits else None


def _overspan(column: Column) -> Value:
    limits = _limits(column)
    return limits.overspan if limits else None


def _overspan_basis(column: Column) -> Value:
    limits = _limits(column)
    return limits.overspan_basis if limits else None


def _or_none(value: Callable[[Column], Value]) -> Callable[[Column], Value]:
    """The value in tables: "none" where a limit was looked for and no spacing holds."""

    def shown(column: Column) -> Value:
        found = value(column)
        return NONE if found is None and _limits(column) else found

    return shown


def _roof_help(job: Job) -> str:
    parts = f"{job.roof.rib_word}, {job.roof.fastening_word} and the attachment's hold in the roof"
    if not job.hardware.pierces:
        parts = f"{job.roof.rib_word} and {job.roof.fastening_word}"
    return f"the largest uniform spacing, in whole ribs, at which {parts} hold"


def _explain_limit(
    context: FigureContext,
    failing: Callable[[SpanLimits], Sequence[Stretch]],
    deciding: Callable[[Link, Job], bool],
) -> Steps:
    """The closer spacings that fail, and the utilisation at every spacing of the links that decide a span limit."""
    limits = _limits(context.column)
    if limits is None:
        return ()
    return (*_closer_failing(context, failing(limits)), *_utilisations(context, deciding))


def _closer_failing(context: FigureContext, stretches: Sequence[Stretch]) -> Steps:
    """A step that names the spacings below a limit that fail; no step if there are none."""
    if not stretches:
        return ()
    spacings = spacings_in_words(stretches, lambda span: text(span, "length", context.system))
    meaning = f"smallest of the spacings below the limit that fail. Closer spacings that fail: {spacings}"
    return (value_step("L_fail", meaning, context.term(stretches[0][0], "length")),)


def _utilisations(context: FigureContext, deciding: Callable[[Link, Job], bool]) -> Steps:
    """Utilisation of some links at every uniform spacing."""
    scenario, job = context.comparison.scenario, context.job
    (method,) = scenario.methods_named((context.column.id,))
    prepared = prepare(job, method, scenario.standard)
    if not isinstance(prepared, DesignContext):
        return ()
    scanned = scan_spacings(prepared, SPACINGS_BEYOND_LIMITS)
    steps = []
    for candidate in () if isinstance(scanned, Refusal) else scanned:
        span, label = context.term(candidate.layout.longest_span, "length"), method.spacing_label(candidate.layout, job)
        for link in links.LINKS:
            check = candidate.check(link)
            if deciding(link, job) and check.utilisation is not None:
                meaning = f"utilisation of the {check.title} with attachments at {label}, {span.value:.2f} {span.unit}"
                steps.append(value_step(f"u_{link.key}", meaning, Term(check.ratio)))
    return tuple(steps)


def _explain_overspan(context: FigureContext) -> Steps:
    limits = _limits(context.column)
    if limits is None or limits.overspan is None or limits.member is None:
        return ()
    if limits.roof is None:
        return _explain_overload(context, limits)
    terms = {"L_rail": context.term(limits.member, "length"), "L_roof": context.term(limits.roof, "length")}
    meaning = "span limit of the rail or rack beam over the attachment spacing limit of the roof"
    return (step("overspan", meaning, Term(limits.overspan), "L_rail / L_roof", terms),)


def _explain_overload(context: FigureContext, limits: SpanLimits) -> Steps:
    """Load over allowable of the roof at the rail's own span."""
    check = limits.roof_at_member_span
    if check is None or limits.member is None:
        return ()
    component, words_of = component_name(context.job, check), context.job.words
    span = text(limits.member, "length", context.system)
    meaning = (
        f"{words_of.load} over {words_of.resistance} of the {component} at the rail's own span of {span}, in "
        f"{check.combination}: the roof fails at every spacing"
    )
    return (ratio_step(context, check, "overspan", meaning),)


FIGURES = (
    Figure(
        "rail_span_limit_m",
        GROUP,
        words("rail span limit"),
        words("the largest span, in whole ribs, at which the rail or rack beam alone holds"),
        "length",
        value=_member,
        explain=lambda context: _explain_limit(
            context, attrgetter("member_fails"), lambda link, job: link.limits_member
        ),
        shown=_or_none(_member),
        better="more",
    ),
    Figure(
        "roof_span_limit_m",
        GROUP,
        words("attachment spacing limit (roof)"),
        _roof_help,
        "length",
        value=_roof,
        explain=lambda context: _explain_limit(
            context, attrgetter("roof_fails"), lambda link, job: link.limits_roof(job)
        ),
        shown=_or_none(_roof),
        better="more",
    ),
    Figure(
        "overspan",
        GROUP,
        words("overspan"),
        lambda job: (
            "rail span limit / attachment spacing limit (roof); where the roof fails at every spacing, its "
            f"{job.words.load} / {job.words.resistance} at the rail's own span. Above 1.00 the rail spans more than "
            "the roof allows"
        ),
        "ratio",
        value=_overspan,
        explain=_explain_overspan,
        limit=1.0,
        better="less",
    ),
    Figure(
        "overspan_basis",
        NOT_IN_TABLE,
        words("basis of the overspan"),
        lambda job: (
            "spans: ratio of both limits; load: the roof fails at every spacing, "
            f"{job.words.load} / {job.words.resistance} at the rail's span"
        ),
        "",
        value=_overspan_basis,
    ),
)
