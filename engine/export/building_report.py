"""All slopes of a building in one document: the answer on one page, and the calculation with totals and every slope."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

import pandas as pd

from engine.bill.take_off import with_number
from engine.comparison.alternatives import ranking_rule
from engine.comparison.building_comparison import BuildingComparison, Total
from engine.comparison.figures import figure_named
from engine.comparison.figures.verdict import verdict_and_component
from engine.export.alternatives_blocks import changed
from engine.export.answer_page import MAX_ALTERNATIVES, PART_OF_PAGE
from engine.export.bill_table import ALL_SLOPES, PART, TOTAL, building_bill_table
from engine.export.building_tables import building_schedule_table
from engine.export.calculation import numbered, parts
from engine.export.calculation.methods import PAGE
from engine.export.calculation.shown_once import ShownOnce
from engine.export.document import Block, Bullets, Contents, Document, Drawing, Grid, Heading, Words
from engine.export.document_head import building_document
from engine.export.method_rows import METHOD_HEADINGS, method_rows
from engine.export.plan_sheet import sheet_of_building
from engine.export.stamp import Stamp
from engine.export.svg_plan import plan_drawing
from engine.studies.ways_out import WaysOut
from engine.units import System, text, unit

ANSWER = "Answer for the slopes of one building"
CALCULATION = "Calculation of the solar arrays on the slopes of one building along the load path"
COUNTS = ("modules", "attachments", "mass_kg", "labour_hours", "total_cost")
RANKED_BY = ("modules", "attachments", "total_cost")
READING = (
    "Slopes are designed one by one: no seam, clip or panel goes over a ridge. Totals are sums of what is counted and "
    "billed, and the worst of the verdicts."
)


def building_answer(building: BuildingComparison, stamp: Stamp) -> Document:
    """The answer on one page, with the plan of the best method of each slope or, where there is none, of the first."""
    mix = building.best_mix or building.totals[0]
    system = stamp.system
    blocks = [*_totals(building, system), *_by_slope(building, system)]
    blocks += _alternatives(building, system, MAX_ALTERNATIVES)
    if any(column.design for column in mix.columns):
        drawing = plan_drawing(sheet_of_building(building, mix, stamp), stamp, PART_OF_PAGE).written()
        blocks.append(Drawing(drawing, f"Roof plan, {mix.title}", rest_of_page=True))
    return building_document(building, stamp, ANSWER, tuple(blocks), numbered=False)


def building_calculation(
    building: BuildingComparison, stamp: Stamp, ways: Mapping[str, Callable[[], Sequence[WaysOut]]]
) -> Document:
    """Totals, bill, attachments and plans of all slopes, and the calculation of each; `ways` out by slope."""
    once = ShownOnce(stamp.system)
    sections: dict[str, Iterable[Block]] = {
        "Whole building": _whole(building, stamp.system),
        "Parts to order": _parts_to_order(building, stamp.system),
        "Attachments": _attachments(building, stamp.system),
        "Plans of all slopes": _plans(building, stamp),
    }
    for comparison in building.slopes:
        slope = comparison.scenario.slope
        of_slope = parts(comparison, stamp, ways[slope](), once)
        sections |= {f"Slope {slope}: {title[:1].lower()}{title[1:]}": blocks for title, blocks in of_slope.items()}
    return building_document(building, stamp, CALCULATION, numbered(sections))


def _whole(building: BuildingComparison, system: System) -> Iterator[Block]:
    yield from _totals(building, system)
    yield Words(READING, quiet=True)
    yield from _by_slope(building, system)
    yield from _alternatives(building, system)
    yield Heading("Contents", 3)
    yield Contents()


def _totals(building: BuildingComparison, system: System) -> Iterator[Block]:
    """The answer, and the totals of each method beside those of the best mix."""
    mix, job = building.best_mix, building.slopes[0].scenario.job
    totals = [*building.totals, *([mix] if mix else [])]
    labels = [figure_named(key).label(job) for key in COUNTS]
    yield Words(building.answer, strong=True)
    yield Grid(
        ("all slopes", "verdict", *building.names, *labels),
        tuple(_total(each, system) for each in totals),
        numeric=tuple(range(2 + len(building.names), 2 + len(building.names) + len(COUNTS))),
    )


def _alternatives(building: BuildingComparison, system: System, most: int | None = None) -> Iterator[Block]:
    """The alternatives ranked for all slopes together; nothing where there are none. `most`: rows of the table."""
    first = building.slopes[0]
    if not first.alternatives:
        return
    yield Heading("Alternatives, all slopes", 3)
    yield Words(
        f"Changes laid over the scenario, each compared by the same methods; {ranking_rule(first)}.", quiet=True
    )
    yield Bullets(tuple(map(changed, first.alternatives)))
    labels = [figure_named(key).label(first.scenario.job) for key in RANKED_BY]
    rows = (
        (
            str(each.rank),
            each.alternative,
            each.total.title,
            each.total.status.word,
            *_sums(each.total, system, RANKED_BY),
        )
        for each in building.ranking[:most]
    )
    yield Grid(("rank", "alternative", "method", "verdict", *labels), tuple(rows), numeric=(0, 4, 5, 6))


def _sums(total: Total, system: System, keys: Sequence[str]) -> Iterator[str]:
    """Sums of all slopes as text."""
    for key in keys:
        value = total.total(key)
        yield "–" if value is None else text(value, figure_named(key).dimension, system)


def _total(total: Total, system: System) -> tuple[str, ...]:
    """A way to hold all slopes: its verdict, the method and verdict on each slope, and its totals."""
    is_mix = len({column.id for column in total.columns}) > 1
    on_slopes = (f"{f'{each.title}: ' if is_mix else ''}{verdict_and_component(each)}" for each in total.columns)
    return total.title, total.status.word, *on_slopes, *_sums(total, system, COUNTS)


def _by_slope(building: BuildingComparison, system: System) -> Iterator[Block]:
    for comparison in building.slopes:
        yield Heading(f"Slope {comparison.scenario.slope}", 3)
        yield Grid(METHOD_HEADINGS, method_rows(comparison, system), numeric=(3, 4, 5), widths=(2, 2, 6, 0, 0, 0))


def _parts_to_order(building: BuildingComparison, system: System) -> Iterator[Block]:
    """Parts to order by slope and in total, with spares, one table a method; its price with labour in the last row."""
    bill = building_bill_table(building, system)
    slopes = (*building.names, ALL_SLOPES)
    for method, own in bill.groupby("method", sort=False):
        shown = [slope for slope in slopes if slope in set(own["slope"])]
        rows = [(_with_number(part, group), *_row(group, "to_order", shown, 0)) for part, group in _named(own, PART)]
        price = [
            (f"total, {building.currency}", *_row(group, "total_price", shown, 2)) for _, group in _named(own, TOTAL)
        ]
        yield Heading(str(method), 3)
        yield Grid(("part", *shown), (*rows, *price), numeric=tuple(range(1, len(shown) + 1)), marked=(len(rows),))


def _named(bill: pd.DataFrame, level: str) -> Iterator[tuple[str, pd.DataFrame]]:
    """The rows of a level by part, in the order of the bill."""
    for part, group in bill[bill["level"] == level].groupby("part", sort=False):
        yield str(part), group


def _with_number(part: str, group: pd.DataFrame) -> str:
    number = group["part_number"].iloc[0]
    return with_number(part, number if isinstance(number, str) else None)


def _row(group: pd.DataFrame, column: str, slopes: Sequence[str], decimals: int) -> tuple[str, ...]:
    by_slope = group.set_index("slope")[column].to_dict()
    return tuple(f"{by_slope[slope]:,.{decimals}f}" if slope in by_slope else "" for slope in slopes)


def _attachments(building: BuildingComparison, system: System) -> Iterator[Block]:
    """Attachments of each slope, method and wind zone: number, largest loads and utilisation."""
    schedule = building_schedule_table(building)
    force = unit("force", system)
    up, down = f"uplift_{force}", f"down_load_{force}"
    rows = [
        (
            *map(str, names),
            f"{len(own):,}",
            *(_largest(own, *each) for each in ((up, 0), (down, 0), ("utilisation", 2))),
        )
        for names, own in schedule.groupby(["method", "slope", "wind_zone"], sort=False)
    ]
    yield Words(
        "Each attachment with its place and loads is in attachments.csv; its number is that of its slope.", quiet=True
    )
    headings = (
        "method",
        "slope",
        "wind zone",
        "attachments",
        f"largest uplift [{force}]",
        f"largest down load [{force}]",
    )
    yield Grid((*headings, "largest utilisation"), tuple(rows), numeric=(3, 4, 5, 6))


def _largest(own: pd.DataFrame, column: str, decimals: int) -> str:
    largest = own[column].max()
    return "not checked" if pd.isna(largest) else f"{largest:,.{decimals}f}"


def _plans(building: BuildingComparison, stamp: Stamp) -> Iterator[Block]:
    """The plans of each method, all slopes on a page."""
    for total in building.totals:
        if any(column.design for column in total.columns):
            sheet = sheet_of_building(building, total, stamp)
            drawing = plan_drawing(sheet, stamp, PAGE[stamp.system]).written()
            yield Drawing(drawing, f"Roof plan, {total.title}: all slopes.", landscape=True)
