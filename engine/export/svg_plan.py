"""The roof plan as SVG: a sheet to print at full size, to a usual scale, in black and grey; no letters under 8 pt."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from itertools import pairwise

from engine.comparison.compare import Column, Comparison
from engine.comparison.figures.verdict import verdict_line
from engine.comparison.hardware_plan import Segments
from engine.comparison.plan_labels import numbered, row_numbers, zone_labels
from engine.comparison.roof_plan import Plan
from engine.export.drawing_scale import EDGE, PAPERS, POINT, Paper, bar_length, scale_of
from engine.export.plan_legend import LegendItem, legend
from engine.export.stamp import Stamp
from engine.export.svg import Drawing, shortened
from engine.mounting.layout import Rectangles

LEFT, RIGHT = 66.0, 76.0
HEAD, TOP, FOOT = 70.0, 30.0, 100.0
"""Room beside the roof, for the head, between head and roof, and from the eave to the legend [pt]."""

LINE, LETTER, ZONE_LETTER = 13.0, 8.0, 13.0
CIRCLE = 0.25
"""Radius of an attachment's circle, where neither larger nor smaller than its limits on paper [m]."""

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


def plan_drawing(
    comparison: Comparison, column: Column, plan: Plan, stamp: Stamp, paper: Paper | None = None
) -> Drawing:
    """The roof plan of one method on a sheet of paper; None: the usual one of the units."""
    return _Sheet(plan, column, stamp, paper or PAPERS[stamp.system]).drawn(comparison, column)


