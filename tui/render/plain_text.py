"""Paragraphs and tables as plain text, laid out by rich: no colours, no letter cut off, safe for a terminal."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from itertools import chain

from rich.cells import cell_len
from rich.console import Console, RenderableType
from rich.measure import Measurement
from rich.padding import Padding
from rich.table import Table

from engine.common.safe_text import safe_lines

WHOLE_LABEL, WHOLE_CELL = 20, 16
"""Labels, and cells such as figures with their unit, of at most this many letters stay on one line."""

MAX_CELL = 24
"""Width at which a longer cell goes on below."""

MAX_WIDTH = 1000
"""Width at which the room that a table needs is measured."""

GAP = 3
"""Blanks before a column."""


def plain_text(*parts: RenderableType, width: int) -> str:
    """The parts below one another in lines of at most `width`, unless a table's words need more."""
    return "".join(_laid_out(part, width) for part in parts)


def indented(text: str, by: int = 2) -> Padding:
    """A paragraph set in from the left."""
    return Padding(text, (0, 0, 0, by))


def listed(rows: Sequence[tuple[str, str]], names: int = 21, gap: int = GAP) -> Table:
    """Names in a column of at least `names` letters, and the text of each beside it."""
    table = Table.grid()
    table.add_column(min_width=names)
    table.add_column(width=gap)
    table.add_column()
    for name, text in rows:
        table.add_row(name, "", text)
    return table


def side_by_side(labels: Sequence[str], columns: Sequence[Sequence[str]], width: int) -> Iterator[RenderableType]:
    """Columns of cells beside their labels, in as many tables below one another as the width needs.

    Args:
        labels: the labels of the rows, that of the heading first.
        columns: for each column its heading and its cells.
        width: the width available.
    """
    if not columns:
        return
    names, needed = _unbroken(labels, WHOLE_LABEL), max(_unbroken(column, WHOLE_CELL) for column in columns)
    fitting = min(len(columns), max(1, (width - names) // (needed + GAP)))
    names = max(names, min(_longest(labels), width - fitting * (needed + GAP)))
    roomy = min(MAX_CELL, (width - names) // fitting - GAP, max(map(_longest, columns)))
    for start in range(0, len(columns), fitting):
        if start:
            yield ""
        yield _table(labels, columns[start : start + fitting], names, max(needed, roomy))


def _table(labels: Sequence[str], columns: Sequence[Sequence[str]], names: int, cell: int) -> Table:
    table = Table.grid()
    table.add_column(width=names)
    for _ in columns:
        table.add_column(width=GAP)
        table.add_column(width=cell, justify="right")
    for label, *cells in zip(labels, *columns, strict=True):
        table.add_row(label, *chain(*(("", each) for each in cells)))
    return table


def _longest(cells: Sequence[str]) -> int:
    return max(map(cell_len, cells), default=0)


def _unbroken(cells: Sequence[str], whole: int) -> int:
    """The width that keeps every word, and every short cell, on one line."""
    short = (cell for cell in cells if cell_len(cell) <= whole)
    words = (word for cell in cells for word in cell.split())
    return max(map(cell_len, chain(short, words)), default=0)


def _laid_out(part: RenderableType, width: int) -> str:
    console = _console(max(width, _needed(part)) if isinstance(part, Table) else width)
    with console.capture() as captured:
        console.print(part)
    return safe_lines("\n".join(line.rstrip() for line in captured.get().split("\n")))


def _needed(table: Table) -> int:
    """The width at which no word of a table is broken."""
    console = _console(MAX_WIDTH)
    return Measurement.get(console, console.options, table).minimum


def _console(width: int) -> Console:
    return Console(
        file=io.StringIO(),
        width=width,
        color_system=None,
        force_terminal=False,
        force_jupyter=False,
        markup=False,
        highlight=False,
        emoji=False,
        legacy_windows=False,
    )
