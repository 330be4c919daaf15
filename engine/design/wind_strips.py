"""Strips of a field whose modules have similar wind loads, so that each strip can have a spacing of its own."""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Ints
from engine.loads.interface import Loads
from engine.mounting.layout import Field, SpacingPattern


def strips_of(field: Field, loads: Loads) -> SpacingPattern:
    """Pattern of spacing 1 with the field divided into strips by wind zone and exposure, or else by row.

    Zones go from the mildest to the harshest, in each the sheltered modules first. If all modules are in one zone and
    equally exposed, the strips are the lowest row, the inner rows and the highest row.
    """
    codes, strip = np.unique(2 * loads.zone + loads.exposed, return_inverse=True)
    if len(codes) == 1:
        return _strips_by_row(field)
    return SpacingPattern((1,) * len(codes), strip, tuple(_zone_name(loads, code, codes) for code in codes.tolist()))


def _zone_name(loads: Loads, code: int, codes: Ints) -> str:
    """Name of a strip's zone, with "exposed" or "sheltered" if the zone has modules of both sorts.

    Args:
        loads: the loads, which name the zones.
        code: twice the number of the zone, plus 1 if exposed.
        codes: codes of all strips.
    """
    zone = f"zone {loads.zone_names[code // 2]}"
    if (codes // 2 == code // 2).sum() < 2:
        return zone
    return f"{zone} exposed" if code % 2 else f"{zone} sheltered"


def _strips_by_row(field: Field) -> SpacingPattern:
    """Strips of the lowest row, the inner rows and the highest row of each array.

    Ribs under an inner row also carry the rows on both sides of it, so its fastenings have the larger loads.
    """
    row_class = np.ones(field.modules, dtype=np.int64)
    for array in np.unique(field.array):
        own = field.array == array
        row_class[own & (field.row == field.row[own].max())] = 2
        row_class[own & (field.row == field.row[own].min())] = 0
    present, strip = np.unique(row_class, return_inverse=True)
    names = ("lowest row", "inner rows", "highest row")
    return SpacingPattern((1,) * len(present), strip, tuple(names[number] for number in present.tolist()))
