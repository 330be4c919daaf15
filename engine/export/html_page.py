"""Pages: one self-contained HTML file each, whose text can never become markup."""

from __future__ import annotations

from functools import cache
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined

from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Row, by_group
from engine.comparison.figures import rows
from engine.export.flag_sections import flag_sections
from engine.export.headings import decimals, headings, shown
from engine.export.stamp import Stamp
from engine.export.svg import shortened
from engine.units import text


def comparison_page(comparison: Comparison, stamp: Stamp) -> str:
    """The comparison as a page."""
    return filled("comparison.html", comparison, stamp, heading="Three ways to hold one array, link by link")


def filled(template: str, comparison: Comparison, stamp: Stamp, **more: Any) -> str:
    """A page of this comparison from one of the templates."""
    return (
        _environment().get_template(template).render(comparison=comparison, stamp=stamp, rows=rows(comparison), **more)
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
    environment.filters |= {"shortened": shortened, "shown": shown, "quantity": text, "grouped": by_group}
    environment.globals |= {"headings": headings, "decimals": decimals, "flag_sections": flag_sections}
    environment.tests["over"] = _over
    return environment


def _over(row: Row, column: Column) -> bool:
    """Whether a figure says that something is over: it is marked as well as bold."""
    value = row.value(column)
    return value == "OVER" or (
        isinstance(value, float) and value > 1 and (row.group == "links used" or row.label == "bare roof used")
    )
