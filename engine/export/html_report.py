"""The calculation as one page to print: the job, every input, every step as it was recorded, every check."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from engine.common.calculation import CalculationStep
from engine.comparison.compare import Column, Comparison
from engine.comparison.figures import figure_named
from engine.comparison.permit_checklist import permit_checklist
from engine.comparison.roof_plan import plan
from engine.explain.find import explain_figure
from engine.explain.print import printed
from engine.export import html_page, subjects, svg_charts
from engine.export.stamp import Stamp
from engine.export.svg_plan import plan_svg
from engine.export.table import Subject
from engine.links import Check
from engine.studies.spacing import SpacingStudy, study

LINK_COLUMNS = ("link", "unit", "demand", "resistance", "utilisation", "verdict", "combination", "where")
INPUT_COLUMNS = ("input", "as written", "from", "meaning")


@dataclass(frozen=True)
class Reckoning:
    """How one link came about: its check, and the steps that were not shown before."""

    check: Check
    steps: tuple[CalculationStep, ...]


@dataclass(frozen=True)
class Chapter:
    """One method: its column, drawings, links, and their steps."""

    column: Column
    plan: Markup | None
    chart: Markup | None
    links: Subject
    reckonings: tuple[Reckoning, ...]


def report(comparison: Comparison, stamp: Stamp) -> str:
    """The report; figures in the units asked for, equations in the units they are printed in."""
    studies = study(comparison.scenario, tuple(column.id for column in comparison.columns))
    return html_page.filled(
        "report.html",
        comparison,
        stamp,
        heading="Calculation of how one array is held to one metal roof, link by link",
        chapters=[_chapter(comparison, column, stamp) for column in comparison.columns],
        studies=[(each, _study_chart(each, stamp)) for each in studies],
        inputs=subjects.inputs(comparison, stamp.system).only(*INPUT_COLUMNS),
        bill=subjects.bill(comparison, stamp.system),
        permit_checklist=permit_checklist(comparison),
        unverified=comparison.scenario.standard.unverified,
        printed=lambda term: printed(term, stamp.system),
    )


def _chapter(comparison: Comparison, column: Column, stamp: Stamp) -> Chapter:
    """One method; what could not be checked has a plan and flags, what was refused flags alone."""
    drawn = column.design and plan_svg(comparison, column, plan(comparison.scenario.job, column.design), stamp)
    links = subjects.links_of(column, stamp.system).only(*LINK_COLUMNS)
    chart = _drawing(svg_charts.utilisation_chart(column)) if column.checks else None
    return Chapter(
        column, _drawing(drawn) if drawn else None, chart, links, tuple(_reckonings(comparison, column, stamp))
    )


def _reckonings(comparison: Comparison, column: Column, stamp: Stamp) -> Iterator[Reckoning]:
    """Every link's story told forward; a step that an earlier link has told is not told again."""
    told = set()
    for key, check in column.checks.items():
        new = []
        for step in reversed(explain_figure(comparison, column, figure_named(key), stamp.system).steps):
            mark = (step.symbol, step.meaning, step.result.value)
            if mark not in told:
                told.add(mark)
                new.append(step)
        yield Reckoning(check, tuple(new))


def _study_chart(study: SpacingStudy, stamp: Stamp) -> Markup | None:
    return _drawing(svg_charts.study_chart(study, stamp.system)) if len(study.rows) > 1 else None


def _drawing(svg: str) -> Markup:
    """A drawing of our own making, which has escaped what is in it."""
    return Markup(svg)
