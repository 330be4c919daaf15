"""How it is laid out: too few points, too near an edge or a clip, held where consent is needed, long ends."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from engine.comparison.flags.flag import Flag
from engine.design.design import Design
from engine.mounting.lines_along_eave import support_word
from engine.project.job import Job
from engine.statics.rib_supports import group_ribs
from engine.units import both


def flags(job: Job, design: Design) -> Iterator[Flag]:
    """In the order they are told."""
    yield from _too_few(design)
    yield from _setbacks(job, design)
    yield from _lost(design)
    yield from _consent(job, design)
    yield from _long_ends(job, design)
    yield from _near_clips(job, design)


def _too_few(design: Design) -> Iterator[Flag]:
    attachments, minimum = len(design.layout.attachments), design.field.minimum_attachments
    if attachments < minimum:
        text = f"{attachments} attachments, below the count rule's {minimum}: two a module plus the edges (common practice, no source)"
        yield Flag("below_count_rule", "warning", text)


def _setbacks(job: Job, design: Design) -> Iterator[Flag]:
    """Modules nearer to an edge than the stated setbacks allow."""
    stated, at, building = job.array.setbacks, design.field.outlines, job.building
    for name, least, away in (
        ("eave", stated.eave, at.low),
        ("ridge" if building.has_ridge else "high edge", stated.ridge, building.slope_length - at.high),
        (f"{building.side_word}s", stated.rakes, np.minimum(*building.from_sides(at.left, at.right, at.high))),
    ):
        inside = int((away < least - 1e-6).sum())
        if inside:
            asked, nearest = both(least, "length"), both(float(away.min()), "length")
            text = f"{inside} modules come nearer to the {name} than the stated setback of {asked}, the nearest to {nearest}"
            yield Flag("setback", "caution", text)


def _lost(design: Design) -> Iterator[Flag]:
    if design.field.lost:
        yield Flag("modules_lost", "note", f"{design.field.lost} modules gave way to keep-clear areas")


def _consent(job: Job, design: Design) -> Iterator[Flag]:
    """Where modules are held otherwise than their makers usually allow."""
    asked = "the module maker's consent must be obtained"
    if design.layout.member.section is None:
        yield Flag("edge_consent", "caution", f"module edges stand where ribs cross, seldom in the clamp zone: {asked}")
    elif design.field.attitude.chord < design.field.attitude.long_side and not design.layout.member.up:
        yield Flag("edge_consent", "caution", f"modules are clamped at their short sides: {asked}")
    elif _outside_clamp_zone(job, design):
        near, far = (both(place, "small length") for place in job.module.clamp_zone)
        text = f"some {design.layout.member.title}s hold modules outside the stated clamp zone, {near} to {far} from a corner: {asked}"
        yield Flag("edge_consent", "caution", text)


def _outside_clamp_zone(job: Job, design: Design) -> bool:
    """Whether any line clamps modules elsewhere than in the stretch their maker names, as a third one at their middle does."""
    at, (near, far) = design.field.outlines, job.module.clamp_zone
    low, high = (at.left, at.right) if design.layout.member.up else (at.low, at.high)
    for lines in design.layout.lines:
        module = lines.module[:, 0]
        corner = np.minimum(lines.across - low[module], high[module] - lines.across)
        if ((corner < near - 1e-6) | (corner > far + 1e-6)).any():
            return True
    return False


def _long_ends(job: Job, design: Design) -> Iterator[Flag]:
    """Where even the outermost rib leaves a longer end than the stated part of the span beside it."""
    section = job.hardware.section(design.layout.member.section)
    if section is None:
        return
    excess = []
    for lines in design.layout.lines:
        x = design.layout.supports(lines)
        for overhang, span in ((x[0] - lines.start, x[1] - x[0]), (lines.end - x[-1], x[-1] - x[-2])):
            if overhang > section.cantilever_ratio * span + 1e-6:
                excess += [(float(overhang), float(span))] * len(lines)
    if excess:
        overhang, span = (both(length, "length") for length in max(excess))
        text = (
            f"{len(excess)} ends reach farther than {section.cantilever_ratio:.2f} of the span beside them (the worst {overhang} "
            f"past a span of {span}): the outermost {support_word(job, design.layout.member)} leaves no less; their bending is checked"
        )
        yield Flag("cantilever", "note", text)


def _near_clips(job: Job, design: Design) -> Iterator[Flag]:
    """Clamps closer to a floating clip than the stated clearance."""
    clearance = job.hardware.clip_clearance
    if not clearance or not job.roof.floats:
        return
    attachments, (_, rib_groups) = design.layout.attachments, group_ribs(job)
    away = np.full(len(attachments), np.inf)
    for these in rib_groups:
        here = np.isin(attachments.rib, these.ribs)
        away[here] = np.abs(attachments.y[here, None] - these.y).min(axis=1)
    close = int((away < clearance - 1e-9).sum())
    if close:
        asked = both(clearance, "small length")
        text = f"{close} attachments stand closer to a clip than the {asked} asked for: they may lock the panel there"
        yield Flag("near_clip", "caution", text)
