"""External pressure coefficients cpe,10 and cpe,1 of roofs, EN 1991-1-4 tables 7.2 to 7.4b, as data.

A row of a table is a pair (cpe,10, cpe,1). Between rows both are linear in the slope, or in the height of a parapet;
rows of negative and of positive pressure are tables of their own, so that only values of one sign are interpolated.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from engine.common.calculation import CalculationStep, Recorder, Reference, Term
from engine.loads.en1991.references import WIND, clause

Pair = tuple[float, float]
Table = Mapping[str, tuple[Pair, ...]]


def _same(*values: float) -> tuple[Pair, ...]:
    """Rows whose two coefficients are equal: one number in the table."""
    return tuple((value, value) for value in values)


SLOPES = (5.0, 15.0, 30.0, 45.0)
"""Slopes of the rows of every table but that of flat roofs [deg]."""

STEEPEST = SLOPES[-1]

PARAPETS = (0.0, 0.025, 0.05, 0.10)
"""Height of the parapet over that of the roof, rows of the flat roof; 0 is a sharp eave."""

FLAT: Table = {
    "F": ((-1.8, -2.5), (-1.6, -2.2), (-1.4, -2.0), (-1.2, -1.8)),
    "G": ((-1.2, -2.0), (-1.1, -1.8), (-0.9, -1.6), (-0.8, -1.4)),
    "H": ((-0.7, -1.2),) * 4,
    "I": _same(*(-0.2,) * 4),
}
FLAT_DOWN: Table = {"I": _same(*(0.2,) * 4)}

WINDWARD: Table = {
    "F": ((-1.7, -2.5), (-0.9, -2.0), (-0.5, -1.5), (0.0, 0.0)),
    "G": ((-1.2, -2.0), (-0.8, -1.5), (-0.5, -1.5), (0.0, 0.0)),
    "H": ((-0.6, -1.2), *_same(-0.3, -0.2, 0.0)),
}
"""Wind on the eave of one slope or of two."""

WINDWARD_DOWN: Table = {
    "F": _same(0.0, 0.2, 0.7, 0.7),
    "G": _same(0.0, 0.2, 0.7, 0.7),
    "H": _same(0.0, 0.2, 0.4, 0.6),
}

LEEWARD: Table = {
    "J": ((-0.6, -0.6), (-1.0, -1.5), *_same(-0.5, -0.3)),
    "I": _same(-0.6, -0.4, -0.4, -0.2),
}
LEEWARD_DOWN: Table = {"J": _same(0.2, 0.0, 0.0, 0.0)}
"""J at 15 deg and more: 0 in most sources, 0.2 and 0.5 in one."""

HIGH_EAVE: Table = {
    "F": ((-2.3, -2.5), (-2.5, -2.8), (-1.1, -2.3), (-0.6, -1.3)),
    "G": ((-1.3, -2.0), (-1.3, -2.0), (-0.8, -1.5), (-0.5, -1.0)),
    "H": ((-0.8, -1.2), (-0.9, -1.2), *_same(-0.8, -0.8)),
}
"""Wind on the high edge of one slope. G and H at 45 deg differ between sources: the larger suction counts."""

MONOPITCH_ALONG: Table = {
    "Fup": ((-2.1, -2.6), (-2.4, -2.9), (-2.1, -2.9), (-1.5, -2.4)),
    "Flow": ((-2.1, -2.4), (-1.6, -2.4), (-1.3, -2.0), (-1.3, -2.0)),
    "G": ((-1.8, -2.0), (-1.9, -2.5), (-1.5, -2.0), (-1.4, -2.0)),
    "H": ((-0.6, -1.2), (-0.8, -1.2), (-1.0, -1.3), (-1.0, -1.3)),
    "I": ((-0.5, -0.5), (-0.7, -1.2), (-0.8, -1.2), (-0.9, -1.2)),
}
"""Wind on a rake of one slope."""

DUOPITCH_ALONG: Table = {
    "F": ((-1.6, -2.2), (-1.3, -2.0), (-1.1, -1.5), (-1.1, -1.5)),
    "G": ((-1.3, -2.0), (-1.3, -2.0), (-1.4, -2.0), (-1.4, -2.0)),
    "H": ((-0.7, -1.2), (-0.6, -1.2), (-0.8, -1.2), (-0.9, -1.2)),
    "I": _same(-0.6, -0.5, -0.5, -0.5),
}
"""Wind on a gable end."""

NUMBER: Mapping[str, str] = MappingProxyType({"flat": "table 7.2", "monopitch": "table 7.3", "duopitch": "table 7.4"})


@dataclass(frozen=True)
class Coefficient:
    """cpe,10 and cpe,1 of one zone, between two rows of its table.

    Args:
        rows: the row below and the row above.
        at: their slopes [deg], or parapet heights over roof height.
        value: the roof's own.
        reference: the table.
    """

    rows: tuple[Pair, Pair]
    at: tuple[float, float]
    value: float
    reference: Reference

    @property
    def pair(self) -> Pair:
        """cpe,10 and cpe,1."""
        part = (self.value - self.at[0]) / (self.at[1] - self.at[0])
        ten, one = (low + (high - low) * part for low, high in zip(*self.rows, strict=True))
        return ten, one

    def record(self, zone: str, record: Recorder) -> None:
        """Record both coefficients, as interpolated between the rows."""
        below, above = self.at
        for symbol, low, high, result in zip(("cpe10", "cpe1"), *self.rows, self.pair, strict=True):
            terms = {"low": Term(low), "high": Term(high), "a": Term(self.value), "a1": Term(below), "a2": Term(above)}
            equation = "low + (high - low) * (a - a1) / (a2 - a1)"
            meaning = f"{symbol[:3]},{symbol[3:]} of zone {zone}, between two rows"
            record(CalculationStep(symbol, meaning, Term(result), equation, terms, self.reference))


def coefficient(roof: str, rows: tuple[Pair, ...], value: float) -> Coefficient:
    """The coefficient of a zone for a slope [deg], or on a flat roof for a parapet height over roof height.

    Args:
        roof: "flat", "monopitch" or "duopitch".
        rows: those of the zone's table.
        value: within the table's range; a higher parapet counts as the highest one.
    """
    at = PARAPETS if roof == "flat" else SLOPES
    value = min(value, at[-1])
    above = int(np.clip(np.searchsorted(at, value), 1, len(at) - 1))
    pair = rows[above - 1], rows[above]
    return Coefficient(pair, (at[above - 1], at[above]), value, clause(WIND, NUMBER[roof]))
