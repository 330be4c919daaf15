"""All files of a comparison, each made when it is needed, with its purpose and its readers."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, partial

from engine.common.progress import ProgressListener, no_listener
from engine.comparison.compare import Column, Comparison
from engine.comparison.record import comparison_record
from engine.comparison.roof_plan import plan
from engine.design.design import Design
from engine.export import csv, dxf_plan, html_page, markdown, svg_plan, xlsx
from engine.export.answer_page import answer_page
from engine.export.calculation import calculation
from engine.export.data_tables import data_files
from engine.export.document import Document
from engine.export.document_files import drawing_to_pdf, to_html, to_pdf
from engine.export.drawing_scale import PAPERS
from engine.export.installer_sheet import installer_sheet
from engine.export.json import json_schema, to_json
from engine.export.plan_sheet import sheet_of_slope
from engine.export.pull_test_sheet import pull_test_sheet
from engine.export.readers import DATA, DRAFTER, ESTIMATOR, INSTALLER, READERS, REVIEWER
from engine.export.readme import Files, readme
from engine.export.sheet import sheet_document
from engine.export.stamp import Stamp
from engine.export.survey_sheet import survey_sheet
from engine.studies.record import ways_by_method
from engine.studies.ways_out import WaysOut, ways_out

OF_ONE = ("installer", "pull_tests", "attachments", "plan", "reactions")
"""Beginnings of the names of one method's files: "plan" of `plan_rail.svg`."""


@dataclass(frozen=True)
class File:
    """A file's name, its purpose in a few words, those who read it, and the function that makes its content."""

    name: str
    purpose: str
    readers: tuple[str, ...]
    make: Callable[[], str | bytes]


Ways = Callable[[], Sequence[WaysOut]]
"""A function that searches ways out, once."""


def searched_once(comparison: Comparison, tell: ProgressListener = no_listener) -> Ways:
    """The ways out of a comparison, searched when the first file needs them."""
    return cache(partial(ways_out, comparison, tell))


def bundle(
    comparison: Comparison, stamp: Stamp, readers: Collection[str] = (), ways: Ways | None = None
) -> tuple[File, ...]:
    """The files of a comparison for some readers, or for all, in the order they are made; a README comes first."""
    every = (*_of_all(comparison, stamp, ways or searched_once(comparison)), *_of_each(comparison, stamp))
    return for_readers(every, readers, partial(readme, comparison, stamp))


def for_readers(every: Sequence[File], readers: Collection[str], about: Callable[[Files], str]) -> tuple[File, ...]:
    """The files for some readers, or for all, below a README; `about` writes it from the files that each reads."""
    files = tuple(file for file in every if not readers or set(readers) & set(file.readers))
    chosen = [reader for reader in READERS if not readers or reader in readers]
    listed = {reader: {file.name: file.purpose for file in files if reader in file.readers} for reader in chosen}
    return (File("README.txt", "what each file is for", READERS, partial(about, listed)), *files)


def _of_all(comparison: Comparison, stamp: Stamp, ways: Ways) -> Iterator[File]:
    """The files of all methods together."""
    about = "the answer on one page, for the customer and the site file"
    yield from as_page_and_pdf("answer", about, READERS, partial(answer_page, comparison, stamp))
    about = "the whole calculation, to print"
    yield from as_page_and_pdf("report", about, (REVIEWER,), lambda: calculation(comparison, stamp, ways()))
    about = "what to measure on the roof, each line with its input, to print"
    measured = partial(survey_sheet, comparison)
    yield from as_page_and_pdf("survey", about, (INSTALLER,), lambda: sheet_document(measured(), comparison, stamp))
    yield File(
        "bill.xlsx",
        "bill with subtotals, cut list, cutting plan, differences between methods",
        (ESTIMATOR,),
        partial(xlsx.bill_workbook, comparison, stamp),
    )
    yield File(
        "bill.csv", "the same bill for other programs", (ESTIMATOR, DATA), partial(csv.bill_csv, comparison, stamp)
    )
    yield File(
        "comparison.html",
        "all methods side by side, to print",
        (REVIEWER,),
        partial(html_page.comparison_page, comparison, stamp),
    )
    yield File(
        "comparison.xlsx",
        "all tables as a workbook",
        (REVIEWER, DATA),
        partial(xlsx.comparison_workbook, comparison, stamp),
    )
    yield File("comparison.csv", "all methods side by side", (DATA,), partial(csv.comparison_csv, comparison, stamp))
    yield File(
        "comparison.md",
        "all methods side by side, for messages",
        (DATA,),
        partial(markdown.comparison_markdown, comparison, stamp),
    )
    yield File(
        "comparison.json",
        "every figure in SI, unrounded",
        (DATA,),
        lambda: to_json(comparison_record(comparison, ways_by_method(ways()), with_attachments=True), stamp) + "\n",
    )
    yield File("comparison.schema.json", "JSON Schema of comparison.json", (DATA,), partial(json_schema, comparison))
    if comparison.scenario.alternatives:
        about = "the alternatives of the scenario, ranked"
        yield File("alternatives.csv", about, (ESTIMATOR, DATA), partial(csv.alternatives_csv, comparison, stamp))
    for name, make in data_files(comparison, stamp).items():
        yield File(name, "a long table with stable ids", (DATA,), make)


