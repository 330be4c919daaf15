"""The roof plan as SVG: to scale, in black and grey, fit for any printer."""

from __future__ import annotations

import textwrap
from itertools import pairwise

import numpy as np

from engine.comparison.compare import Column, Comparison
from engine.comparison.figures.verdict import verdict_line
from engine.comparison.roof_plan import Plan, Segments
from engine.export.stamp import Stamp
from engine.export.svg import Drawing, shortened
from engine.mounting.layout import Rectangles
from engine.units import both

WIDTH, MARGIN, HEAD = 1200.0, 70.0, 84.0
MAX_HEIGHT = 1500.0
LINE, ROOM = 15.0, 7.5
VERDICT_LETTERS = 170
STYLES = {
    "text": "font-size: 11px; fill: #000; "
    "paint-order: stroke; stroke: #fff; stroke-width: 2.5px; stroke-linejoin: round",
    ".title": "font-size: 16px; font-weight: bold",
    ".verdict": "font-weight: bold",
    ".small": "font-size: 8px",
    ".zone-name": "font-size: 15px; font-weight: bold; fill: #444",
    "line": "stroke: #000; stroke-width: 1",
    "rect": "fill: none; stroke: #000; stroke-width: 1",
    "circle": "fill: none; stroke: #000; stroke-width: 1",
    ".thin": "stroke-width: .7",
    ".roof": "stroke-width: 2",
    ".rib": "stroke: #ccc; stroke-width: .5",
    ".support": "stroke: #bbb; stroke-width: .5; stroke-dasharray: 2 3",
    ".zone": "stroke: #444; stroke-dasharray: 9 4",
    ".edge": "stroke-width: 2.5",
    ".clear": "fill: #fff; stroke-dasharray: 4 2",
    ".module": "fill: #fff; fill-opacity: .8; stroke: #555; stroke-width: .8",
    ".exposed": "fill: #e4e4e4; fill-opacity: .85; stroke: #555; stroke-width: .8",
    ".holds": "fill: #fff; stroke-width: .8",
    ".over": "fill: #000",
    ".not-checked": "stroke: #777; stroke-width: .8",
}

LEGEND = (
    "Numbers at both ends of a row: attachment schedule. Long dashes and large labels: wind zones of the roof. "
    "Grey modules are exposed to wind; heavy lines are their exposed edges. Crossed: keep-clear area. "
    "Thin upright lines: every rib. Dotted lines: purlins or other supports."
)
RAFTERS = " Dotted upright lines: rafters."


def plan_svg(comparison: Comparison, column: Column, plan: Plan, stamp: Stamp) -> str:
    """The roof plan of one method."""
    return _Sheet(plan, column).drawn(comparison, column, stamp)


