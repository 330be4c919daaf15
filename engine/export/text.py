"""The comparison as plain text for a terminal."""

from __future__ import annotations

import textwrap

from engine.comparison.compare import Comparison
from engine.comparison.figure import by_group
from engine.comparison.figures import table_figures
from engine.export import cells
from engine.export.stamp import Stamp
from engine.units import System, text

LABEL_WIDTH = 32
COLUMN_WIDTH = 16
SIGNS = {"warning": "!!", "caution": " !", "note": "  "}


def to_text(comparison: Comparison, stamp: Stamp) -> str:
    """The comparison, its flags and its cautions, in lines of at most 80 characters for three methods."""
    system = stamp.system
    lines = [*_wrapped("", comparison.title), _site(comparison, system), ""]
    lines += cells.row("", [column.title for column in comparison.columns], LABEL_WIDTH, COLUMN_WIDTH)
    for group, members in by_group(table_figures()):
        lines += ["", group.upper()]
        for row in members:
            lines += cells.row(
                row.label(comparison.scenario.job),
                [row.cell(column, system) for column in comparison.columns],
                LABEL_WIDTH,
                COLUMN_WIDTH,
            )
    for column in comparison.columns:
        lines += ["", f"{column.title}:"]
        lines += [line for flag in column.flags for line in _wrapped(f"{SIGNS[flag.severity]} ", flag.text)] or [
            "   nothing to flag"
        ]
    lines += ["", *(line for caution in comparison.cautions for line in _wrapped("", caution)), stamp.made]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _site(comparison: Comparison, system: System) -> str:
    figures = ", ".join(f"{name} {text(value, dimension, system)}" for name, value, dimension in comparison.site)
    standard = comparison.scenario.standard
    return "\n".join(_wrapped("", f"{standard.title}, {standard.basis}: {figures}"))


def _wrapped(sign: str, sentence: str) -> list[str]:
    return textwrap.wrap(sentence, 79, initial_indent=sign, subsequent_indent=" " * len(sign)) or [sign]
