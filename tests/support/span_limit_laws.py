"""Laws of the span limits on a generated job: none is missed, and a stronger part never lowers one."""

from __future__ import annotations

from collections.abc import Iterator

from hypothesis import strategies as st

from engine.common.errors import InputError
from engine.common.tolerances import SUMMED_LENGTH
from engine.design.design import Design, design, prepare
from engine.design.search import SpanLimits, scan_spacings, span_limits
from engine.design.trial import DesignContext
from engine.mounting.interface import Refusal
from engine.scenario.read import Scenario
from support import scenario_of
from support.generated import Changes


def stronger(key: str, low: int, high: int) -> st.SearchStrategy[tuple[str, object, object]]:
    """A key, and two allowables of which the second is the larger."""
    return rising(key, low, high, "lb").map(lambda pair: (key, {"allowable": pair[1]}, {"allowable": pair[2]}))


def rising(key: str, low: int, high: int, unit: str) -> st.SearchStrategy[tuple[str, object, object]]:
    """A key, and two values of which the second is the larger."""
    pairs = st.lists(st.integers(low, high), min_size=2, max_size=2, unique=True).map(sorted)
    return pairs.map(lambda pair: (key, *(f"{value} {unit}" for value in pair)))


STRONGER = st.one_of(
    stronger("roof__fastening__uplift", 200, 900),
    stronger("hardware__attachment_uplift", 200, 900),
    stronger("hardware__clamp_uplift", 200, 900),
    rising("roof__panel__moment_rib_compressed", 100, 800, "lb ft"),
    rising("roof__panel__moment_pan_compressed", 100, 800, "lb ft"),
    rising("hardware__rail__moment_strong", 200, 1200, "lb ft"),
)
"""A strength, and two values of it of which the second is the larger."""


def broken_laws(name: str, changes: Changes, change: tuple[str, object, object]) -> Iterator[str]:
    """The laws that a job with a weaker and a stronger part breaks, in words; none if the reader refuses the job."""
    key, weak, strong = change
    try:
        weaker, stronger = (scenario_of(name, **{**changes, key: value}) for value in (weak, strong))
    except InputError:
        return
    for method in ("rail", "tilted_rack"):
        before, after = _context(weaker, method), _context(stronger, method)
        limits, raised = before and _limits(before), after and _limits(after)
        if before and limits and raised:
            yield from _lowered(method, limits, raised)
            yield from _missed(before, limits)
            yield from _shown_beyond(weaker, method, limits)


def _lowered(method: str, before: SpanLimits, after: SpanLimits) -> Iterator[str]:
    for part, low, high in (("rail", before.member, after.member), ("roof", before.roof, after.roof)):
        if (low or 0.0) > (high or 0.0) + SUMMED_LENGTH:
            yield f"{method}: a stronger part lowers the {part}'s limit from {low} to {high}"


def _missed(context: DesignContext, limits: SpanLimits) -> Iterator[str]:
    """Limits below another of all possible spacings that holds."""
    layouts = map(context.uniform_layout, context.method.candidate_spacings(context.job, context.field))
    candidates = [context.candidate(layout) for layout in layouts if not isinstance(layout, Refusal)]
    for part, limit, holding in (
        ("rail", limits.member, [each for each in candidates if not each.member_over()]),
        ("roof", limits.roof, [each for each in candidates if not each.roof_over()]),
    ):
        widest = max((each.layout.longest_span for each in holding), default=0.0)
        if widest > (limit or 0.0) + SUMMED_LENGTH:
            yield f"{context.method.id}: the {part} holds at {widest}, its limit is {limit}"


def _shown_beyond(scenario: Scenario, method: str, limits: SpanLimits) -> Iterator[str]:
    """A design that holds at a whole uniform spacing beyond a limit."""
    (asked,) = scenario.methods_named((method,))
    found = design(scenario.job, asked, scenario.standard)
    if isinstance(found, Design) and found.status == "holds" and _is_uniform(found):
        span = found.layout.longest_span
        if span > min(limits.member or 0.0, limits.roof or 0.0) + SUMMED_LENGTH:
            yield f"{method}: shown as holding at {span}, beyond {limits.member} or {limits.roof}"


def _is_uniform(found: Design) -> bool:
    """True for a layout of one whole spacing as stated, without attachments added singly."""
    pattern = found.layout.pattern
    whole = pattern.is_uniform and float(pattern.spacings[0]).is_integer()
    return whole and not (found.layout.added_attachments or found.remedied or found.spared)


def _context(scenario: Scenario, method: str) -> DesignContext | None:
    (asked,) = scenario.methods_named((method,))
    context = prepare(scenario.job, asked, scenario.standard)
    return context if isinstance(context, DesignContext) else None


def _limits(context: DesignContext) -> SpanLimits | None:
    scanned = scan_spacings(context)
    return None if isinstance(scanned, Refusal) else span_limits(scanned)
