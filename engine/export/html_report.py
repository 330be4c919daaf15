"""The calculation as one page to print: the job, every input, every recorded step, every check."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import pandas as pd
from markupsafe import Markup

from engine.common.calculation import CalculationStep
from engine.comparison.compare import Column, Comparison
from engine.comparison.figures import figure_named
from engine.comparison.permit_checklist import permit_checklist
from engine.comparison.roof_plan import plan
from engine.explain.find import explain_figure
from engine.explain.print import in_system, printed
from engine.export import html_page, svg_charts
from engine.export.stamp import Stamp
from engine.export.svg_plan import plan_svg
from engine.export.table import LINK_COLUMNS, bill_table, inputs_table, links_table
from engine.links import Check
from engine.studies.spacing import SpacingStudy, study

INPUT_COLUMNS = ["input", "as_written", "from", "meaning"]


@dataclass(frozen=True)
class LinkCalculation:
    """The calculation of one link: its check, and the steps that were not shown before."""

    check: Check
    steps: tuple[CalculationStep, ...]


@dataclass(frozen=True)
class Chapter:
    """One method: its column, drawings, links, and their calculations."""

    column: Column
    plan: Markup | None
    chart: Markup | None
    links: pd.DataFrame
    calculations: tuple[LinkCalculation, ...]


def report(comparison: Comparison, stamp: Stamp) -> str:
    """The report; figures in the units of the stamp, equations in the units they are printed in."""
    studies = study(comparison.scenario, tuple(column.id for column in comparison.columns))
    return html_page.filled(
        "report.html",
        comparison,
        stamp,
        heading="Calculation of one solar array on one metal roof along the load path",
        chapters=[_chapter(comparison, column, stamp) for column in comparison.columns],
        studies=[(each, _study_chart(each, stamp)) for each in studies],
        inputs=inputs_table(comparison, stamp.system)[INPUT_COLUMNS],
        bill=bill_table(comparison, stamp.system),
        permit_checklist=permit_checklist(comparison),
        words=comparison.scenario.job.words,
        unverified=comparison.scenario.standard.unverified,
        not_covered=comparison.scenario.standard.not_covered,
        printed=lambda term: printed(term, stamp.system),
    )


def _chapter(comparison: Comparison, column: Column, stamp: Stamp) -> Chapter:
    """One method; without checks it has a plan and flags, refused it has flags alone."""
    drawn = column.design and plan_svg(comparison, column, plan(column.design), stamp)
    links = links_table(comparison, stamp.system)
    chart = _drawing(svg_charts.utilisation_chart(column)) if column.checks else None
    return Chapter(
        column,
        _drawing(drawn) if drawn else None,
        chart,
        links[links["method"] == column.title][[*LINK_COLUMNS]],
        tuple(_calculations(comparison, column, stamp)),
    )


def _calculations(comparison: Comparison, column: Column, stamp: Stamp) -> Iterator[LinkCalculation]:
    """The steps of every link in order; a step that an earlier link has shown is not repeated."""
    shown = set()
    for key, check in column.checks.items():
        steps = []
        for step in reversed(explain_figure(comparison, column, figure_named(key), stamp.system).steps):
            mark = (step.symbol, step.meaning, step.result.value)
            if mark not in shown:
                shown.add(mark)
                steps.append(in_system(step, stamp.system))
        yield LinkCalculation(check, tuple(steps))


def _study_chart(study: SpacingStudy, stamp: Stamp) -> Markup | None:
    return _drawing(svg_charts.study_chart(study, stamp.system)) if len(study.rows) > 1 else None


def _drawing(svg: str) -> Markup:
    """A drawing as markup: its own text is escaped already."""
    return Markup(svg)
