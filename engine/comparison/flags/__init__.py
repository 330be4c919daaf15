"""Warnings, cautions and notes about a design, and about the designs of all methods beside one another."""

from __future__ import annotations

from collections.abc import Sequence

from engine.comparison.flags import (
    assumptions,
    closer_spacing,
    fewer_tilted,
    largest_load,
    layout_rules,
    placement,
    snow_shedding,
    unequal_arrays,
    verdict,
)
from engine.comparison.flags.flag import Flag
from engine.design.design import Design

__all__ = ["Flag", "flags_between", "flags_of"]

RANK = {"warning": 0, "caution": 1, "note": 2}

OF_ONE = (verdict, closer_spacing, placement, layout_rules, snow_shedding, assumptions)
BETWEEN = (unequal_arrays, fewer_tilted, largest_load)


def flags_of(design: Design) -> tuple[Flag, ...]:
    """All flags of one design, warnings first."""
    found = [flag for part in OF_ONE for flag in part.flags(design.job, design)]
    return tuple(sorted(found, key=lambda flag: RANK[flag.severity]))


def flags_between(designs: Sequence[Design]) -> list[tuple[Design, Flag]]:
    """Flags that compare the designs of all methods, each with the design that it is about."""
    return [found for part in BETWEEN for found in part.flags(designs)]
