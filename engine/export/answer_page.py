"""The answer on one page, for the customer and the site file: methods, plan, and what was not checked."""

from __future__ import annotations

from collections.abc import Iterator

from engine.comparison.answer import answer_line, choose
from engine.comparison.compare import Column, Comparison
from engine.comparison.figures.verdict import not_checked, shown_by_others
from engine.comparison.permit_checklist import permit_checklist
from engine.comparison.roof_plan import plan
from engine.export.alternatives_blocks import alternatives_blocks
from engine.export.document import Block, Bullets, Document, Drawing, Grid, Heading, Words
from engine.export.document_head import document_of
from engine.export.drawing_scale import EDGE, Paper
from engine.export.method_rows import METHOD_HEADINGS, method_rows
from engine.export.plan_sheet import sheet_of_slope
from engine.export.stamp import Stamp
from engine.export.svg import shortened
from engine.export.svg_plan import plan_drawing

SUBTITLE = "Answer for one solar array on one metal roof"

MAX_FLAGS, MAX_ALTERNATIVES = 4, 5
LONGEST = 600
"""Flags and rows of alternatives listed, and letters of a statement: a page has room for them beside the plan."""


PART_OF_PAGE = Paper("part of a page", 0.181 + 2 * EDGE, 0.125 + 2 * EDGE, exact=False)
"""Sheet whose drawn part has room beneath the usual text of the page, of either size."""


def answer_page(comparison: Comparison, stamp: Stamp) -> Document:
    """The page, with the plan of the method to use or, where none is chosen, of the first that was laid out."""
    return document_of(comparison, stamp, SUBTITLE, tuple(_blocks(comparison, stamp)), numbered=False)


def _blocks(comparison: Comparison, stamp: Stamp) -> Iterator[Block]:
    yield Words(answer_line(comparison, stamp.system), strong=True)
    yield Grid(METHOD_HEADINGS, method_rows(comparison, stamp.system), numeric=(3, 4, 5), widths=(2, 2, 6, 0, 0, 0))
    yield from alternatives_blocks(comparison, stamp.system, MAX_ALTERNATIVES)
    shown = _shown(comparison)
    if shown and shown.design:
        yield Heading(f"Not checked here, {shown.title}", 2)
        yield Bullets(tuple(shortened(words, LONGEST) for words in _open(comparison, shown)))
        yield from _flags(shown)
        drawing = plan_drawing(
            sheet_of_slope(comparison, shown, plan(shown.design), stamp), stamp, PART_OF_PAGE
        ).written()
        yield Drawing(drawing, f"Roof plan, {shown.title}", rest_of_page=True)


def _shown(comparison: Comparison) -> Column | None:
    choice = choose(comparison.columns)
    if choice:
        return choice.first[0]
    return next((column for column in comparison.columns if column.design), None)


def _open(comparison: Comparison, column: Column) -> Iterator[str]:
    """The links that nobody has checked yet or that others have shown, placeholders, and the documents outstanding."""
    yield f"Not checked: {not_checked(column) or 'nothing that this calculation covers'}."
    if others := shown_by_others(column):
        yield f"Shown by others: {others}."
    if column.placeholders:
        names = "; ".join(name for _, name in column.placeholders)
        yield f"Placeholder strengths, to be replaced by the makers' values: {names}."
    outstanding = [item.requirement for item in permit_checklist(comparison) if not item.statement]
    if outstanding:
        yield f"Outstanding documents: {'; '.join(outstanding)}."


def _flags(column: Column) -> Iterator[Block]:
    """The warnings, then the cautions of a method; the calculation has them all."""
    loud = [flag for severity in ("warning", "caution") for flag in column.flags if flag.severity == severity]
    if loud:
        more = f", {MAX_FLAGS} of {len(loud)}" if len(loud) > MAX_FLAGS else ""
        yield Heading(f"Warnings and cautions{more}", 2)
        yield Bullets(tuple(shortened(f"{flag.severity.upper()}: {flag.text}", LONGEST) for flag in loud[:MAX_FLAGS]))
