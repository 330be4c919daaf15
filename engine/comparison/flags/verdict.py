"""What came out: beyond a clause, over, nothing found, spans farther than the roof can take."""

from __future__ import annotations

from collections.abc import Iterator

from engine.comparison.flags.flag import Flag
from engine.design.design import Design
from engine.design.remedies import wind_alone_utilisation
from engine.design.verdict import span_sentence
from engine.links import Check
from engine.project.job import Job
from engine.units import both

WARNING_RATIO = 1.5
"""From this ratio of the two span limits on, the flag is a warning."""


def flags(job: Job, design: Design) -> Iterator[Flag]:
    """In the order they are told."""
    yield from _scope(design)
    yield from _verdict(job, design)
    yield from _spans(job, design)


def _scope(design: Design) -> Iterator[Flag]:
    for limit in design.loads.outside:
        yield Flag("outside_scope", "warning", f"outside {limit}; nothing is checked")
    for remark in design.loads.remarks:
        yield Flag(remark.code, remark.severity, remark.text)


def _verdict(job: Job, design: Design) -> Iterator[Flag]:
    candidate, bare = design.candidate, design.bare_roof
    if candidate is None or bare is None:
        return
    if not bare.holds:
        text = f"the roof is over before any array: its worst {bare.title} stands at {bare.utilisation:.2f} bare"
        yield Flag("bare_roof_over", "warning", text)
    weakest, first_minimum = candidate.weakest, wind_alone_utilisation(candidate.demands)
    if not weakest.holds:
        text = f"the weakest link is the {weakest.title}, at {weakest.utilisation:.2f} ({weakest.combination}){_would_do(weakest)}"
        yield Flag("over", "warning", text)
    if design.exhausted and first_minimum <= 1:
        yield Flag(
            "nothing_found",
            "warning",
            f"no pattern was found that holds, nor with this method's remedies; {_air_alone(job, first_minimum)}",
        )
    if design.remedied:
        text = f"no pattern holds with the options as stated; {design.method.spacing_label(design.layout, job)} does, and is what is shown"
        yield Flag("remedied", "note", text)
    if first_minimum > 1:
        text = f"no spacing helps: {_air_alone(job, first_minimum)}; only a stronger roof or a calmer place on it would"
        yield Flag("no_spacing_helps", "warning", text)


def _air_alone(job: Job, first_minimum: float) -> str:
    """The bound that no layout can go below."""
    word = job.roof.fastening_word
    return f"under the array the air alone asks a {word} for about {first_minimum:.2f} of its allowable, however finely attachments are spread"


def _would_do(weakest: Check) -> str:
    """What the weakest link would have to carry as laid out, where that is one number."""
    if weakest.demand is None or weakest.resistance is None:
        return ""
    must, may = (both(value, weakest.dimension) for value in (weakest.demand, weakest.resistance))
    return f": it would have to carry {must}, and may carry {may}"


def _spans(job: Job, design: Design) -> Iterator[Flag]:
    limits = design.limits
    if limits is None:
        return
    text = span_sentence(job, design.layout.member, limits)
    if limits.member is None:
        yield Flag("member_holds_nowhere", "warning", text)
    elif limits.roof is None:
        yield Flag("roof_holds_nowhere", "warning", text)
    elif limits.member > limits.roof:
        yield Flag("overspan", "warning" if limits.member >= WARNING_RATIO * limits.roof else "caution", text)
