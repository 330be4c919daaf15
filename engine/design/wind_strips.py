"""Strips of a field: modules that may be held alike."""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Ints
from engine.loads.interface import Loads
from engine.mounting.layout import Field, SpacingPattern


def strips_of(field: Field, loads: Loads) -> SpacingPattern:
    """The modules by wind zone and exposure; where the wind treats all alike, by row.

    Returns:
        A pattern of spacing 1 whose strips go from the mildest zone to the harshest, in each the sheltered
        modules first; or from the lowest row over the inner ones to the highest.
    """
    kinds, strip = np.unique(2 * loads.zone + loads.exposed, return_inverse=True)
    if len(kinds) == 1:
        return _by_row(field)
    return SpacingPattern((1,) * len(kinds), strip, tuple(_zone(loads, kind, kinds) for kind in kinds.tolist()))


def _zone(loads: Loads, kind: int, kinds: Ints) -> str:
    """The zone, and where it has modules of both sorts whether these are exposed."""
    zone = f"zone {loads.zone_names[kind // 2]}"
    if (kinds // 2 == kind // 2).sum() < 2:
        return zone
    return f"{zone} exposed" if kind % 2 else f"{zone} sheltered"


def _by_row(field: Field) -> SpacingPattern:
    """The lowest row, the inner ones and the highest: an inner row shares its ribs with neighbours on both sides."""
    place = np.where(field.row == field.row.min(), 0, np.where(field.row == field.row.max(), 2, 1))
    places, strip = np.unique(place, return_inverse=True)
    names = ("lowest row", "inner rows", "highest row")
    return SpacingPattern((1,) * len(places), strip, tuple(names[place] for place in places.tolist()))
