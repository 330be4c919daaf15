"""Tables as a spreadsheet: typed numbers, headings that stay in sight, text that is never a formula."""

from __future__ import annotations

import datetime
import io
import math
from collections.abc import Sequence
from typing import Any

import xlsxwriter

from engine.comparison.attachment_schedule import Schedule
from engine.comparison.compare import Column, Comparison
from engine.export import subjects
from engine.export.attachments import attachment_table
from engine.export.stamp import Stamp
from engine.export.table import Cell, Heading, Subject

MAX_WIDTH = 60
FOOTER = "&LPreliminary: a licensed engineer and the local code decide.&Rpage &P of &N"
MAX_PROPERTY = 200
"""Longest title in a file's properties; the whole one stands in the sheet."""


def comparison_workbook(comparison: Comparison, stamp: Stamp) -> bytes:
    """A sheet for every subject of a comparison."""
    system = stamp.system
    sheets = (
        subjects.figures(comparison, system),
        subjects.links(comparison, system),
        subjects.bill(comparison, system),
        subjects.every_attachment(comparison),
        subjects.inputs(comparison, system),
        subjects.flags(comparison),
        _about((*stamp.of(comparison), *(("caution", words) for words in comparison.cautions))),
    )
    return _workbook(comparison, stamp, sheets)


def attachments_workbook(comparison: Comparison, column: Column, schedule: Schedule, stamp: Stamp) -> bytes:
    """The attachments of one method."""
    subject = attachment_table(column, schedule, comparison.scenario.job.roof.rib_word)
    return _workbook(comparison, stamp, (subject, _about(stamp.of_method(comparison, column))))


def _about(said: Sequence[tuple[str, str]]) -> Subject:
    return Subject("about", (Heading("what"), Heading("says")), said)


def _workbook(comparison: Comparison, stamp: Stamp, sheets: Sequence[Subject]) -> bytes:
    written = io.BytesIO()
    book = xlsxwriter.Workbook(written, {"in_memory": True})
    created = datetime.datetime.combine(stamp.date, datetime.time())
    book.set_properties({"title": comparison.title[:MAX_PROPERTY], "comments": stamp.version, "created": created})
    bold = book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top"})
    for subject in sheets:
        _sheet(book, subject, bold)
    book.close()
    return written.getvalue()


def _sheet(book: Any, subject: Subject, bold: Any) -> None:
    sheet = book.add_worksheet(subject.name)
    sheet.freeze_panes(1, 2 if len(subject.headings) > 2 else 1)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0)
    sheet.set_footer(FOOTER)
    for place, heading in enumerate(subject.headings):
        shown = book.add_format({"num_format": _pattern(heading.decimals)})
        sheet.set_column(place, place, _width(subject, place), shown)
        sheet.write_string(0, place, heading.title, bold)
    for line, row in enumerate(subject.rows, 1):
        for place, cell in enumerate(row):
            _write(sheet, line, place, cell)


def _pattern(decimals: int | None) -> str:
    return "General" if decimals is None else "#,##0" + ("." + "0" * decimals if decimals else "")


def _write(sheet: Any, line: int, place: int, cell: Cell) -> None:
    """A number as a number, words as words, nothing for what is not known."""
    if isinstance(cell, str):
        sheet.write_string(line, place, cell)
    elif cell is not None and math.isfinite(cell):
        sheet.write_number(line, place, cell)


def _width(subject: Subject, place: int) -> int:
    longest = max((len(row[place]) if isinstance(row[place], str) else 8 for row in subject.rows), default=8)  # type: ignore[arg-type]
    return min(MAX_WIDTH, max(longest, min(14, len(subject.headings[place].title))) + 2)
