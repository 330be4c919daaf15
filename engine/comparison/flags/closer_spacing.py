"""A note that explains a closer spacing that fails although a wider one holds."""

from __future__ import annotations

from collections.abc import Iterator

from engine.comparison.flags.flag import Flag
from engine.design.closer_failure import LoadedAttachment
from engine.design.design import Design
from engine.project.job import Job
from engine.units import INCH, both

LONG_OVERHANG = 0.25
"""Part of the span beside it from which an overhang counts as the reason (judgement) [-]."""

NEAR_CLAMP = 3 * INCH
"""Distance up to which a module clamp counts as sitting at an attachment (judgement) [m]."""


def flags(job: Job, design: Design) -> Iterator[Flag]:
    """The flag where a closer spacing fails; with the reason where the attachment there is loaded more."""
    found = design.limits.closer if design.limits else None
    if found is None:
        return
    span, wider = both(found.span, "length"), both(found.wider_span, "length")
    place = found.check.place.name.partition(",")[0]
    text = (
        f"Closer is not always safer. Attachments {span} apart: {found.check.title} {found.check.ratio:.2f} at "
        f"{place}; {wider} apart: at most {found.wider_check.ratio:.2f}"
    )
    at = found.attachment
    if at and at.load > at.largest_wider:
        direction = "uplift" if at.is_uplift else "down load"
        loads = both(at.load, "force"), both(at.largest_wider, "force")
        text += f". One attachment there carries {loads[0]} {direction}, {wider} apart none more than {loads[1]}"
        text += _reason(design, at)
    yield Flag("closer_is_worse", "note", text)


def _reason(design: Design, at: LoadedAttachment) -> str:
    """The overhang beyond the attachment, or the clamp at it; empty where there is neither."""
    member = design.layout.member.title
    if at.overhang is not None and at.overhang > LONG_OVERHANG * at.span:
        overhang, span = both(at.overhang, "length"), both(at.span, "length")
        end = "it" if at.is_last else "the last attachment beside it"
        return f": the {member} overhangs {end} by {overhang}, a lever on a span of {span}"
    if at.to_clamp is not None and at.to_clamp <= NEAR_CLAMP:
        return f": a module clamp {both(at.to_clamp, 'small length')} from it loads it almost alone"
    return ""
