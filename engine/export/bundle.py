"""All files of a comparison, each made when it is needed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, partial

from engine.comparison.compare import Column, Comparison
from engine.comparison.roof_plan import plan
from engine.design.design import Design
from engine.export import csv, dxf_plan, html_page, markdown, svg_plan, xlsx
from engine.export.html_report import report
from engine.export.json import to_json
from engine.export.stamp import Stamp
from engine.studies.ways_out import ways_out

OF_ONE = ("attachments_{}.csv", "attachments_{}.xlsx", "plan_{}.svg", "plan_{}.dxf", "reactions_{}.csv")
"""Files of one method, named by its id."""


@dataclass(frozen=True)
class File:
    """A file's name, and the function that makes its content."""

    name: str
    make: Callable[[], str | bytes]


def bundle(comparison: Comparison, stamp: Stamp) -> tuple[File, ...]:
    """The files of a comparison, in the order they are made."""
    return (*_of_all(comparison, stamp), *_of_each(comparison, stamp))


def _of_all(comparison: Comparison, stamp: Stamp) -> Iterator[File]:
    """The files of all methods together; ways out are searched once, when the first file needs them."""
    ways = cache(partial(ways_out, comparison))
    yield File("report.html", lambda: report(comparison, stamp, ways()))
    yield File("comparison.csv", partial(csv.comparison_csv, comparison, stamp))
    yield File("comparison.md", partial(markdown.comparison_markdown, comparison, stamp))
    yield File("comparison.json", lambda: to_json(comparison, stamp, ways=ways()) + "\n")
    yield File("comparison.html", partial(html_page.comparison_page, comparison, stamp))
    yield File("comparison.xlsx", partial(xlsx.comparison_workbook, comparison, stamp))


def _of_each(comparison: Comparison, stamp: Stamp) -> Iterator[File]:
    """Schedule and plan of every method that could be laid out, and the reactions of those that were checked."""
    for column in comparison.columns:
        if column.design:
            yield from _of_one(comparison, column, column.design, stamp)


def _of_one(comparison: Comparison, column: Column, design: Design, stamp: Stamp) -> Iterator[File]:
    """The plan is made once, and not before a file needs it: listing the names stays quick."""
    drawn = cache(partial(plan, design))
    csv_file, xlsx_file, svg_file, dxf_file, reactions_file = (name.format(column.id) for name in OF_ONE)
    yield File(csv_file, lambda: csv.attachments_csv(comparison, column, drawn().attachments, stamp))
    yield File(xlsx_file, lambda: xlsx.attachments_workbook(comparison, column, drawn().attachments, stamp))
    yield File(svg_file, lambda: svg_plan.plan_svg(comparison, column, drawn(), stamp))
    yield File(dxf_file, lambda: dxf_plan.plan_dxf(comparison, column, drawn(), stamp))
    if column.candidate:
        yield File(reactions_file, lambda: csv.reactions_csv(comparison, column, stamp))