class _Sheet:
    """A plan and its scale: metres on the slope to pixels on the sheet."""

    def __init__(self, plan: Plan, column: Column) -> None:
        self.plan = plan
        self.verdict = textwrap.wrap(f"{column.title}: {verdict_line(column)}", VERDICT_LETTERS)
        self.scale = min((WIDTH - 2 * MARGIN) / plan.length, MAX_HEIGHT / plan.depth)
        self.foot = HEAD + LINE * len(self.verdict) + plan.depth * self.scale

    def x(self, metres: float) -> float:
        return MARGIN + float(metres) * self.scale

    def y(self, metres: float) -> float:
        return self.foot - float(metres) * self.scale

    def drawn(self, comparison: Comparison, column: Column, stamp: Stamp) -> str:
        legend = f"{_circles(self.plan.attachments.is_checked)} {LEGEND}{RAFTERS if len(self.plan.rafters) else ''}"
        notes = [line for words in (legend, *comparison.cautions) for line in textwrap.wrap(words, 175)]
        drawing = Drawing(
            "plan", WIDTH, self.foot + 90 + LINE * len(notes), f"{comparison.title}: {column.title}", STYLES
        )
        self._head(drawing, comparison, column, stamp)
        self._roof(drawing)
        self._array(drawing)
        self._attachments(drawing)
        for name, x, y in self.plan.zone_places:
            drawing.text(self.x(x), self.y(y) + 5, name, "zone-name", anchor="middle")
        self._dimensions(drawing)
        for number, words in enumerate(notes):
            drawing.text(MARGIN, self.foot + 80 + LINE * number, words)
        return drawing.written()

    def _head(self, drawing: Drawing, comparison: Comparison, column: Column, stamp: Stamp) -> None:
        (_, title), *others = stamp.of(comparison)
        drawing.text(MARGIN, 26, shortened(title, 110), "title")
        drawing.text(MARGIN, 44, f"Roof plan, {column.title}: one slope, seen perpendicular to it")
        drawing.text(MARGIN, 60, shortened(" · ".join(words for _, words in others), 180))
        for number, words in enumerate(self.verdict):
            drawing.text(MARGIN, 76 + LINE * number, words, "verdict")

    def _roof(self, drawing: Drawing) -> None:
        plan = self.plan
        for rib in plan.ribs:
            drawing.line(self.x(rib), self.y(0), self.x(rib), self.y(plan.depth), "rib")
        for rafter in plan.rafters:
            drawing.line(self.x(rafter), self.y(0), self.x(rafter), self.y(plan.depth), "support")
        for support in plan.supports:
            drawing.line(self.x(0), self.y(support), self.x(plan.length), self.y(support), "support")
        self._segments(drawing, plan.borders, "zone")
        drawing.rectangle(self.x(0), self.y(plan.depth), plan.length * self.scale, plan.depth * self.scale, "roof")
        drawing.text(self.x(plan.length / 2), self.y(plan.depth) - 6, plan.top, anchor="middle")
        drawing.text(self.x(plan.length / 2), self.foot + 14, "eave", anchor="middle")

    def _array(self, drawing: Drawing) -> None:
        plan = self.plan
        for module, exposed in enumerate(plan.exposed.tolist()):
            self._rectangle(drawing, plan.modules, module, "exposed" if exposed else "module")
        self._segments(drawing, plan.exposed_edges, "edge")
        for place in plan.keep_clear:
            (left, low), (wide, deep) = place.at, place.size
            drawing.rectangle(self.x(left), self.y(low + deep), wide * self.scale, deep * self.scale, "clear")
            drawing.line(self.x(left), self.y(low), self.x(left + wide), self.y(low + deep), "thin")
            drawing.line(self.x(left), self.y(low + deep), self.x(left + wide), self.y(low), "thin")
            drawing.text(self.x(left + wide / 2), self.y(low + deep) - 3, place.name, "small", anchor="middle")

    def _attachments(self, drawing: Drawing) -> None:
        """Every attachment, and the numbers at both ends of each row."""
        attachments = self.plan.attachments
        for x, y, verdict in zip(attachments.x, attachments.y, attachments.verdicts, strict=True):
            drawing.circle(self.x(x), self.y(y), 3.4 if verdict == "over" else 2.2, verdict.replace(" ", "-"))
        self._row_numbers(drawing)

    def _row_numbers(self, drawing: Drawing) -> None:
        """First and last number of each row beside the array, if rows leave room for them."""
        attachments, (_, left, right, _), below = self.plan.attachments, self.plan.along_eave, self.foot + MARGIN
        firsts = np.flatnonzero(np.diff(attachments.row, prepend=0))
        for first, last in zip(firsts, np.append(firsts[1:], len(attachments)), strict=True):
            here = self.y(attachments.y[first])
            if below - here >= ROOM:
                drawing.text(self.x(left) - 6, here + 3, str(first + 1), "small", anchor="end")
                drawing.text(self.x(right) + 6, here + 3, str(last), "small")
                below = here

    def _dimensions(self, drawing: Drawing) -> None:
        """A chain below the eave and one beside the left rake."""
        along, up = self.plan.along_eave, self.plan.up_slope
        for start, end in pairwise(along):
            self._measure(drawing, (self.x(start), self.foot + 36), (self.x(end), self.foot + 36), end - start)
        for start, end in pairwise(up):
            self._measure(drawing, (MARGIN - 26, self.y(start)), (MARGIN - 26, self.y(end)), end - start)

    def _measure(self, drawing: Drawing, start: tuple[float, float], end: tuple[float, float], length: float) -> None:
        upright = start[0] == end[0]
        drawing.line(*start, *end, "thin")
        for x, y in (start, end):
            drawing.line(x - 3, y + 3, x + 3, y - 3, "thin")
        middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
        drawing.text(
            middle[0] - (5 if upright else 0),
            middle[1] - (0 if upright else 5),
            both(length, "length"),
            anchor="middle",
            turned=upright,
        )

    def _rectangle(self, drawing: Drawing, at: Rectangles, which: int, style: str) -> None:
        left, high = self.x(at.left[which]), self.y(at.high[which])
        drawing.rectangle(left, high, self.x(at.right[which]) - left, self.y(at.low[which]) - high, style)

    def _segments(self, drawing: Drawing, lines: Segments, style: str) -> None:
        for x1, y1, x2, y2 in zip(lines.x1, lines.y1, lines.x2, lines.y2, strict=True):
            drawing.line(self.x(x1), self.y(y1), self.x(x2), self.y(y2), style)


def _circles(checked: str) -> str:
    """The legend of the circles: it covers the components checked there, no others."""
    if not checked:
        return "Grey circle: an attachment, not checked."
    return (
        f"Open circle: {checked} hold there; the verdict of the whole method is above. "
        "Large filled circle: one of them is over, there or beside it."
    )
