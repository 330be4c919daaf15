"""Tables as CSV: comment rows, then one row of column ids, then rows of which each column holds one kind of value.

Comment rows begin with "#", which readers can be told to skip; text is in quotes, so that a "#" in it begins none.
Numbers are rounded to seven digits, money at least to cents: JSON has all digits. No cell begins a formula.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator

import pandas as pd

from engine.comparison.attachment_schedule import Schedule
from engine.comparison.building_comparison import BuildingComparison
from engine.comparison.compare import Column, Comparison
from engine.export.bill_table import bill_notes, bill_table, building_bill_table
from engine.export.building_tables import building_schedule_table, totals_table
from engine.export.flag_sections import flag_sections
from engine.export.reactions_table import SIGNS, method_reactions_table
from engine.export.stamp import FORMULA_SIGNS, Stamp, harmless
from engine.export.table import Cell, alternatives_table, attachments_table, comparison_table
from engine.units import text

READING = "rows that begin with # are comments: pandas.read_csv(file, comment='#') skips them"
"""First comment of every file."""

DIGITS, CENTS = 7, 2
"""Digits of a number, and its least number of decimals."""

Statements = Iterable[tuple[str, str]]


def comparison_csv(comparison: Comparison, stamp: Stamp) -> str:
    """The comparison; its stamp, loads, flags and cautions are comments."""
    statements = [
        *stamp.of(comparison),
        *((name, text(value, dimension, stamp.system)) for name, value, dimension in comparison.site),
        *((f"{title}, {flag.severity}", flag.text) for title, flags in flag_sections(comparison) for flag in flags),
        *(("caution", sentence) for sentence in comparison.cautions),
    ]
    return written(comparison_table(comparison, stamp.system), statements)


def bill_csv(comparison: Comparison, stamp: Stamp) -> str:
    """The bills with subtotals and totals."""
    notes = [*stamp.of(comparison), *bill_notes(comparison), *(("caution", words) for words in comparison.cautions)]
    return written(bill_table(comparison, stamp.system), notes)


def alternatives_csv(comparison: Comparison, stamp: Stamp) -> str:
    """The alternatives, ranked."""
    return written(alternatives_table(comparison), stamp.of(comparison))


def building_bill_csv(building: BuildingComparison, stamp: Stamp) -> str:
    """The bills of every slope and of all slopes."""
    notes = [*_of_building(building, stamp), *bill_notes(building.slopes[0])]
    return written(building_bill_table(building, stamp.system), notes)


def totals_csv(building: BuildingComparison, stamp: Stamp) -> str:
    """Every method by slope and in total."""
    return written(totals_table(building, stamp.system), _of_building(building, stamp))


def building_attachments_csv(building: BuildingComparison, stamp: Stamp) -> str:
    """The attachments of all slopes and methods."""
    return written(building_schedule_table(building), _of_building(building, stamp))


def _of_building(building: BuildingComparison, stamp: Stamp) -> list[tuple[str, str]]:
    return [*stamp.of_building(building), *(("caution", words) for words in building.cautions)]


def attachments_csv(comparison: Comparison, column: Column, schedule: Schedule, stamp: Stamp) -> str:
    """The attachments of one method."""
    return written(attachments_table(column, schedule), stamp.of_method(comparison, column))


def reactions_csv(comparison: Comparison, column: Column, stamp: Stamp) -> str:
    """The reactions of one method for the building's engineer."""
    about = (("signs", SIGNS), *stamp.of_method(comparison, column))
    return written(method_reactions_table(comparison, column, stamp.system), about)


def written(table: pd.DataFrame, statements: Statements) -> str:
    """A table as CSV, below statements about it."""
    return "".join(f"{line}\n" for line in (*_comments(statements), *_rows(table)))


def _comments(statements: Statements) -> Iterator[str]:
    yield f"# {READING}"
    for name, words in statements:
        yield f"# {_harmless_row(f'{name}: {words}')}"


def _harmless_row(words: str) -> str:
    """One line of which no part that a spreadsheet might take for a cell begins a formula.

    Some take semicolons for the ends of cells, and quotes within such a cell for letters.
    """
    return re.sub(rf'([,;]\s*)(?=["{re.escape(FORMULA_SIGNS)}])', r"\1'", " ".join(words.split()))


def _rows(table: pd.DataFrame) -> Iterator[str]:
    yield ",".join(_cell(str(column)) for column in table.columns)
    for cells in zip(*(table[column].tolist() for column in table.columns), strict=True):
        yield ",".join(map(_cell, cells))


def _cell(cell: Cell) -> str:
    """Text in quotes, a rounded number, or nothing for an unknown value."""
    if isinstance(cell, str):
        return '"' + harmless(_harmless_row(cell)).replace('"', '""') + '"'
    if cell is None or not math.isfinite(cell):
        return ""
    return str(cell) if isinstance(cell, int) else _number(cell)


def _number(value: float) -> str:
    decimals = DIGITS if value == 0 else max(CENTS, DIGITS - 1 - math.floor(math.log10(abs(value))))
    return f"{round(value, decimals) + 0.0:.15g}"
