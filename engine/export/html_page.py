"""HTML pages: one self-contained file each; text never becomes markup."""

from __future__ import annotations

from functools import cache
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined

from engine.comparison.answer import answer_line
from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Figure, by_group
from engine.comparison.figures import table_figures
from engine.export.flag_sections import flag_sections
from engine.export.headings import decimals, headings, shown
from engine.export.stamp import Stamp
from engine.export.svg import shortened
from engine.export.table import alternatives_table
from engine.units import text


def comparison_page(comparison: Comparison, stamp: Stamp) -> str:
    """The comparison as a page."""
    return filled(
        "comparison.html", comparison, stamp, heading="Mounting methods for one array, compared along the load path"
    )


def filled(template: str, comparison: Comparison, stamp: Stamp, **more: Any) -> str:
    """A page about this comparison from one of the templates."""
    return (
        environment()
        .get_template(template)
        .render(comparison=comparison, stamp=stamp, system=stamp.system, rows=table_figures(), **more)
    )


@cache
def environment() -> Environment:
    """The templates: everything is escaped, and an unknown name is an error."""
    pages = Environment(
        loader=PackageLoader("engine.export", "pages"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    pages.filters |= {"shortened": shortened, "quantity": text, "shown": shown, "grouped": by_group}
    pages.globals |= {
        "alternatives_table": alternatives_table,
        "headings": headings,
        "decimals": decimals,
        "answer_line": answer_line,
        "flag_sections": flag_sections,
    }
    pages.tests["over"] = _is_over
    return pages


def _is_over(figure: Figure, column: Column) -> bool:
    """True for the verdict OVER and for a figure beyond its limit: it is marked as well as bold."""
    return figure.is_over(column) or figure.value(column) == "over"
