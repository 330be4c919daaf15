"""The roof plan as SVG: a sheet to print at full size, to a usual scale, in black and grey; no letters under 8 pt."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from engine.export.drawing_scale import EDGE, PAPERS, POINT, Paper, bar_length, scale_of
from engine.export.plan_legend import LegendItem
from engine.export.plan_sheet import PlanSheet
from engine.export.stamp import Stamp
from engine.export.svg import Drawing, shortened
from engine.export.svg_slope import SlopeView, radius

LEFT, RIGHT = 66.0, 76.0
HEAD, TOP, FOOT = 70.0, 30.0, 100.0
"""Room beside the roof, for the head, between head and roof, and from the eave to the legend [pt]."""

BETWEEN = 120.0
"""Room from an eave to the upper edge of the slope below it on the sheet [pt]."""

LINE = 13.0

COLUMN = 270.0
"""Width of a column of the legend [pt]."""
NOTES = 6
"""Lines of notes for which there is room on the sheet; more make it higher."""

LETTERS_A_POINT = 0.19
"""Letters of 10 pt in a line, for each point of its length."""

ROWS = "Numbers beside a row: its first and its last attachment, as in the schedule of attachments."

STYLES = {
    "text": "font-size: 10px; fill: #000; "
    "paint-order: stroke; stroke: #fff; stroke-width: 2.5px; stroke-linejoin: round",
    ".title": "font-size: 16px; font-weight: bold",
    ".verdict": "font-weight: bold",
    ".small": "font-size: 8px",
    ".zone-name": "font-size: 13px; font-weight: bold; fill: #444",
    "line": "stroke: #000; stroke-width: 1",
    "rect": "fill: none; stroke: #000; stroke-width: 1",
    "circle": "fill: none; stroke: #000; stroke-width: 1",
    "polyline": "fill: none; stroke: #000; stroke-width: 1.5",
    ".thin": "stroke-width: .7",
    ".roof": "stroke-width: 2",
    ".rib": "stroke: #bbb; stroke-width: .5",
    ".support": "stroke: #999; stroke-width: .5; stroke-dasharray: 2 3",
    ".zone": "stroke: #444; stroke-dasharray: 9 4",
    ".edge": "stroke-width: 2.5",
    ".clear": "fill: #fff; stroke-dasharray: 4 2",
    ".module": "fill: #fff; fill-opacity: .8; stroke: #777; stroke-width: .6",
    ".exposed": "fill: #e8e8e8; fill-opacity: .85; stroke: #777; stroke-width: .6",
    ".member": "stroke: #555; stroke-width: 1.6",
    ".frame": "stroke: #555; stroke-width: .8",
    ".clamp": "fill: #555; stroke: none",
    ".holds": "fill: #fff; stroke-width: .8",
    ".over": "fill: #000",
    ".not-checked": "stroke: #777; stroke-width: .8",
}


def plan_drawing(sheet: PlanSheet, stamp: Stamp, paper: Paper | None = None) -> Drawing:
    """The plans of a sheet on paper, all to one scale; None: the usual paper of the units."""
    return _Sheet(sheet, stamp, paper or PAPERS[stamp.system]).drawn()


class _Sheet:
    """The plans of slopes one above the other, and their scale: metres on the slope to points on the sheet."""

    def __init__(self, sheet: PlanSheet, stamp: Stamp, paper: Paper) -> None:
        self.sheet, self.stamp, self.exact, self.legend = sheet, stamp, paper.exact, sheet.legend
        sides = paper.width - 2 * EDGE, paper.height - 2 * EDGE
        options = []
        for width, height in (sides, sides[::-1]):
            letters = int(width / POINT * LETTERS_A_POINT)
            verdict = [line for words in sheet.verdicts for line in textwrap.wrap(words, letters)]
            above = HEAD + LINE * len(verdict) + TOP
            below = FOOT + LINE * (self._legend_rows(width / POINT) + NOTES)
            between = BETWEEN * (len(sheet.slopes) - 1)
            room = width - (LEFT + RIGHT) * POINT, height - (above + between + below) * POINT
            options.append((scale_of(sheet.length, sheet.depth, *room, stamp.system), width, above, verdict))
        self.scale, width, above, self.verdict = min(options, key=lambda option: option[0].ratio)
        self.width, self.point = width / POINT, self.scale.ratio * POINT
        self.views = tuple(self._views(above))
        self.foot = self.views[-1].foot

    def _views(self, top: float) -> Iterator[SlopeView]:
        """The slopes from the top of the sheet, each in the middle of its width."""
        for each in self.sheet.slopes:
            plan, foot = each.plan, top + each.plan.depth / self.point
            left = LEFT + (self.width - LEFT - RIGHT - plan.length / self.point) / 2
            yield SlopeView(plan, self.stamp, self.point, left, foot)
            top = foot + BETWEEN

    @property
    def scale_words(self) -> str:
        """The scale after the bar, where the sheet is printed at its own size."""
        return f"; scale {self.scale.words} on paper printed at full size" if self.exact else ""

    def _legend_rows(self, width: float) -> int:
        columns = max(1, int((width - 2 * LINE) / COLUMN))
        return -(-len(self.legend) // columns)

    def drawn(self) -> Drawing:
        """The sheet: what it is about and who says so above the slopes, the legend and the notes below them."""
        letters = int(self.width * LETTERS_A_POINT)
        notes = [line for words in (ROWS, *self.sheet.cautions) for line in textwrap.wrap(words, letters)]
        rows = self._legend_rows(self.width)
        height = self.foot + FOOT + LINE * (rows + len(notes) + 1)
        title = f"{self.sheet.title}: {self.sheet.method}"
        drawing = Drawing("plan", self.width, height, title, STYLES, unit="pt")
        self._head(drawing)
        for each, view in zip(self.sheet.slopes, self.views, strict=True):
            view.draw(drawing)
            if each.name:
                drawing.text(view.x(0), view.top - 18, each.name, "verdict")
        self._bar(drawing)
        for number, item in enumerate(self.legend):
            down, across = number % rows, number // rows
            self._legend_item(drawing, item, LINE + COLUMN * across, self.foot + FOOT + LINE * down)
        for number, words in enumerate(notes):
            drawing.text(LINE, self.foot + FOOT + LINE * (rows + 0.5 + number), words)
        return drawing

    def _head(self, drawing: Drawing) -> None:
        letters = int(self.width * LETTERS_A_POINT)
        drawing.text(LINE, 22, shortened(self.sheet.title, letters // 2), "title")
        drawing.text(LINE, 38, f"Roof plan, {self.sheet.method}: {self.sheet.view}")
        others = " · ".join(words for _, words in self.sheet.statements[1:])
        drawing.text(LINE, 52, shortened(others, letters))
        for number, words in enumerate(self.verdict):
            drawing.text(LINE, 66 + LINE * number, words, "verdict")
        for view in self.views:
            if view.plan.north:
                self._north(drawing, self.width - 40, 34 if len(self.views) == 1 else view.top + 34, *view.plan.north)

    @staticmethod
    def _north(drawing: Drawing, x: float, y: float, along: float, up: float) -> None:
        """An arrow of 40 pt through (x, y) with its letter beyond the tip."""
        tip, tail = (x + 20 * along, y - 20 * up), (x - 20 * along, y + 20 * up)
        barbs = [(tip[0] - 8 * along - side * 4 * up, tip[1] + 8 * up - side * 4 * along) for side in (-1, 1)]
        drawing.path([tail, tip, barbs[0], tip, barbs[1]])
        drawing.text(x + 29 * along, y - 29 * up + 3.5, "N", "verdict", anchor="middle")

    def _bar(self, drawing: Drawing) -> None:
        """A bar of a round length, below the lowest eave."""
        length, words = bar_length(self.scale, 150 * POINT, self.stamp.system)
        down, wide = self.foot + FOOT - 20, length / self.point
        drawing.rectangle(LINE, down - 3, wide / 2, 3, "over")
        drawing.rectangle(LINE + wide / 2, down - 3, wide / 2, 3, "thin")
        drawing.text(LINE + wide + 8, down, f"{words}{self.scale_words}")

    def _legend_item(self, drawing: Drawing, item: LegendItem, x: float, y: float) -> None:
        if item.shape == "line":
            drawing.line(x, y - 3, x + 22, y - 3, item.style)
        elif item.shape == "rectangle":
            drawing.rectangle(x + 4, y - 8, 14, 9, item.style)
        elif item.shape == "clamp":
            drawing.rectangle(x + 10, y - 5, 2, 4, item.style)
        else:
            drawing.circle(x + 11, y - 3, radius(item.style, self.point), item.style)
        drawing.text(x + 28, y, item.words, "small")
