"""Warnings, cautions and notes about a design."""

from __future__ import annotations

from engine.comparison.flags import assumptions, layout_rules, placement, snow_shedding, verdict
from engine.comparison.flags.flag import Flag
from engine.design.design import Design

__all__ = ["Flag", "flags_of"]

RANK = {"warning": 0, "caution": 1, "note": 2}


def flags_of(design: Design) -> tuple[Flag, ...]:
    """All flags of one design, warnings first."""
    parts = (verdict, placement, layout_rules, snow_shedding, assumptions)
    found = [flag for part in parts for flag in part.flags(design.job, design)]
    return tuple(sorted(found, key=lambda flag: RANK[flag.severity]))
