"""Flags about assumptions: placeholder strengths, weight on members nobody reviewed, components not checked."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from engine.comparison.flags.flag import Flag
from engine.design.design import Design
from engine.mounting.layout import Member, Rectangles
from engine.project.job import RACK_LEG, Job
from engine.units import both

NOTABLE_WEIGHT = 0.05
"""Part of added gravity load from which existing members are usually reviewed (IEBC, from memory)."""


def flags(job: Job, design: Design) -> Iterator[Flag]:
    """The flags, in reading order."""
    yield from _strengths(job, design.layout.member)
    yield from _weight(design)
    yield from _unchecked(design)


def _strengths(job: Job, member: Member) -> Iterator[Flag]:
    """Cautions about the strengths used, and the placeholders among them."""
    used = [known for known in job.strengths if member.legs or known.name != RACK_LEG]
    for known in used:
        for caution in known.cautions:
            yield Flag("strength", "note", f"{known.name.split(',')[0]}: {caution}")
    placeholders = [known.name for known in used if not known.given and known.capacity]
    section = job.hardware.section(member.section)
    if section and section.is_placeholder:
        placeholders.append(f"{member.title}, bending")
    if placeholders:
        text = f"Placeholder strengths used for {'; '.join(placeholders)}. Put in the makers' values"
        yield Flag("invented_strengths", "note", text)


def _weight(design: Design) -> Iterator[Flag]:
    """Added weight against the roof's snow: other loads of the members are not known here."""
    if design.candidate is None:
        return
    added = design.candidate.demands.dead_pressure
    anywhere = Rectangles(*(np.array([value]) for value in (0.0, 0.0, 1.0, 1.0)))
    snow = max((float(design.loads.snow_on_roof(case, anywhere)[0]) for case in design.loads.snow_cases), default=0.0)
    if snow and added > NOTABLE_WEIGHT * snow:
        text = (
            f"The array adds {both(added, 'pressure')}, {added / snow:.0%} of the roof's snow. From 5 % added load on "
            "a member, have an engineer review it (IEBC, from memory)"
        )
        yield Flag("review_structure", "note", text)


def _unchecked(design: Design) -> Iterator[Flag]:
    for check in design.candidate.checks.values() if design.candidate else ():
        if check.note:
            code = f"not_checked_{check.link}" if check.utilisation is None else "partly_checked"
            yield Flag(code, "note", f"{check.title}: {check.note}")
