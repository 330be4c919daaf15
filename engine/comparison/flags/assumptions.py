"""Flags about assumptions: placeholder strengths, weight on members nobody reviewed, components not checked."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from engine.comparison.flags.flag import Flag
from engine.design.design import Design
from engine.design.placeholders import placeholder_strengths, strengths_used
from engine.links.unchecked import in_words
from engine.loads.interface import Loads
from engine.mounting.layout import Member, Rectangles
from engine.project.job import Job
from engine.project.roof import PER_FOOT
from engine.units import both

NOTABLE_WEIGHT = 0.05
"""Part of added gravity load from which existing members are usually reviewed (IEBC, from memory)."""


def flags(job: Job, design: Design) -> Iterator[Flag]:
    """The flags, in reading order."""
    yield from _strengths(job, design.layout.member)
    yield from _seam_bending(job, design)
    yield from _weight(job, design)
    yield from _unchecked(design)


def _strengths(job: Job, member: Member) -> Iterator[Flag]:
    """Cautions about the strengths used, and the placeholders among them."""
    for known in strengths_used(job, member):
        for caution in known.cautions:
            yield Flag("strength", "note", f"{known.name.split(',')[0]}: {caution}")
    placeholders = [name for _, name in placeholder_strengths(job, member)]
    if placeholders:
        text = f"Placeholder strengths used for {'; '.join(placeholders)}. Put in the makers' values"
        yield Flag("invented_strengths", "note", text)


def _seam_bending(job: Job, design: Design) -> Iterator[Flag]:
    """Allowable moments come from tables in which every rib is loaded."""
    if design.candidate is None or job.hardware.bypasses_sheet:
        return
    roof, source = job.roof, "as stated"
    if roof.panel.moments_for == PER_FOOT:
        source = f"for a foot of width, on {both(roof.loaded_width, 'small length')} that one {roof.rib_word} bends"
    text = (
        f"{roof.rib_word} bending: the allowable moments, {source}, usually come from tables with every "
        f"{roof.rib_word} loaded. One loaded {roof.rib_word} may carry less; ask the roof maker for a test in uplift"
    )
    yield Flag("even_load_table", "note", text)


def _weight(job: Job, design: Design) -> Iterator[Flag]:
    """Added weight against the roof's snow: other loads of the members are not known here."""
    if design.candidate is None:
        return
    added = design.candidate.demands.dead_pressure
    snow = _least_snow(job, design.loads)
    if snow and added > NOTABLE_WEIGHT * snow:
        text = (
            f"The array adds {both(added, 'pressure')}, {added / snow:.0%} of the roof's snow. From 5 % added load on "
            "a member, have an engineer review it (IEBC, from memory)"
        )
        yield Flag("review_structure", "note", text)


def _least_snow(job: Job, loads: Loads) -> float:
    """Largest snow of any case at the corner of the eave and in the middle of the slope, the smaller of both [Pa].

    Drifts at edges then count only if they reach both.
    """
    middle = job.building.length / 2, job.building.slope_length / 2
    x, y = np.array([0.0, middle[0]]), np.array([0.0, middle[1]])
    places, none = Rectangles(x, y, x + 1, y + 1), np.zeros(2)
    cases = (loads.snow_on_roof(case, places) for case in loads.snow_cases)
    return float(np.max([none, *cases], axis=0).min())


def _unchecked(design: Design) -> Iterator[Flag]:
    """Links that are not checked, each with its cure; those shown by others; and loads that need no check."""
    for words, entry in in_words(design.unchecked.still_open):
        text = f"{words} not checked: {entry.reason}. {entry.ask}"
        yield Flag(f"not_checked_{entry.link}", "caution", text[0].upper() + text[1:])
    for words, entry in in_words([each.entry for each in design.unchecked.shown]):
        source = next(each.acceptance.sentence for each in design.unchecked.shown if each.entry == entry)
        yield Flag("shown_by_others", "note", f"{words}: shown by others, not checked here: {source}")
    for link in design.unchecked.unclear:
        text = (
            f"[accepted.{link}] closes nothing: several directions are open. Name one, or list them, as its direction"
        )
        yield Flag("acceptance_unclear", "warning", text)
    for check in design.candidate.checks.values() if design.candidate else ():
        if check.note:
            code = "reported" if check.demand and check.utilisation is None else "no_check_needed"
            yield Flag(code, "note", f"{check.title}: {check.note}")
