"""The files about all slopes of a building; those of each slope are in a folder of its own."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from functools import cache, partial

from engine.comparison.building_comparison import BuildingComparison, Total
from engine.comparison.building_record import building_record
from engine.comparison.record import WaysOfMethods
from engine.export import csv, xlsx
from engine.export.building_report import building_answer, building_calculation
from engine.export.bundle import File, Ways, as_page_and_pdf, for_readers
from engine.export.document_files import drawing_to_pdf
from engine.export.drawing_scale import PAPERS
from engine.export.dxf_plan import plan_dxf
from engine.export.json import building_json_schema, to_json
from engine.export.plan_sheet import sheet_of_building
from engine.export.readers import DATA, DRAFTER, ESTIMATOR, INSTALLER, READERS, REVIEWER
from engine.export.readme import building_readme
from engine.export.stamp import Stamp
from engine.export.svg_plan import plan_drawing
from engine.studies.record import ways_by_method

MIX = "best_mix"
"""End of the names of the files of the best mix, as those of a method end in its id."""


def building_bundle(
    building: BuildingComparison, stamp: Stamp, readers: Collection[str], ways: Mapping[str, Ways]
) -> tuple[File, ...]:
    """The files about all slopes for some readers, or for all; a README comes first. `ways` out by slope."""
    return for_readers(tuple(_files(building, stamp, ways)), readers, partial(building_readme, building, stamp))


def _files(building: BuildingComparison, stamp: Stamp, ways: Mapping[str, Ways]) -> Iterator[File]:
    """Files of all methods, then the plans of each."""
    about = "the answer for all slopes on one page, for the customer and the site file"
    yield from as_page_and_pdf("answer", about, READERS, partial(building_answer, building, stamp))
    about = "totals, parts, attachments, the calculation of every slope, and plans, to print"
    yield from as_page_and_pdf("report", about, (REVIEWER,), lambda: building_calculation(building, stamp, ways))
    yield File(
        "totals.xlsx",
        "each method by slope and in total, with bill and attachments",
        (REVIEWER, ESTIMATOR, DATA),
        partial(xlsx.building_workbook, building, stamp),
    )
    yield File(
        "totals.csv", "each method by slope and in total", (ESTIMATOR, DATA), partial(csv.totals_csv, building, stamp)
    )
    about = "the bill of every slope and of all slopes"
    yield File("bill.csv", about, (ESTIMATOR, DATA), partial(csv.building_bill_csv, building, stamp))
    yield File(
        "attachments.csv",
        "places and loads of the attachments of all slopes",
        (INSTALLER, DATA),
        partial(csv.building_attachments_csv, building, stamp),
    )
    yield File(
        "comparison.json",
        "every figure in SI, unrounded: totals, then each slope",
        (DATA,),
        lambda: to_json(building_record(building, _by_slope(building, ways), with_attachments=True), stamp) + "\n",
    )
    yield File(
        "comparison.schema.json",
        "JSON Schema of comparison.json",
        (DATA,),
        partial(building_json_schema, building),
    )
    for total in building.totals:
        yield from _plans(building, total, total.columns[0].id, stamp)
    if building.best_mix and len({column.id for column in building.best_mix.columns}) > 1:
        yield from _plans(building, building.best_mix, MIX, stamp)


def _by_slope(building: BuildingComparison, ways: Mapping[str, Ways]) -> list[WaysOfMethods]:
    return [ways_by_method(ways[name]()) for name in building.names]


def _plans(building: BuildingComparison, total: Total, name: str, stamp: Stamp) -> Iterator[File]:
    """The plan of all slopes as SVG, PDF and DXF, where a slope was laid out."""
    if not any(column.design for column in total.columns):
        return
    sheet = cache(partial(sheet_of_building, building, total, stamp))
    drawing = cache(lambda: plan_drawing(sheet(), stamp))
    about, readers = f"{total.title}: roof plan of all slopes, to print", (REVIEWER, INSTALLER, DRAFTER)
    yield File(f"plan_{name}.svg", about, readers, lambda: drawing().written())
    yield File(
        f"plan_{name}.pdf",
        f"{about} to scale, as PDF",
        readers,
        lambda: drawing_to_pdf(drawing(), PAPERS[stamp.system], stamp.date),
    )
    yield File(
        f"plan_{name}.dxf",
        f"{total.title}: roof plan of all slopes for drawing programs",
        (DRAFTER,),
        lambda: plan_dxf(sheet(), stamp),
    )
