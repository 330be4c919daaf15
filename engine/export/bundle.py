"""Everything that leaves at once: the files of a comparison, each made when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from engine.comparison import Comparison
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
        if column.design is None:
            continue
        drawn = plan(comparison.scenario.job, column.design)
        for_points = comparison, column, drawn.points, stamp
        for_plan = comparison, column, drawn, stamp
        csv, xlsx, svg, dxf = (name.format(column.id) for name in OF_ONE)
        yield File(csv, partial(attachments.to_csv, *for_points))
        yield File(xlsx, partial(workbook.attachments_workbook, *for_points))
        yield File(svg, partial(plan_svg.plan_svg, *for_plan))
        yield File(dxf, partial(plan_dxf.plan_dxf, *for_plan))
