"""Tables as CSV: headings are the column ids, numbers are unrounded, counts are integers."""

from __future__ import annotations

from collections.abc import Sequence

import pandas as pd

from engine.comparison.attachment_schedule import Schedule
from engine.comparison.building_comparison import BuildingComparison
from engine.comparison.compare import Column, Comparison
from engine.export.bill_table import bill_notes, bill_table, building_bill_table
from engine.export.reactions_table import SIGNS, method_reactions_table
from engine.export.stamp import Stamp, harmless
from engine.export.table import Cell, attachments_table, comparison_table
from engine.units import text


def comparison_csv(comparison: Comparison, stamp: Stamp) -> str:
    """The comparison; flags, the stamp, loads and cautions follow as rows of their own."""
    table = comparison_table(comparison, stamp.system)
    flags = [
        {"group": "flag", "figure": flag.severity, column.id: flag.text}
        for column in comparison.columns
        for flag in column.flags
    ]
    first = table.columns[3] if len(table.columns) > 3 else "rail"
    notes = [{"group": group, "figure": name, first: words} for group, name, words in _notes(comparison, stamp)]
    return _csv(_appended(table, [*flags, *notes]))


def _notes(comparison: Comparison, stamp: Stamp) -> list[tuple[str, str, str]]:
    """Group, name and text of the rows below the figures: stamp, loads, cautions."""
    return [
        *(("job", name, words) for name, words in stamp.of(comparison)),
        *(("loads", name, text(value, dimension, stamp.system)) for name, value, dimension in comparison.site),
        *(("caution", "", sentence) for sentence in comparison.cautions),
    ]


def bill_csv(comparison: Comparison, stamp: Stamp) -> str:
    """The bills with subtotals and totals, and what they cover and the stamp in a column of their own beside them."""
    notes = [*stamp.of(comparison), *bill_notes(comparison), *(("caution", words) for words in comparison.cautions)]
    return _csv_about(bill_table(comparison, stamp.system), [f"{name}: {words}" for name, words in notes])


def building_bill_csv(building: BuildingComparison, stamp: Stamp) -> str:
    """The bills of every slope and of all slopes, with what they cover and the stamp beside them."""
    first = building.slopes[0]
    notes = [
        ("title", building.title),
        *stamp.of(first)[1:],
        *bill_notes(first),
        *(("caution", words) for words in building.cautions),
    ]
    return _csv_about(building_bill_table(building, stamp.system), [f"{name}: {words}" for name, words in notes])


def attachments_csv(comparison: Comparison, column: Column, schedule: Schedule, stamp: Stamp) -> str:
    """The attachments of one method, with the stamp in a column of its own beside them.

    Rows below the attachments would leave empty cells, and readers would turn integers into floats.
    """
    about = [f"{name}: {words}" for name, words in stamp.of_method(comparison, column)]
    return _csv_about(attachments_table(column, schedule), about)


def reactions_csv(comparison: Comparison, column: Column, stamp: Stamp) -> str:
    """The reactions of one method for the building's engineer, with signs and stamp in a column of their own."""
    table = method_reactions_table(comparison, column, stamp.system)
    about = [SIGNS, *(f"{name}: {words}" for name, words in stamp.of_method(comparison, column))]
    return _csv_about(table, about)


def _csv_about(table: pd.DataFrame, about: Sequence[str]) -> str:
    """The table with statements about it in a last column."""
    return _csv(table.assign(about=pd.Series(_over_rows(about, len(table)), dtype=object)))


def _over_rows(statements: Sequence[str], count: int) -> list[str | None]:
    """Statements as a column of `count` cells, one a row; the last row takes all that are left over."""
    cells = [*statements[: count - 1], "; ".join(statements[count - 1 :])]
    return [*cells, *[None] * (count - len(cells))][:count]


def _appended(table: pd.DataFrame, rows: Sequence[dict[str, str]]) -> pd.DataFrame:
    """The table with rows below it; integers stay integers."""
    below = pd.DataFrame(rows, columns=table.columns, dtype=object)
    return pd.concat([table.astype(object), below], ignore_index=True)


def _csv(table: pd.DataFrame) -> str:
    safe = {column: pd.Series([_safe(cell) for cell in table[column]], dtype=object) for column in table.columns}
    written: str = pd.DataFrame(safe).to_csv(index=False, lineterminator="\n")
    return written


def _safe(cell: Cell) -> Cell:
    """Text that no spreadsheet takes for a formula."""
    return harmless(cell) if isinstance(cell, str) else cell
