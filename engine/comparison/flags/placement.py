"""Flags about the place of the array on the roof: how accurately it is set out, and what is not surveyed."""

from __future__ import annotations

from collections.abc import Iterator

from engine.comparison.flags.flag import Flag
from engine.design.design import Design
from engine.design.elsewhere import largest_offset
from engine.project.job import Job
from engine.units import both


def flags(job: Job, design: Design) -> Iterator[Flag]:
    """The flags, in reading order."""
    yield from _not_within_tolerance(design)
    yield from _not_surveyed(job, design)


def _not_within_tolerance(design: Design) -> Iterator[Flag]:
    """A layout that holds only where the array is set out exactly."""
    within = design.within_tolerance
    if within is None or within.status.nothing_over:
        return
    off = both(largest_offset(design), "small length")
    result = f"the {within.component} reaches {within.utilisation:.2f}" if within.component else "it cannot be built"
    text = f"Holds only if set out exactly: up to {off} off, {result}. Attach it more closely, or move the array"
    yield Flag("tolerance", "warning", text)


def _not_surveyed(job: Job, design: Design) -> Iterator[Flag]:
    """A roof of which nobody has stated where its ribs or supports are."""
    if design.places_tried == 1:
        return
    roof = job.roof
    places = [f"the first {roof.rib_word} {both(roof.first_rib, 'small length')} from the rake"]
    if roof.first_bay is not None:
        places.append(f"the first bay at the eave {both(roof.first_bay, 'length')}")
    text = (
        f"Places of {roof.rib_word}s or supports are not surveyed: shown is the worst of {design.places_tried} that "
        f"were tried, {' and '.join(places)}. After the survey state roof.first_rib and roof.first_support"
    )
    yield Flag("not_surveyed", "caution", text)
