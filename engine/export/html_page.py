"""Pages: one self-contained HTML file each, whose text can never become markup."""

from __future__ import annotations

from functools import cache
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined

from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Figure, by_group
from engine.comparison.figures import table_figures, value_of
from engine.export.stamp import Stamp
from engine.export.svg import shortened
from engine.export.table import Cell, Heading
from engine.units import text


def comparison_page(comparison: Comparison, stamp: Stamp) -> str:
    """The comparison as a page."""
    return filled("comparison.html", comparison, stamp, heading="Three ways to hold one array, link by link")


def filled(template: str, comparison: Comparison, stamp: Stamp, **more: Any) -> str:
    """A page of this comparison from one of the templates."""
    return (
        _environment().get_template(template).render(comparison=comparison, stamp=stamp, rows=table_figures(), **more)
    )


@cache
def _environment() -> Environment:
    """Everything is escaped, and a name that is not there is an error."""
    environment = Environment(
        loader=PackageLoader("engine.export", "pages"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters |= {"shortened": shortened, "shown": _shown, "quantity": text, "grouped": by_group}
    environment.globals["value_of"] = value_of
    environment.tests["over"] = _over
    return environment


def _shown(cell: Cell, heading: Heading) -> str:
    """A table's cell as people read it."""
    if cell is None:
        return ""
    if isinstance(cell, str):
        return cell
    return f"{cell:,.{heading.decimals}f}" if heading.decimals is not None else f"{cell:g}"


def _over(figure: Figure, column: Column) -> bool:
    """True where a figure says that something is over: it is marked as well as bold."""
    return figure.is_over(column) or figure.value(column) == "over"
