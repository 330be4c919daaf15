"""Tables as a spreadsheet: typed numbers, headings that stay in sight, text that is never a formula."""

from __future__ import annotations

import datetime
import io
import math
from collections.abc import Mapping
from functools import cache
from typing import Any

import pandas as pd
import xlsxwriter

from engine.comparison.attachment_schedule import Schedule
from engine.comparison.bill_figures import cheapest
from engine.comparison.building_comparison import BuildingComparison
from engine.comparison.compare import Column, Comparison
from engine.export import table as tables
from engine.export.bill_table import (
    PART,
    bill_notes,
    bill_table,
    building_bill_table,
    cut_list_table,
    cutting_table,
    differences_table,
)
from engine.export.building_tables import building_schedule_table, totals_table
from engine.export.headings import decimals_in_row, headings
from engine.export.reactions_table import SIGNS, method_reactions_table, reactions_table
from engine.export.stamp import Stamp
from engine.export.table import Cell

MAX_WIDTH = 60
FOOTER = "&LPreliminary: a licensed engineer and the local code decide.&Rpage &P of &N"
MAX_PROPERTY = 200
"""Longest title in a file's properties; the sheet "about" has all of it."""


def comparison_workbook(comparison: Comparison, stamp: Stamp) -> bytes:
    """A sheet for every table of a comparison."""
    system = stamp.system
    sheets = {
        "comparison": tables.comparison_table(comparison, system),
        **({"alternatives": tables.alternatives_table(comparison)} if comparison.alternatives else {}),
        "links": tables.links_table(comparison, system),
        "bill": bill_table(comparison, system),
        "attachments": tables.schedule_table(comparison),
        "reactions": reactions_table(comparison, system),
        "inputs": tables.inputs_table(comparison, system),
        "flags": tables.flags_table(comparison),
        "about": _about(*stamp.of(comparison), ("reactions", SIGNS), *bill_notes(comparison), *_cautions(comparison)),
    }
    return _workbook(comparison, stamp, sheets)


def attachments_workbook(comparison: Comparison, column: Column, schedule: Schedule, stamp: Stamp) -> bytes:
    """The attachments of one method, and where it was checked their reactions."""
    sheets = {"attachments": tables.attachments_table(column, schedule)}
    about = stamp.of_method(comparison, column)
    if column.candidate:
        sheets["reactions"] = method_reactions_table(comparison, column, stamp.system)
        about = (*about, ("reactions", SIGNS))
    return _workbook(comparison, stamp, {**sheets, "about": _about(*about)})


def bill_workbook(comparison: Comparison, stamp: Stamp) -> bytes:
    """The bills with subtotals, the bars to cut, the cutting plan, and the differences between methods."""
    system, base = stamp.system, cheapest(comparison)
    against = f"from {base.title if base else 'none'}, the cheapest of those with the best verdict"
    notes = (*bill_notes(comparison), ("differences", against), *_cautions(comparison))
    sheets = {
        "bill": bill_table(comparison, system),
        "cut list": cut_list_table(comparison, system),
        "cutting": cutting_table(comparison, system),
        "differences": differences_table(comparison),
        "about": _about(*stamp.of(comparison), *notes),
    }
    return _workbook(comparison, stamp, sheets)


def building_workbook(building: BuildingComparison, stamp: Stamp) -> bytes:
    """Totals, bills and attachments of all slopes."""
    first = building.slopes[0]
    sheets = {
        "totals": totals_table(building, stamp.system),
        "bill": building_bill_table(building, stamp.system),
        "attachments": building_schedule_table(building),
        "about": _about(*stamp.of_building(building), *bill_notes(first), *_cautions(building)),
    }
    return _workbook(first, stamp, sheets, building.title)


def _cautions(comparison: Comparison | BuildingComparison) -> tuple[tuple[str, str], ...]:
    return tuple(("caution", words) for words in comparison.cautions)


def _about(*statements: tuple[str, str]) -> pd.DataFrame:
    return pd.DataFrame(statements, columns=["subject", "text"], dtype=object)


def _workbook(comparison: Comparison, stamp: Stamp, sheets: Mapping[str, pd.DataFrame], title: str = "") -> bytes:
    """Sheets as a workbook, in the words of a comparison; its title unless another is given."""
    written = io.BytesIO()
    book = xlsxwriter.Workbook(written, {"in_memory": True})
    created = datetime.datetime.combine(stamp.date, datetime.time())
    book.set_properties(
        {"title": (title or comparison.title)[:MAX_PROPERTY], "comments": stamp.version, "created": created}
    )
    writer = _Writer(book, comparison)
    for name, table in sheets.items():
        writer.add_sheet(name, table)
    book.close()
    return written.getvalue()


class _Writer:
    """Writes tables into the sheets of a workbook."""

    def __init__(self, book: Any, comparison: Comparison) -> None:
        self.book, self.comparison = book, comparison
        self.bold = book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top"})
        self.format = cache(lambda pattern, strong: book.add_format({"num_format": pattern, "bold": strong}))

    def add_sheet(self, name: str, table: pd.DataFrame) -> None:
        sheet = self.book.add_worksheet(name)
        sheet.freeze_panes(1, 2 if len(table.columns) > 2 else 1)
        sheet.set_landscape()
        sheet.fit_to_pages(1, 0)
        sheet.repeat_rows(0)
        sheet.set_footer(FOOTER)
        strong = (table["level"] != PART).tolist() if "level" in table else [False] * len(table)
        for place, (column, heading) in enumerate(zip(table.columns, headings(table, self.comparison), strict=True)):
            cells = table[column].tolist()
            sheet.set_column(place, place, _width(heading, cells))
            sheet.write_string(0, place, heading, self.bold)
            units = table["unit"].tolist() if "unit" in table else [""] * len(cells)
            patterns = {unit: _pattern(decimals_in_row(column, unit, self.comparison)) for unit in set(units)}
            for line, (cell, unit) in enumerate(zip(cells, units, strict=True), 1):
                self._write(sheet, line, place, cell, patterns[unit], strong=strong[line - 1])

    def _write(self, sheet: Any, line: int, place: int, cell: Cell, pattern: str, *, strong: bool) -> None:
        """A count as an integer, a measure with its decimals, text as text, an unknown value as an empty cell."""
        if isinstance(cell, str):
            sheet.write_string(line, place, cell, self.format("General", strong))
        elif isinstance(cell, int):
            sheet.write_number(line, place, cell, self.format("General" if pattern == "General" else "#,##0", strong))
        elif cell is not None and math.isfinite(cell):
            sheet.write_number(line, place, cell, self.format(pattern, strong))


def _pattern(decimals: int | None) -> str:
    return "General" if decimals is None else "#,##0" + ("." + "0" * decimals if decimals else "")


def _width(heading: str, cells: list[Cell]) -> int:
    longest = max((len(cell) if isinstance(cell, str) else 8 for cell in cells), default=8)
    return min(MAX_WIDTH, max(longest, min(14, len(heading))) + 2)