def as_page_and_pdf(name: str, about: str, readers: tuple[str, ...], make: Callable[[], Document]) -> Iterator[File]:
    """A document in its two forms; it is made once, when the first of them is needed."""
    document = cache(make)
    yield File(f"{name}.html", about, readers, lambda: to_html(document()))
    yield File(f"{name}.pdf", f"{about}, as PDF", readers, lambda: to_pdf(document()))


def _of_each(comparison: Comparison, stamp: Stamp) -> Iterator[File]:
    """Sheets, schedule and plan of every method that could be laid out; more of those that were checked."""
    for column in comparison.columns:
        if column.design:
            yield from _of_one(comparison, column, column.design, stamp)


def _of_one(comparison: Comparison, column: Column, design: Design, stamp: Stamp) -> Iterator[File]:
    """The plan is made once, and not before a file needs it: listing the names stays quick."""
    drawn = cache(partial(plan, design))
    on_sheet = cache(lambda: sheet_of_slope(comparison, column, drawn(), stamp))
    of_drawing = cache(lambda: svg_plan.plan_drawing(on_sheet(), stamp))
    title, id_ = column.title, column.id
    about = f"{title}: setting out, cut list and check-off, to print"
    sheet = partial(installer_sheet, comparison, column, design)
    yield from as_page_and_pdf(
        f"installer_{id_}", about, (INSTALLER,), lambda: sheet_document(sheet(), comparison, stamp)
    )
    yield File(
        f"attachments_{id_}.csv",
        f"{title}: places and loads of the attachments",
        (DATA,),
        lambda: csv.attachments_csv(comparison, column, drawn().attachments, stamp),
    )
    yield File(
        f"attachments_{id_}.xlsx",
        f"{title}: places and loads of the attachments, and their reactions",
        (REVIEWER, INSTALLER),
        lambda: xlsx.attachments_workbook(comparison, column, drawn().attachments, stamp),
    )
    about = f"{title}: roof plan, to print"
    yield File(f"plan_{id_}.svg", about, (REVIEWER, INSTALLER, DRAFTER), lambda: of_drawing().written())
    yield File(
        f"plan_{id_}.pdf",
        f"{about} to scale, as PDF",
        (REVIEWER, INSTALLER, DRAFTER),
        lambda: drawing_to_pdf(of_drawing(), PAPERS[stamp.system], stamp.date),
    )
    yield File(
        f"plan_{id_}.dxf",
        f"{title}: roof plan for drawing programs",
        (DRAFTER,),
        lambda: dxf_plan.plan_dxf(on_sheet(), stamp),
    )
    if candidate := column.candidate:
        yield File(
            f"reactions_{id_}.csv",
            f"{title}: unfactored reactions for the building's engineer",
            (REVIEWER, DATA),
            lambda: csv.reactions_csv(comparison, column, stamp),
        )
        about = f"{title}: plan of pull tests on site, to print"
        tests = partial(pull_test_sheet, column, design, candidate)
        yield from as_page_and_pdf(
            f"pull_tests_{id_}", about, (INSTALLER, REVIEWER), lambda: sheet_document(tests(), comparison, stamp)
        )
