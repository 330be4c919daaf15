"""A sheet to print and fill in: its contents as plain data, and the document made from them.

The data name no template, so that another form of paper can be made from the same contents.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Literal

from engine.comparison.compare import Comparison
from engine.export.document import Blanks, Block, Document, Grid, Heading, Words
from engine.export.document_head import document_of
from engine.export.stamp import Stamp
from engine.units import System, feet_and_inches, text

BOX = "☐"
"""A box to tick."""

Kind = Literal["text", "number", "fill", "box"]

ROOM_TO_WRITE = 18
SHORT = 10
"""Letters in a column to be filled in, and in a column of text that needs no more room than it has."""


@dataclass(frozen=True)
class SheetColumn:
    """A column: its heading, and its kind; "fill" has room to write by hand, "box" something to tick."""

    heading: str
    kind: Kind = "text"


@dataclass(frozen=True)
class SheetTable:
    """A table with a title, sentences above it and cells as text; `new_page`: it begins one."""

    title: str
    columns: tuple[SheetColumn, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...] = ()
    new_page: bool = False


@dataclass(frozen=True)
class Sheet:
    """A sheet: its heading, statements on top, labels of lines to be filled in, and tables; `warning` comes first."""

    heading: str
    statements: tuple[str, ...]
    fields: tuple[str, ...]
    tables: tuple[SheetTable, ...]
    warning: str = ""


def sheet_document(sheet: Sheet, comparison: Comparison, stamp: Stamp) -> Document:
    """The sheet as a document, for a page and a PDF.

    Its measures are those of the job, its paper that of the units shown.
    """
    system = comparison.scenario.standard.system
    as_measured = replace(stamp, system=system, both_systems=system == "us")
    return replace(document_of(comparison, as_measured, sheet.heading, tuple(_blocks(sheet))), system=stamp.system)


def _blocks(sheet: Sheet) -> Iterator[Block]:
    if sheet.warning:
        yield Words(sheet.warning, strong=True)
    yield from map(Words, sheet.statements)
    if sheet.fields:
        yield Blanks(sheet.fields)
    for table in sheet.tables:
        yield Heading(table.title, new_page=table.new_page)
        yield from (Words(note, quiet=True) for note in table.notes)
        yield _grid(table)


def _grid(table: SheetTable) -> Grid:
    """A table; text and room to write share the width that numbers, boxes and short words leave."""
    return Grid(
        tuple(column.heading for column in table.columns),
        table.rows,
        numeric=_of_kind(table, "number"),
        widths=tuple(
            _width(column, [row[number] for row in table.rows]) for number, column in enumerate(table.columns)
        ),
        boxes=_of_kind(table, "box"),
        to_fill=_of_kind(table, "fill"),
    )


def _of_kind(table: SheetTable, kind: Kind) -> tuple[int, ...]:
    """Numbers of the columns of one kind."""
    return tuple(number for number, column in enumerate(table.columns) if column.kind == kind)


def _width(column: SheetColumn, cells: Sequence[str]) -> int:
    """The share of a column in the room that is left, by its longest cell; 0: as wide as it is."""
    if column.kind == "fill":
        return ROOM_TO_WRITE
    longest = max(map(len, (column.heading, *cells)))
    return min(longest, 2 * ROOM_TO_WRITE) if column.kind == "text" and longest > SHORT else 0


@dataclass(frozen=True)
class Tape:
    """Lengths on a roof as they are measured there: in feet and inches to 1/8 in beside whole millimetres, or in SI.

    `system`: that of the job; in SI only millimetres are printed.
    """

    system: System

    def cells(self, *values: float) -> tuple[str, ...]:
        """The cells of lengths, one after another."""
        return tuple(cell for value in values for cell in self._shown(value))

    def columns(self, *names: str) -> tuple[SheetColumn, ...]:
        """The headings of these cells."""
        units = ("mm",) if self.system == "si" else ("ft in", "mm")
        return tuple(SheetColumn(f"{name} [{unit}]", "number") for name in names for unit in units)

    @property
    def blank(self) -> tuple[str, ...]:
        """Empty cells in place of one length."""
        return ("",) * len(self.columns(""))

    def words(self, value: float) -> str:
        """A length for sentences: 2' 0" (610 mm)."""
        *tape, metric = self._shown(value)
        return f"{tape[0]} ({metric} mm)" if tape else f"{metric} mm"

    def pieces(self, pieces: Sequence[float]) -> tuple[str, ...]:
        """The cells of lengths one after another, equal ones counted: "2 x 4,267 + 1,773"."""
        runs = [(sum(1 for _ in alike), self._shown(length)) for length, alike in groupby(pieces)]
        sides = range(len(self.blank))
        return tuple(" + ".join(f"{n} x {each[side]}" if n > 1 else each[side] for n, each in runs) for side in sides)

    def _shown(self, value: float) -> tuple[str, ...]:
        metric = text(value, "small length", "si", with_unit=False, style=self.system)
        return (metric,) if self.system == "si" else (feet_and_inches(value), metric)


def listed(numbers: Sequence[int]) -> str:
    """Whole numbers in a list: "21, 22, 24, 25"; three or more in a row that follow one another as "21 to 25"."""
    words, start = list[str](), 0
    for end in range(1, len(numbers) + 1):
        if end == len(numbers) or numbers[end] != numbers[end - 1] + 1:
            run = numbers[start:end]
            words += [f"{run[0]} to {run[-1]}"] if len(run) > 2 else map(str, run)
            start = end
    return ", ".join(words)
