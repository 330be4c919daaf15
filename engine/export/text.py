"""The comparison as plain text for a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from itertools import zip_longest

from engine.comparison import Comparison
from engine.export.stamp import Stamp
from engine.table import grouped, rows
from engine.units import System, text

LABEL_WIDTH = 20
COLUMN_WIDTH = 20
SIGNS = {"warning": "!!", "caution": " !", "note": "  "}


def to_text(comparison: Comparison, stamp: Stamp) -> str:
    """The comparison, its flags and its cautions, in lines of at most 80 characters for three methods."""
    system = stamp.system
    lines = [*_wrapped("", comparison.title), _site(comparison, system), ""]
    lines += _lines("", [column.title for column in comparison.columns])
    for group, members in grouped(rows(comparison)):
        lines += ["", group.upper()]
        for row in members:
            lines += _lines(row.label, [row.cell(column, system) for column in comparison.columns])
    for column in comparison.columns:
        lines += ["", f"{column.title}:"]
        lines += [line for flag in column.flags for line in _wrapped(f"{SIGNS[flag.severity]} ", flag.text)] or ["   nothing to flag"]
    lines += ["", *(line for caution in comparison.cautions for line in _wrapped("", caution)), stamp.made]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _site(comparison: Comparison, system: System) -> str:
    figures = ", ".join(f"{name} {text(value, dimension, system)}" for name, value, dimension in comparison.site)
    standard = comparison.scenario.standard
    return "\n".join(_wrapped("", f"{standard.title}, {standard.speaks_of}: {figures}"))


def _lines(label: str, cells: list[str]) -> Iterator[str]:
    """A row; what is too long for its cell goes on below."""
    wrapped = [textwrap.wrap(cell, COLUMN_WIDTH - 1) for cell in cells]
    for number, parts in enumerate(zip_longest(*wrapped, fillvalue="")):
        yield ("" if number else label).ljust(LABEL_WIDTH)[:LABEL_WIDTH] + "".join(part.rjust(COLUMN_WIDTH) for part in parts)


def _wrapped(sign: str, sentence: str) -> list[str]:
    return textwrap.wrap(sentence, 79, initial_indent=sign, subsequent_indent=" " * len(sign)) or [sign]
