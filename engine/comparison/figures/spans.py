"""Span limits: the rail by itself, and the attachment spacing that the roof allows."""

from __future__ import annotations

from collections.abc import Callable

from engine import links
from engine.common.calculation import Term
from engine.comparison.compare import Column
from engine.comparison.figure import Figure, FigureContext, Steps, Value, step, value_step, words
from engine.design.design import prepare
from engine.design.search import SPACINGS_BEYOND_LIMITS, SpanLimits, scan_spacings
from engine.design.trial import DesignContext
from engine.links import Link
from engine.mounting.interface import Refusal
from engine.project.job import Job

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


def _or_none(value: Callable[[Column], Value]) -> Callable[[Column], Value]:
    """The value in tables: "none" where a limit was looked for and no spacing holds."""

    def shown(column: Column) -> Value:
        found = value(column)
        return NONE if found is None and _limits(column) else found

    return shown


def _roof_help(job: Job) -> str:
    return (
        f"the largest uniform spacing, in whole ribs, at which {job.roof.rib_word} and {job.roof.fastening_word} hold"
    )


def _explain_limit(context: FigureContext, deciding: Callable[[Link, Job], bool]) -> Steps:
    """Utilisation at every uniform spacing of the links that decide a span limit."""
    scenario, job = context.comparison.scenario, context.job
    (method,) = scenario.methods_named((context.column.id,))
    prepared = prepare(job, method, scenario.standard)
    if _limits(context.column) is None or not isinstance(prepared, DesignContext):
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
    if limits is None or limits.overspan is None or limits.member is None or limits.roof is None:
        return ()
    terms = {"L_rail": context.term(limits.member, "length"), "L_roof": context.term(limits.roof, "length")}
    meaning = "span limit of the rail or rack beam over the attachment spacing limit of the roof"
    return (step("overspan", meaning, Term(limits.overspan), "L_rail / L_roof", terms),)


FIGURES = (
    Figure(
        "rail_span_limit_m",
        GROUP,
        words("rail span limit"),
        words("the largest span, in whole ribs, that the rail or rack beam alone allows"),
        "length",
        value=_member,
        explain=lambda context: _explain_limit(context, lambda link, job: link.limits_member),
        shown=_or_none(_member),
    ),
    Figure(
        "roof_span_limit_m",
        GROUP,
        words("attachment spacing limit (roof)"),
        _roof_help,
        "length",
        value=_roof,
        explain=lambda context: _explain_limit(context, lambda link, job: link.limits_roof(job)),
        shown=_or_none(_roof),
    ),
    Figure(
        "overspan",
        GROUP,
        words("overspan"),
        words("rail span limit / attachment spacing limit (roof): above 1.00 the rail spans more than the roof allows"),
        "ratio",
        value=_overspan,
        explain=_explain_overspan,
        limit=1.0,
    ),
)
