"""Warnings about the verdict: outside a clause, over, no spacing found, a rail that spans more than the roof allows."""

from __future__ import annotations

from collections.abc import Iterator

from engine.common.sentences import capitalized
from engine.common.vocabulary import ALLOWABLES
from engine.comparison.flags.flag import Flag
from engine.design.design import Design
from engine.design.remedies import wind_alone_utilisation
from engine.design.status import Status
from engine.design.verdict import span_sentence
from engine.links import Check, roof_fastening
from engine.project.job import Job
from engine.project.roof import Roof
from engine.units import both

WARNING_RATIO = 1.5
"""Ratio of the two span limits from which the flag is a warning."""


def flags(job: Job, design: Design) -> Iterator[Flag]:
    """The flags, in reading order."""
    yield from _scope(design)
    yield from _strength_needed(job, design)
    yield from _verdict(job, design)
    yield from _spans(job, design)


def _scope(design: Design) -> Iterator[Flag]:
    for limit in design.loads.outside:
        yield Flag("outside_scope", "warning", f"Outside {limit}; nothing is checked")
    for remark in design.loads.remarks:
        yield Flag(remark.code, remark.severity, capitalized(remark.text))


def _strength_needed(job: Job, design: Design) -> Iterator[Flag]:
    """Strength that a roof of unknown strength needs, and the request to its maker."""
    if design.status != Status.STRENGTH_UNKNOWN or design.candidate is None:
        return
    roof, words = job.roof, job.words
    with_array, without = roof_fastening.uplift_needed(design.candidate.demands)
    needed = max(with_array, without)
    text = (
        f"The strength of the {roof.fastening_word} is unknown. With the array the largest uplift on one is "
        f"{both(with_array, 'force')}, without it {both(without, 'force')}. Ask the roof maker for "
        f"{words.a_resistance} of {both(needed, 'force')}{_as_test(roof, needed) if words is ALLOWABLES else ''}"
    )
    yield Flag("strength_unknown", "caution", text)


def _as_test(roof: Roof, needed: float) -> str:
    """The test to failure that shows an allowable [N]."""
    pressure, factor = roof_fastening.pressure_in_test(roof, needed), roof_fastening.TEST_SAFETY_FACTOR
    spacing = f"{both(roof.rib_spacing, 'small length')} x {both(roof.support_spacing, 'length')}"
    return (
        f"; at a safety factor of {factor:g} that is a test to failure of "
        f"{both(factor * needed, 'force')}, or {both(pressure, 'pressure')} at {spacing}"
    )


def _verdict(job: Job, design: Design) -> Iterator[Flag]:
    candidate, alone = design.candidate, design.roof_alone
    if candidate is None or alone is None:
        return
    if not alone.holds:
        text = (
            f"The roof fails without the array: its {alone.title} is at {alone.ratio:.2f} of the "
            f"{job.words.resistance}. No attachment spacing cures that: ask the roof maker or the building's engineer"
        )
        yield Flag("bare_roof_over", "warning", text)
    controlling, wind_alone = candidate.controlling, wind_alone_utilisation(candidate.demands)
    if not controlling.holds:
        yield Flag("over", "warning", _over(job, controlling))
    if design.exhausted and wind_alone <= 1:
        yield Flag(
            "nothing_found",
            "warning",
            "No spacing works here, even staggered, with moved rails or a third rail where the method has them. "
            f"{_wind_alone(job, wind_alone)}. Move the array, or ask for a higher {job.words.resistance}",
        )
    if design.remedied:
        text = f"No spacing works with the options as stated; shown is {design.spacing_label}, which holds"
        yield Flag("remedied", "note", text)
    if design.spared:
        count = len(design.layout.attachments)
        text = (
            f"Shown is {design.spacing_label}, with {count} attachments: {design.spared} fewer than with the usual "
            "options, which stay if they are written in the scenario"
        )
        yield Flag("open_options", "note", text)
    if wind_alone > 1:
        text = (
            f"{_wind_alone(job, wind_alone)}: no spacing helps. Move the array to a zone with less wind, or ask the "
            f"roof maker to show a higher {job.words.resistance}"
        )
        yield Flag("no_spacing_helps", "warning", text)


def _wind_alone(job: Job, utilisation: float) -> str:
    """The lower bound of every layout."""
    word = job.roof.fastening_word
    fastening = f"each {word}" if job.roof.floats else f"the {word} of each place"
    return f"Wind alone uses {utilisation:.0%} of {fastening} under the array, even at the closest spacing"


def _over(job: Job, controlling: Check) -> str:
    """Which component is over, where, in which combination, and by how much."""
    load = "; ".join(
        f"{part.name} {both(part.demand, controlling.dimension)}, "
        f"{job.words.resistance} {both(part.resistance, controlling.dimension)}"
        for part in controlling.loads
    )
    title, cure = controlling.title, f"Change the layout, or have a higher {job.words.resistance} shown"
    where = f"{capitalized(title)} over at {controlling.place.name}"
    return f"{where}: {controlling.ratio:.2f} in {controlling.combination}: {load}. {cure}"


def _spans(job: Job, design: Design) -> Iterator[Flag]:
    limits = design.limits
    if limits is None:
        return
    text = span_sentence(job, design.layout.member, limits)
    if limits.member is None:
        yield Flag("member_holds_nowhere", "warning", f"{text}. Use a stronger rail, or a third one")
    elif limits.roof is None:
        cure = f"Move the array, or have a higher {job.words.resistance} shown"
        yield Flag("roof_holds_nowhere", "warning", f"{text}. {cure}")
    elif limits.member > limits.roof:
        severity = "warning" if limits.member >= WARNING_RATIO * limits.roof else "caution"
        yield Flag("overspan", severity, f"{text}. Space attachments by the roof, not by the rail")
    elif limits.closer_fails:
        yield Flag("closer_spacing_fails", "caution", f"{text}. Use only a spacing that is shown as holding")
