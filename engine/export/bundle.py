"""Everything that leaves at once: the files of a comparison, each made when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, partial

from engine.comparison import Column, Comparison
from engine.design import Design
from engine.export import attachments, page, plan_dxf, plan_svg, tables, workbook
from engine.export.json import to_json
from engine.export.report import report
from engine.export.stamp import Stamp
from engine.plan import plan

OF_ONE = ("attachments_{}.csv", "attachments_{}.xlsx", "plan_{}.svg", "plan_{}.dxf")
"""Files of one method, named by its id."""


@dataclass(frozen=True)
class File:
    """A file's name, and how its content is made."""

    name: str
    make: Callable[[], str | bytes]


def bundle(comparison: Comparison, stamp: Stamp) -> tuple[File, ...]:
    """The files of a comparison, in the order they are made."""
    return (*_of_all(comparison, stamp), *_of_each(comparison, stamp))


def _of_all(comparison: Comparison, stamp: Stamp) -> Iterator[File]:
    yield File("report.html", partial(report, comparison, stamp))
    yield File("comparison.csv", partial(tables.to_csv, comparison, stamp))
    yield File("comparison.md", partial(tables.to_markdown, comparison, stamp))
    yield File("comparison.json", lambda: to_json(comparison, stamp) + "\n")
    yield File("comparison.html", partial(page.comparison_page, comparison, stamp))
    yield File("comparison.xlsx", partial(workbook.comparison_workbook, comparison, stamp))


def _of_each(comparison: Comparison, stamp: Stamp) -> Iterator[File]:
    """Schedule and plan of every method that could be laid out."""
    for column in comparison.columns:
        if column.design:
            yield from _of_one(comparison, column, column.design, stamp)


def _of_one(comparison: Comparison, column: Column, design: Design, stamp: Stamp) -> Iterator[File]:
    """The plan is made once, and not before a file asks for it: who wants the names alone need not wait."""
    drawn = cache(partial(plan, comparison.scenario.job, design))
    csv, xlsx, svg, dxf = (name.format(column.id) for name in OF_ONE)
    yield File(csv, lambda: attachments.to_csv(comparison, column, drawn().points, stamp))
    yield File(xlsx, lambda: workbook.attachments_workbook(comparison, column, drawn().points, stamp))
    yield File(svg, lambda: plan_svg.plan_svg(comparison, column, drawn(), stamp))
    yield File(dxf, lambda: plan_dxf.plan_dxf(comparison, column, drawn(), stamp))
