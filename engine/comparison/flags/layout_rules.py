"""Flags about the layout: too few attachments, too near an edge or a clip, consent needed, long overhangs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.common.tolerances import SAME_LENGTH, SUMMED_LENGTH
from engine.comparison.flags.flag import Flag
from engine.design.design import Design
from engine.mounting.holding import find_holding
from engine.mounting.lines_along_eave import support_word
from engine.mounting.places import places_along_eave
from engine.project.job import Job
from engine.project.module import SHORT
from engine.statics.rib_supports import group_ribs
from engine.units import both

CONSENT = "get the module maker's consent"


def flags(job: Job, design: Design) -> Iterator[Flag]:
    """The flags, in reading order."""
    yield from _too_few(design)
    yield from _setbacks(design)
    yield from _removed(job, design)
    yield from _consent(job, design)
    yield from _overhangs(job, design)
    yield from _near_clips(job, design)
    yield from _pinned(job)


def _too_few(design: Design) -> Iterator[Flag]:
    count, minimum = len(design.layout.attachments), design.field.minimum_attachments
    if count < minimum:
        text = (
            f"{count} attachments, below the minimum of {minimum} by rule of practice: two a module plus the edges "
            "(common practice, no source). Choose a closer spacing, or fewest"
        )
        yield Flag("below_count_rule", "warning", text)


@dataclass(frozen=True, eq=False)
class EdgeDistances:
    """Distances of the modules from one edge of the slope, and the setbacks that their arrays state, (M,) each [m]."""

    edge: str
    distance: Floats
    setback: Floats

    @property
    def inside(self) -> Bools:
        """True for each module within the setback (M,)."""
        return self.distance < self.setback - SUMMED_LENGTH


def distances_to_edges(design: Design) -> Iterator[EdgeDistances]:
    """The modules' distances from each edge of the slope."""
    field, building = design.field, design.job.building
    at, stated = field.outlines, [array.setbacks for array in field.arrays]
    distances = {
        "eave": ("eave", at.low),
        "ridge": ("ridge" if building.has_ridge else "high edge", building.slope_length - at.high),
        "rakes": (f"{building.side_word}s", np.minimum(*building.from_sides(at.left, at.right, at.high))),
    }
    for key, (name, distance) in distances.items():
        yield EdgeDistances(name, distance, np.array([getattr(setbacks, key) for setbacks in stated])[field.array])


def _setbacks(design: Design) -> Iterator[Flag]:
    """Modules nearer to an edge than the stated setback."""
    for edge in distances_to_edges(design):
        inside, name = int(edge.inside.sum()), edge.edge
        if inside:
            required = both(float(edge.setback[edge.inside].max()), "length")
            nearest = both(float(edge.distance[edge.inside].min()), "length")
            text = (
                f"{inside} modules are nearer to the {name} than the stated setback of {required}; the nearest is "
                f"{nearest} away. Move the array or leave them out"
            )
            yield Flag("setback", "caution", text)


def _removed(job: Job, design: Design) -> Iterator[Flag]:
    if design.field.lost:
        yield Flag("modules_lost", "note", f"{design.field.lost} modules removed for keep-clear areas")
    if design.field.bridging:
        text = (
            f"{design.field.bridging} modules removed: they would bridge an end lap or expansion step, where panels "
            "move. Move the array up or down the slope to lose fewer"
        )
        yield Flag("modules_at_end_laps", "caution", text)
    if job.roof.end_laps and design.candidate:
        text = f"The {job.roof.rib_word}s are taken as continuous beams across end laps; a step in them is weaker"
        yield Flag("end_laps", "caution", text)


def _consent(job: Job, design: Design) -> Iterator[Flag]:
    """Modules held in another way than their maker's ratings say, or than makers usually allow."""
    member, module, holding = design.layout.member, job.module, find_holding(design.field, design.layout)
    near, far = (both(place, "small length") for place in module.clamp_zone)
    count = f"of {design.field.modules} modules are"
    if module.ratings:
        unrated = ~np.any([holding.rated_by(row) for row in module.ratings], axis=0)
        text = f"{unrated.sum()} {count} held outside the maker's ratings" if unrated.any() else ""
    elif holding.side == SHORT:
        text = "Modules are clamped at their short sides"
    elif member.section is None:
        outside = ~holding.within(module.clamp_zone)
        place = f"at the {places_along_eave(job).words}, outside the clamp zone of {near} to {far} from a corner"
        text = f"{outside.sum()} {count} held {place}" if outside.any() else ""
    elif _outside_clamp_zone(job, design):
        text = f"Some {member.title}s hold modules outside the clamp zone of {near} to {far} from a corner"
    else:
        return
    if text:
        yield Flag("edge_consent", "caution", f"{text}: {CONSENT}")


def _outside_clamp_zone(job: Job, design: Design) -> bool:
    """True if a line clamps modules outside the maker's zone, as a third rail at their middle does."""
    at, (near, far) = design.field.outlines, job.module.clamp_zone
    low, high = (at.left, at.right) if design.layout.member.runs_up_slope else (at.low, at.high)
    for lines in design.layout.lines:
        module = lines.module[:, 0]
        from_corner = np.minimum(lines.across - low[module], high[module] - lines.across)
        if ((from_corner < near - SUMMED_LENGTH) | (from_corner > far + SUMMED_LENGTH)).any():
            return True
    return False


def _overhangs(job: Job, design: Design) -> Iterator[Flag]:
    """Overhangs longer than the stated part of the adjacent span, where no rib is farther out."""
    section = job.hardware.section(design.layout.member.section)
    if section is None:
        return
    excess = []
    for lines in design.layout.lines:
        x = design.layout.supports(lines)
        for overhang, span in ((x[0] - lines.start, x[1] - x[0]), (lines.end - x[-1], x[-1] - x[-2])):
            if overhang > section.cantilever_ratio * span + SUMMED_LENGTH:
                excess += [(float(overhang), float(span))] * len(lines)
    if excess:
        overhang, span = (both(length, "length") for length in max(excess))
        word = support_word(job, design.layout.member)
        text = (
            f"{len(excess)} overhangs exceed {section.cantilever_ratio:.2f} of the adjacent span; the longest is "
            f"{overhang} beyond a span of {span}. No {word} is farther out; their bending is checked"
        )
        yield Flag("cantilever", "note", text)


def _near_clips(job: Job, design: Design) -> Iterator[Flag]:
    """Attachments closer to a floating clip than the stated clearance."""
    clearance = job.hardware.clip_clearance
    if not clearance or not job.roof.floats or job.hardware.bypasses_sheet:
        return
    attachments, (_, groups) = design.layout.attachments, group_ribs(job)
    distance = np.full(len(attachments), np.inf)
    for group in groups:
        here = np.isin(attachments.rib, group.ribs)
        distance[here] = np.abs(attachments.y[here, None] - group.y).min(axis=1)
    close = int((distance < clearance - SAME_LENGTH).sum())
    if close:
        text = (
            f"{close} attachments are closer to a clip than the stated {both(clearance, 'small length')} and may lock "
            "the panel there. Move the array up or down the slope"
        )
        yield Flag("near_clip", "caution", text)


def _pinned(job: Job) -> Iterator[Flag]:
    """Screws through a floating panel fix it."""
    if job.roof.floats and job.hardware.pierces:
        text = (
            f"Brackets on {job.hardware.kind.stands_on} are screwed through panels that float on their clips: no panel "
            "can move by heat where it is screwed. Get the roof maker's consent, or use seam clamps"
        )
        yield Flag("pins_panel", "caution", text)
