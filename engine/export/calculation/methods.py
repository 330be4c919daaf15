"""The methods one by one: plan and flags."""

from __future__ import annotations

from collections.abc import Iterator

from engine.comparison.compare import Comparison
from engine.comparison.figures.verdict import verdict_line
from engine.comparison.roof_plan import plan
from engine.export.document import Block, Bullets, Drawing, Heading
from engine.export.drawing_scale import EDGE, Paper
from engine.export.flag_sections import flag_sections
from engine.export.plan_sheet import sheet_of_slope
from engine.export.stamp import Stamp
from engine.export.svg_plan import plan_drawing
from engine.units import System


def flags(comparison: Comparison) -> Iterator[Block]:
    """Flags of each method, then of all of them."""
    for title, found in flag_sections(comparison):
        if found:
            yield Heading(title, 3)
            yield Bullets(tuple(f"{flag.severity.upper()}: {flag.text}" for flag in found))


PAGE: dict[System, Paper] = {
    "us": Paper("letter", 0.249 + 2 * EDGE, 0.162 + 2 * EDGE),
    "si": Paper("A4", 0.267 + 2 * EDGE, 0.157 + 2 * EDGE),
}
"""Sheets whose drawn part has room on a page of its own, beneath a heading."""


def plans(comparison: Comparison, stamp: Stamp) -> Iterator[Block]:
    """The plan of each method that was laid out, a page each."""
    for column in comparison.columns:
        if column.design:
            sheet = sheet_of_slope(comparison, column, plan(column.design), stamp)
            drawing = plan_drawing(sheet, stamp, PAGE[stamp.system]).written()
            caption = f"Roof plan, {column.title}: {verdict_line(column)}; attachments {column.design.spacing_label}."
            yield Drawing(drawing, caption, landscape=True)
