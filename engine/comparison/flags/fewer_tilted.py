"""A note that explains a tilted method with fewer attachments than one parallel to the roof."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engine.common.sentences import capitalized
from engine.comparison.flags.flag import Flag
from engine.design.design import Design
from engine.units import both


def flags(designs: Sequence[Design]) -> Iterator[tuple[Design, Flag]]:
    """A flag for each tilted method that holds, beside the parallel one that holds with the next larger number."""
    holding = [design for design in designs if design.candidate and design.status.nothing_over]
    for tilted in (design for design in holding if design.field.attitude.tilt):
        parallel = [design for design in holding if not design.field.attitude.tilt and _count(design) > _count(tilted)]
        if parallel:
            yield tilted, Flag("fewer_though_tilted", "note", _text(tilted, min(parallel, key=_count)))


def _text(tilted: Design, parallel: Design) -> str:
    """The numbers, and why: the minimum by rule of practice, more load on each, or less in all."""
    few, many = _count(tilted), _count(parallel)
    lead = f"{capitalized(tilted.title)} needs fewer attachments than {parallel.title}, {few} instead of {many}"
    if many == parallel.field.minimum_attachments:
        runs = f"{parallel.field.runs} unbroken runs of modules, the {tilted.title} {tilted.field.runs}"
        return f"{lead}: {many} is the minimum by rule of practice; {parallel.title} have {runs}"
    (mean, total), (other_mean, other_total) = _uplift(tilted), _uplift(parallel)
    if mean > other_mean:
        each, other = both(mean, "force"), both(other_mean, "force")
        return f"{lead}: each carries more, {each} uplift in the mean instead of {other}"
    return f"{lead}: they carry less uplift in all, {both(total, 'force')} instead of {both(other_total, 'force')}"


def _uplift(design: Design) -> tuple[float, float]:
    """Mean and sum of the largest uplift of all attachments [N]."""
    assert design.candidate
    uplift = design.candidate.demands.attachment_up
    return float(uplift.mean()), float(uplift.sum())


def _count(design: Design) -> int:
    return len(design.layout.attachments)
