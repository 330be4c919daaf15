"""The columns of tables as people read them: headings, decimals, cells."""

from __future__ import annotations

import math

import pandas as pd

from engine.comparison.compare import Comparison
from engine.export.table import Cell
from engine.units import SHOWN, System, digits

UNIT_DECIMALS = {
    unit: decimals for dimension in ("length", "force", "mass", "time") for unit, decimals in SHOWN[dimension].values()
}
"""Units that end a column's id, and the decimals its numbers are shown with."""

DECIMALS_OF_UNIT = {unit: decimals for shown in SHOWN.values() for unit, decimals in shown.values() if unit}
"""Decimals of a number by the unit in its row; of dimensions that share a unit, those of the last."""

PLAIN_DECIMALS = {"demand": 2, "resistance": 2, "utilisation": 2, "price": 2, "watt": 3, "reaction": 2, "difference": 2}
"""The same for columns without a unit, by the last word of their id."""


MEASURES = ("demand", "resistance", "reaction")
"""Last words of the ids of columns whose rows differ in unit."""


def headings(table: pd.DataFrame, comparison: Comparison) -> list[str]:
    """The headings of a table, in the words of this comparison's roof, methods and currency."""
    job = comparison.scenario.job
    words = {column.id: column.title for column in comparison.columns} | {
        "rib": job.roof.rib_word,
        "unit_price": f"unit price [{job.currency}]",
        **{name: f"{name.replace('_', ' ')} [{job.currency}]" for name in ("price", "labour_price", "total_price")},
        "link": "component",
    }
    return [words.get(column) or _heading(column) for column in table.columns]


def _heading(column: str) -> str:
    """The words of an id, its unit in brackets: `from_rake_ft` becomes "from rake [ft]"."""
    name, _, unit = column.rpartition("_")
    return f"{name.replace('_', ' ')} [{unit}]" if unit in UNIT_DECIMALS else column.replace("_", " ")


def decimals(column: str, comparison: Comparison) -> int | None:
    """Decimals that a column's numbers are shown with; None for words and whole numbers."""
    if any(column == method.id for method in comparison.columns):
        return 2
    last = column.rpartition("_")[2]
    return UNIT_DECIMALS.get(last, PLAIN_DECIMALS.get(last))


def decimals_in_row(column: str, unit_of_row: object, comparison: Comparison) -> int | None:
    """Decimals of a number in a column of measures of several kinds, whose row names the unit; else the column's."""
    of_column = decimals(column, comparison)
    several_kinds = column.rpartition("_")[2] in MEASURES or any(column == each.id for each in comparison.columns)
    return DECIMALS_OF_UNIT.get(str(unit_of_row), of_column) if several_kinds else of_column


def shown(cell: Cell, decimals: int | None, system: System) -> str:
    """A cell as people read it: empty if unknown, counts without decimals."""
    if cell is None or isinstance(cell, str):
        return cell or ""
    if isinstance(cell, int):
        return digits(cell, 0, system)
    if not math.isfinite(cell):
        return ""
    return f"{cell:g}" if decimals is None else digits(cell, decimals, system)
