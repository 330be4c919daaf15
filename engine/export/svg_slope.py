"""One slope of a roof plan as SVG: the roof, its zones, modules and hardware, names, numbers and dimensions."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from engine.comparison.hardware_plan import Segments
from engine.comparison.plan_labels import numbered, row_numbers, zone_labels
from engine.comparison.roof_plan import Plan
from engine.export.stamp import Stamp
from engine.export.svg import Drawing
from engine.mounting.layout import Rectangles

LETTER, ZONE_LETTER = 8.0, 13.0
CIRCLE = 0.25
"""Radius of an attachment's circle, where neither larger nor smaller than its limits on paper [m]."""


def radius(verdict: str, point: float) -> float:
    """Radius of an attachment's circle [pt], smaller where a small scale crowds them; `point` is on the roof [m]."""
    return min(2.2, max(1.2, CIRCLE / point)) * (1.5 if verdict == "over" else 1.0)


class SlopeView:
    """A slope on a sheet, where a point is `point` metres; `left` and `foot` [pt]: places of its left rake and eave."""

    def __init__(self, plan: Plan, stamp: Stamp, point: float, left: float, foot: float) -> None:
        self.plan, self.stamp, self.point, self.left, self.foot = plan, stamp, point, left, foot

    @property
    def top(self) -> float:
        """Height of its upper edge on the sheet [pt]."""
        return self.y(self.plan.depth)

    def x(self, metres: float) -> float:
        """A place along the eave on the sheet [pt]."""
        return self.left + float(metres) / self.point

    def y(self, metres: float) -> float:
        """A place up the slope on the sheet [pt]."""
        return self.foot - float(metres) / self.point

    def draw(self, drawing: Drawing) -> None:
        """Draw everything on the slope, and its dimensions."""
        self._roof(drawing)
        self._array(drawing)
        self._hardware(drawing)
        self._names(drawing)
        self._dimensions(drawing)

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
            drawing.circle(self.x(x), self.y(y), radius(verdict, self.point), verdict.replace(" ", "-"))
        for row in row_numbers(self.plan, LETTER * self.point):
            drawing.text(self.x(row.left) - 6, self.y(row.y) + 3, str(row.first), "small", anchor="end")
            drawing.text(self.x(row.right) + 6, self.y(row.y) + 3, str(row.last), "small")

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
        """Two chains below the eave and two beside the left rake."""
        for away, chains in enumerate(((self.plan.along_eave, self.plan.up_slope), self._whole())):
            down, left = self.foot + 44 + 18 * away, self.x(0) - 26 - 18 * away
            for start, end in pairwise(chains[0]):
                self._measure(drawing, (self.x(start), down), (self.x(end), down), end - start)
            for start, end in pairwise(chains[1]):
                self._measure(drawing, (left, self.y(start)), (left, self.y(end)), end - start)

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

    def _rectangle(self, drawing: Drawing, at: Rectangles, which: int, style: str) -> None:
        left, high = self.x(at.left[which]), self.y(at.high[which])
        drawing.rectangle(left, high, self.x(at.right[which]) - left, self.y(at.low[which]) - high, style)

    def _segments(self, drawing: Drawing, lines: Segments, style: str) -> None:
        for x1, y1, x2, y2 in zip(lines.x1, lines.y1, lines.x2, lines.y2, strict=True):
            drawing.line(self.x(x1), self.y(y1), self.x(x2), self.y(y2), style)
