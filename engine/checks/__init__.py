"""The links of the load path, in order, each checked by one small function.

To add a link: write its file, add it here.
"""

from __future__ import annotations

from collections.abc import Callable

from engine.checks.attachment import asked_of_attachments, check_attachment
from engine.checks.check import Check, Place, worst_of
from engine.checks.clamp import asked_of_clamps, check_clamp
from engine.checks.fixed_point import check_fixed_point
from engine.checks.member import check_member
from engine.checks.module import check_module
from engine.checks.rib import asked_of_ribs, check_bare_rib, check_rib
from engine.checks.roof_fastening import asked_of_fastenings, check_bare_fastening, check_roof_fastening
from engine.checks.structure import check_structure
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout

__all__ = [
    "LINKS",
    "ROOF_LINKS",
    "Check",
    "Place",
    "asked_of_attachments",
    "asked_of_clamps",
    "asked_of_fastenings",
    "asked_of_ribs",
    "check_bare_roof",
]

LINKS: tuple[Callable[[Job, Field, Layout, Demands], Check], ...] = (
    check_module,
    check_clamp,
    check_member,
    check_attachment,
    check_rib,
    check_roof_fastening,
    check_fixed_point,
    check_structure,
)


def check_bare_roof(job: Job, demands: Demands) -> Check:
    """What the roof has used before any array: the worse of its fastenings and its bending, over the whole slope."""
    return worst_of([check_bare_fastening(job, demands), check_bare_rib(job, demands)])


ROOF_LINKS = frozenset({"rib", "roof_fastening"})
"""Seam and fastening: how far attachments may stand apart for their sake is the roof's span limit."""
