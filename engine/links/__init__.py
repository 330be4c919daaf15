"""The links of the load path, in order, each checked by one small function.

To add a link: write its file, add it here.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from engine.links.attachment import attachment_ratios, check_attachment
from engine.links.check import Check, Location, governing_of
from engine.links.clamp import check_clamp, clamp_ratios
from engine.links.fixed_point import check_fixed_point
from engine.links.member import check_member
from engine.links.module import check_module
from engine.links.rib import check_bare_rib, check_rib, rib_ratios
from engine.links.roof_fastening import check_bare_fastening, check_roof_fastening, fastening_ratios
from engine.links.structure import check_structure
from engine.load_path.demands import Demands

__all__ = [
    "ASKED_FIRST",
    "LINKS",
    "ROOF_LINKS",
    "Check",
    "Link",
    "Location",
    "attachment_ratios",
    "check_bare_roof",
    "check_member",
    "check_rib",
    "check_roof_fastening",
    "clamp_ratios",
    "fastening_ratios",
    "rib_ratios",
]

Link: TypeAlias = Callable[[Demands], Check]
"""A link of the load path, by the function that checks it."""

LINKS: tuple[Link, ...] = (
    check_module,
    check_clamp,
    check_member,
    check_attachment,
    check_rib,
    check_roof_fastening,
    check_fixed_point,
    check_structure,
)

ASKED_FIRST = (check_roof_fastening, check_fixed_point, check_attachment)
"""Where only whether all hold is asked: these are over most often, and known before anything is bent."""


def check_bare_roof(demands: Demands) -> Check:
    """What the roof has used before any array: the worse of its fastenings and its bending, over the whole slope."""
    return governing_of([check_bare_fastening(demands), check_bare_rib(demands)])


ROOF_LINKS = frozenset({"rib", "roof_fastening"})
"""Seam and fastening: how far attachments may stand apart for their sake is the roof's span limit."""