class _Sheet:
    """A plan and its scale: metres on the slope to points on the sheet."""

    def __init__(self, plan: Plan, column: Column, stamp: Stamp, paper: Paper) -> None:
        self.plan, self.stamp, self.legend = plan, stamp, legend(plan)
        sides = paper.width - 2 * EDGE, paper.height - 2 * EDGE
        words = f"{column.title}: {verdict_line(column)}"
        options = []
        for width, height in (sides, sides[::-1]):
            verdict = textwrap.wrap(words, int(width / POINT * LETTERS_A_POINT))
            above = HEAD + LINE * len(verdict) + TOP
            below = FOOT + LINE * (self._legend_rows(width / POINT) + NOTES)
            room = width - (LEFT + RIGHT) * POINT, height - (above + below) * POINT
            options.append((scale_of(plan.length, plan.depth, *room, stamp.system), width, above, verdict))
        self.exact = paper.exact
        self.scale, width, self.above, self.verdict = min(options, key=lambda option: option[0].ratio)
        self.width, self.point = width / POINT, self.scale.ratio * POINT
        self.foot = self.above + plan.depth / self.point
        self.left = LEFT + (self.width - LEFT - RIGHT - plan.length / self.point) / 2

    @property
    def scale_words(self) -> str:
        """The scale after the bar, where the sheet is printed at its own size."""
        return f"; scale {self.scale.words} on paper printed at full size" if self.exact else ""

    def _legend_rows(self, width: float) -> int:
        columns = max(1, int((width - 2 * LINE) / COLUMN))
        return -(-len(self.legend) // columns)

    def x(self, metres: float) -> float:
        return self.left + float(metres) / self.point

    def y(self, metres: float) -> float:
        return self.foot - float(metres) / self.point

    def drawn(self, comparison: Comparison, column: Column) -> Drawing:
        letters = int(self.width * LETTERS_A_POINT)
        notes = [line for words in (ROWS, *comparison.cautions) for line in textwrap.wrap(words, letters)]
        rows = self._legend_rows(self.width)
        height = self.foot + FOOT + LINE * (rows + len(notes) + 1)
        title = f"{comparison.title}: {column.title}"
        drawing = Drawing("plan", self.width, height, title, STYLES, unit="pt")
        self._head(drawing, comparison, column)
        self._roof(drawing)
        self._array(drawing)
        self._hardware(drawing)
        self._names(drawing)
        self._dimensions(drawing)
        for number, item in enumerate(self.legend):
            down, across = number % rows, number // rows
            self._legend_item(drawing, item, LINE + COLUMN * across, self.foot + FOOT + LINE * down)
        for number, words in enumerate(notes):
            drawing.text(LINE, self.foot + FOOT + LINE * (rows + 0.5 + number), words)
        return drawing

    def _head(self, drawing: Drawing, comparison: Comparison, column: Column) -> None:
        (_, title), *others = self.stamp.of(comparison)
        letters = int(self.width * LETTERS_A_POINT)
        drawing.text(LINE, 22, shortened(title, letters // 2), "title")
        drawing.text(LINE, 38, f"Roof plan, {column.title}: one slope, seen perpendicular to it")
        drawing.text(LINE, 52, shortened(" · ".join(words for _, words in others), letters))
        for number, words in enumerate(self.verdict):
            drawing.text(LINE, 66 + LINE * number, words, "verdict")
        if self.plan.north:
            self._north(drawing, self.width - 40, 34, *self.plan.north)

    @staticmethod
    def _north(drawing: Drawing, x: float, y: float, along: float, up: float) -> None:
        """An arrow of 40 pt through (x, y) with its letter beyond the tip."""
        tip, tail = (x + 20 * along, y - 20 * up), (x - 20 * along, y + 20 * up)
        barbs = [(tip[0] - 8 * along - side * 4 * up, tip[1] + 8 * up - side * 4 * along) for side in (-1, 1)]
        drawing.path([tail, tip, barbs[0], tip, barbs[1]])
        drawing.text(x + 29 * along, y - 29 * up + 3.5, "N", "verdict", anchor="middle")

    def _roof(self, drawing: Drawing) -> None:
        plan = self.plan
        for rib in plan.ribs:
            drawing.line(self.x(rib), self.y(0), self.x(rib), self.y(plan.depth), "rib")
        for rafter in plan.rafters:
            drawing.line(self.x(rafter), self.y(0), self.x(rafter), self.y(plan.depth), "support")
        for support in plan.supports:
            drawing.line(self.x(0), self.y(support), self.x(plan.length), self.y(support), "support")
        self._segments(drawing, plan.borders, "zone")
        drawing.rectangle(self.x(0), self.y(plan.depth), plan.length / self.point, plan.depth / self.point, "roof")

    def _array(self, drawing: Drawing) -> None:
        plan = self.plan
        for module, exposed in enumerate(plan.exposed.tolist()):
            self._rectangle(drawing, plan.modules, module, "exposed" if exposed else "module")
        self._segments(drawing, plan.exposed_edges, "edge")
        for place in plan.keep_clear:
            (left, low), (wide, deep) = place.at, place.size
            drawing.rectangle(self.x(left), self.y(low + deep), wide / self.point, deep / self.point, "clear")
            drawing.line(self.x(left), self.y(low), self.x(left + wide), self.y(low + deep), "thin")
            drawing.line(self.x(left), self.y(low + deep), self.x(left + wide), self.y(low), "thin")

    def _hardware(self, drawing: Drawing) -> None:
        """Members, clamps and every attachment, and the numbers at both ends of each row."""
        hardware, attachments = self.plan.hardware, self.plan.attachments
        self._segments(drawing, hardware.members, "member")
        self._segments(drawing, hardware.frames, "frame")
        for x, y in zip(hardware.clamp_x, hardware.clamp_y, strict=True):
            drawing.rectangle(self.x(x) - 1, self.y(y) - 2, 2, 4, "clamp")
        for x, y, verdict in zip(attachments.x, attachments.y, attachments.verdicts, strict=True):
            drawing.circle(self.x(x), self.y(y), self._radius(verdict), verdict.replace(" ", "-"))
        for row in row_numbers(self.plan, LETTER * self.point):
            drawing.text(self.x(row.left) - 6, self.y(row.y) + 3, str(row.first), "small", anchor="end")
            drawing.text(self.x(row.right) + 6, self.y(row.y) + 3, str(row.last), "small")

    def _radius(self, verdict: str) -> float:
        """Radius of an attachment's circle [pt], smaller where a small scale crowds them."""
        return min(2.2, max(1.2, CIRCLE / self.point)) * (1.5 if verdict == "over" else 1.0)

    def _names(self, drawing: Drawing) -> None:
        """Names of the edges and zones, and numbers of ribs and supports."""
        plan, middle = self.plan, self.x(self.plan.length / 2)
        drawing.text(middle, self.y(plan.depth) - 18, plan.top, anchor="middle")
        drawing.text(middle, self.foot + 24, "eave", anchor="middle")
        drawing.text(self.x(0) - 6, self.y(plan.depth / 2), f"left {plan.side}", anchor="middle", turned=True)
        for index in numbered(plan.ribs, 20 * self.point):
            for y in (self.foot + 10, self.y(plan.depth) - 5):
                drawing.text(self.x(plan.ribs[index]), y, str(index + 1), "small", anchor="middle")
        for index in numbered(plan.supports, 9 * self.point):
            drawing.text(self.x(plan.length) + 5, self.y(plan.supports[index]) + 3, str(index + 1), "small")
        for place in plan.keep_clear:
            x, y = self.x(place.at[0] + place.size[0] / 2), self.y(place.at[1] + place.size[1]) - 3
            drawing.text(x, y, place.name, "small", anchor="middle")
        for label in zone_labels(plan, 0.75 * ZONE_LETTER * self.point):
            if label.points_at:
                x, y = label.points_at
                drawing.line(self.x(label.x) - 8, self.y(label.y), self.x(x), self.y(y), "thin")
                drawing.circle(self.x(x), self.y(y), 1.5, "over")
            drawing.text(self.x(label.x), self.y(label.y) + 4.5, label.name, "zone-name", anchor="middle")

    def _dimensions(self, drawing: Drawing) -> None:
        """Two chains below the eave and two beside the left rake, and a scale bar."""
        for away, chains in enumerate(((self.plan.along_eave, self.plan.up_slope), self._whole())):
            down, left = self.foot + 44 + 18 * away, self.x(0) - 26 - 18 * away
            for start, end in pairwise(chains[0]):
                self._measure(drawing, (self.x(start), down), (self.x(end), down), end - start)
            for start, end in pairwise(chains[1]):
                self._measure(drawing, (left, self.y(start)), (left, self.y(end)), end - start)
        length, words = bar_length(self.scale, 150 * POINT, self.stamp.system)
        down, wide = self.foot + FOOT - 20, length / self.point
        drawing.rectangle(LINE, down - 3, wide / 2, 3, "over")
        drawing.rectangle(LINE + wide / 2, down - 3, wide / 2, 3, "thin")
        drawing.text(LINE + wide + 8, down, f"{words}{self.scale_words}")

    def _whole(self) -> tuple[Sequence[float], Sequence[float]]:
        return (0.0, self.plan.length), (0.0, self.plan.depth)

    def _measure(self, drawing: Drawing, start: tuple[float, float], end: tuple[float, float], length: float) -> None:
        upright, words = start[0] == end[0], self.stamp.length(length)
        drawing.line(*start, *end, "thin")
        for x, y in (start, end):
            drawing.line(x - 3, y + 3, x + 3, y - 3, "thin")
        if abs(end[0] - start[0]) + abs(end[1] - start[1]) < 4 * len(words):
            return  # too short for its words; the chain's other parts and the whole give it
        middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
        x, y = middle[0] - (4 if upright else 0), middle[1] - (0 if upright else 4)
        drawing.text(x, y, words, "small", anchor="middle", turned=upright)

    def _legend_item(self, drawing: Drawing, item: LegendItem, x: float, y: float) -> None:
        if item.shape == "line":
            drawing.line(x, y - 3, x + 22, y - 3, item.style)
        elif item.shape == "rectangle":
            drawing.rectangle(x + 4, y - 8, 14, 9, item.style)
        elif item.shape == "clamp":
            drawing.rectangle(x + 10, y - 5, 2, 4, item.style)
        else:
            drawing.circle(x + 11, y - 3, self._radius(item.style), item.style)
        drawing.text(x + 28, y, item.words, "small")

    def _rectangle(self, drawing: Drawing, at: Rectangles, which: int, style: str) -> None:
        left, high = self.x(at.left[which]), self.y(at.high[which])
        drawing.rectangle(left, high, self.x(at.right[which]) - left, self.y(at.low[which]) - high, style)

    def _segments(self, drawing: Drawing, lines: Segments, style: str) -> None:
        for x1, y1, x2, y2 in zip(lines.x1, lines.y1, lines.x2, lines.y2, strict=True):
            drawing.line(self.x(x1), self.y(y1), self.x(x2), self.y(y2), style)
