"""The comparison as plain text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from rich.console import RenderableType

from engine.comparison.answer import answer_line
from engine.comparison.compare import Comparison, standard_line
from engine.comparison.figure import by_group
from engine.comparison.figures import table_figures
from engine.comparison.figures.verdict import verdict_line
from engine.comparison.flags import Flag
from engine.export.flag_sections import flag_sections
from engine.export.stamp import Stamp
from engine.units import System, text
from tui.render.alternatives import alternatives_parts
from tui.render.plain_text import listed, plain_text, side_by_side

if TYPE_CHECKING:
    from engine.studies.ways_out import WaysOut

SIGNS = {"warning": "!!", "caution": " !", "note": ""}


def comparison_text(comparison: Comparison, stamp: Stamp, width: int, ways: Sequence[WaysOut] | None = None) -> str:
    """The comparison, its flags and its cautions, in lines of `width`; ways out where they were searched."""
    return plain_text(*_parts(comparison, stamp, width, ways), width=width)


def _parts(
    comparison: Comparison, stamp: Stamp, width: int, ways: Sequence[WaysOut] | None
) -> Iterator[RenderableType]:
    yield comparison.title
    yield answer_line(comparison, stamp.system)
    yield ""
    yield listed([(f"{column.title}:", verdict_line(column)) for column in comparison.columns], names=0, gap=1)
    yield ""
    yield _site(comparison, stamp.system)
    yield ""
    yield from _figures(comparison, stamp.system, width)
    if comparison.alternatives:
        yield ""
        yield from alternatives_parts(comparison, stamp.system)
    if ways is not None:
        from tui.render.ways_out import ways_out_parts  # only where they are asked for: they need all studies

        yield from ("", "Ways out:", *ways_out_parts(ways, stamp.system))
    for title, flags in flag_sections(comparison):
        yield ""
        yield f"{title}:"
        yield _flags(flags)
    yield ""
    yield from comparison.cautions
    yield stamp.made


def _site(comparison: Comparison, system: System) -> str:
    figures = ", ".join(f"{name} {text(value, dimension, system)}" for name, value, dimension in comparison.site)
    return f"{standard_line(comparison.scenario)}: {figures}"


def _figures(comparison: Comparison, system: System, width: int) -> Iterator[RenderableType]:
    """Every figure under its group, one column a method."""
    labels, columns = [""], [[column.title] for column in comparison.columns]
    for group, figures in by_group(table_figures()):
        labels += ["", group.upper(), *(figure.label(comparison.scenario.job) for figure in figures)]
        for cells, column in zip(columns, comparison.columns, strict=True):
            cells += ["", "", *(figure.cell(column, system) for figure in figures)]
    yield from side_by_side(labels, columns, width)


def _flags(flags: Sequence[Flag]) -> RenderableType:
    """Signs of severity at the left, sentences beside them."""
    return listed([(SIGNS[flag.severity], flag.text) for flag in flags] or [("", "nothing to flag")], names=2, gap=1)
