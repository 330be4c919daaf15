"""How far it is known: strengths that are assumed or invented, weight on a structure nobody checked, links not checked."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from engine.comparison.flags.flag import Flag
from engine.design.design import Design
from engine.mounting.layout import Member, Rectangles
from engine.project.job import RACK_LEG, Job
from engine.units import both

NOTABLE_WEIGHT = 0.05
"""From this part of added gravity load on, existing members are usually reviewed (IEBC, from memory)."""


def flags(job: Job, design: Design) -> Iterator[Flag]:
    """In the order they are told."""
    yield from _strengths(job, design.layout.member)
    yield from _weight(design)
    yield from _unchecked(design)


def _strengths(job: Job, member: Member) -> Iterator[Flag]:
    """What must be said of the strengths used."""
    used = [known for known in job.strengths if member.legs or known.name != RACK_LEG]
    for known in used:
        for caution in known.cautions:
            yield Flag("strength", "note", f"{known.name.split(',')[0]}: {caution}")
    is_placeholder, section = (
        [known.name for known in used if not known.given and known.capacity],
        job.hardware.section(member.section),
    )
    if section and section.is_placeholder:
        is_placeholder.append(f"{member.title}, bending")
    if is_placeholder:
        yield Flag(
            "invented_strengths",
            "note",
            f"not stated, so the invented hardware set's are used: {'; '.join(is_placeholder)}",
        )


def _weight(design: Design) -> Iterator[Flag]:
    """Added weight against the snow the roof carries: what else it carries is not known here."""
    if design.candidate is None:
        return
    added = design.candidate.demands.dead_pressure
    everywhere = Rectangles(*(np.array([value]) for value in (0.0, 0.0, 1.0, 1.0)))
    snow = max((float(design.loads.snow_on_roof(case, everywhere)[0]) for case in design.loads.snow_cases), default=0.0)
    if snow and added > NOTABLE_WEIGHT * snow:
        of_snow = f"{added / snow:.0%} of the roof's snow"
        usual = "from 5 % added load on a member its review by an engineer is usual (IEBC, from memory)"
        text = f"adds {both(added, 'pressure')}, {of_snow}: {usual}"
        yield Flag("review_structure", "note", text)


def _unchecked(design: Design) -> Iterator[Flag]:
    for check in design.candidate.checks if design.candidate else ():
        if check.note:
            yield Flag(
                f"not_checked_{check.link}" if check.utilisation is None else "partly_checked",
                "note",
                f"{check.title}: {check.note}",
            )
