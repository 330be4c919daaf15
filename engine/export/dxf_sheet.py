"""The sheet of a DXF plan: a paper-space layout with the view to scale, legend, notes and title block."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import TYPE_CHECKING

from engine.export.drawing_scale import PAPERS, Scale, bar_length, scale_of
from engine.export.dxf_parts import CLAMP, HOLDS, OVER, UNCHECKED, UNITS, add_text
from engine.export.plan_legend import LegendItem
from engine.export.plan_sheet import PlanSheet, SlopePlan
from engine.export.stamp import Stamp
from engine.export.svg import shortened
from engine.units import INCH, System

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts import Paperspace

LETTER, TITLE_LETTER = 0.0025, 0.004
"""Heights of capital letters on paper [m]: ISO 3098's 2.5 mm, those of a 10 pt font; and the title's."""

EDGE, STRIP, TITLE_WIDTH = 0.01, 0.062, 0.125
"""Edge of the paper that stays free, height of the strip below the view, and width of the title block [m]."""

SECOND_COLUMN, NOTES = 0.110, 0.209
"""Places of the second column of the legend and of the notes, from the left of the strip [m]."""

LEFT, RIGHT, BELOW, ABOVE = 0.024, 0.026, 0.026, 0.014
"""Room around the roof for dimensions and names [m of paper]."""

PAPER_UNITS: dict[System, float] = {"us": INCH, "si": 0.001}
"""Unit of the sheet [m]."""

LINE = 1.7 * LETTER
LETTER_WIDTH = 0.72
"""Mean width of a letter, in heights of a capital one."""

LINES = {
    "member": "members",
    "frame": "frames",
    "edge": "exposed-edges",
    "zone": "zones",
    "rib": "ribs",
    "support": "supports",
}
RECTANGLES = {"module": "modules", "exposed": "modules", "clear": "keep-clear"}
BLOCKS = {"holds": HOLDS, "over": OVER, "not-checked": UNCHECKED, "clamp": CLAMP}
"""Style of a sign in the legend → its layer, or its block."""


def sheet_scale(sheet: PlanSheet, system: System) -> Scale:
    """The scale of the view."""
    wide, high = _view(system)
    room = high - len(sheet.slopes) * (BELOW + ABOVE)
    return scale_of(sheet.length, sheet.depth, wide - LEFT - RIGHT, room, system)


def stacked(sheet: PlanSheet, scale: Scale) -> Iterator[tuple[SlopePlan, float]]:
    """The slopes from the top of the sheet, each with the height of its eave above the lowest one [m]."""
    below = stacked_height(sheet, scale)
    for each in sheet.slopes:
        below -= each.plan.depth
        yield each, below
        below -= (BELOW + ABOVE) * scale.ratio


def stacked_height(sheet: PlanSheet, scale: Scale) -> float:
    """From the lowest eave to the highest upper edge, with the room between the slopes [m]."""
    return sheet.depth + (len(sheet.slopes) - 1) * (BELOW + ABOVE) * scale.ratio


def _view(system: System) -> tuple[float, float]:
    paper = PAPERS[system]
    return paper.width - 2 * EDGE, paper.height - 2 * EDGE - STRIP


def add_sheet(document: Drawing, contents: PlanSheet, stamp: Stamp, scale: Scale) -> None:
    """Add the layout."""
    document.layouts.rename("Layout1", "Plan")
    sheet = _Sheet(document.paperspace("Plan"), contents, stamp, scale)
    sheet.view()
    sheet.legend()
    sheet.notes()
    sheet.title_block()


class _Sheet:
    """A layout drawn in metres of paper from its lower left corner; the file has inches or millimetres."""

    def __init__(self, space: Paperspace, contents: PlanSheet, stamp: Stamp, scale: Scale) -> None:
        self.space, self.contents, self.stamp, self.scale = space, contents, stamp, scale
        self.paper, self.unit = PAPERS[stamp.system], PAPER_UNITS[stamp.system]
        size = (self.paper.width / self.unit, self.paper.height / self.unit)
        space.page_setup(size=size, margins=(0, 0, 0, 0), units="inch" if stamp.system == "us" else "mm")
        self.width, self.height = self.paper.width, self.paper.height

    def at(self, x: float, y: float) -> tuple[float, float]:
        return x / self.unit, y / self.unit

    def view(self) -> None:
        """The frame, and the model in the middle of its part of the sheet, to scale."""
        self._box(EDGE, EDGE, self.width - EDGE, self.height - EDGE)
        self._box(EDGE, EDGE, self.width - EDGE, EDGE + STRIP)
        wide, high = _view(self.stamp.system)
        ratio, model_unit = self.scale.ratio, UNITS[self.stamp.system][1]
        length, height = self.contents.length, stacked_height(self.contents, self.scale)
        middle = length / 2 + (RIGHT - LEFT) / 2 * ratio, height / 2 + (ABOVE - BELOW) / 2 * ratio
        view = self.space.add_viewport(
            center=self.at(EDGE + wide / 2, EDGE + STRIP + high / 2),
            size=self.at(wide, high),
            view_center_point=(middle[0] / model_unit, middle[1] / model_unit),
            view_height=high * ratio / model_unit,
        )
        view.dxf.layer = "viewport"
        for each, base in stacked(self.contents, self.scale):
            if each.plan.north:
                down = (height - base - each.plan.depth) / ratio
                self._north(self.width - EDGE - 0.014, self.height - EDGE - 0.016 - down, *each.plan.north)

    def _north(self, x: float, y: float, along: float, up: float) -> None:
        """An arrow of 14 mm through (x, y), with its letter beyond the tip."""
        half, barb, side = 0.007, 0.003, 0.0015
        tip, tail = (x + half * along, y + half * up), (x - half * along, y - half * up)
        barbs = [(tip[0] - barb * along - s * side * up, tip[1] - barb * up + s * side * along) for s in (-1, 1)]
        for start in (tail, *barbs):
            self._line(start, tip, "notes")
        self._text("N", x + 0.01 * along - LETTER / 2, y + 0.01 * up - LETTER / 2, "notes")

    def legend(self) -> None:
        """Two columns of signs at the left of the strip, below a scale bar."""
        length, words = bar_length(self.scale, 0.05, self.stamp.system)
        x, y, wide = EDGE + 0.004, EDGE + STRIP - 0.006, length / self.scale.ratio
        for step, start in enumerate((x, x + wide / 2)):
            self._box(start, y, start + wide / 2, y + 0.0012 * (2 - step), "notes")
        self._text(f"{words}; scale {self.scale.words} on {self.paper.name}", x + wide + 0.003, y, "notes")
        items = self.contents.legend
        rows = -(-len(items) // 2)
        for number, item in enumerate(items):
            self._item(item, x + SECOND_COLUMN * (number // rows), y - LINE * (number % rows + 1.3))

    def _item(self, item: LegendItem, x: float, y: float) -> None:
        middle = y + LETTER / 2
        if item.shape == "line":
            self._line((x, middle), (x + 0.008, middle), LINES[item.style])
        elif item.shape == "rectangle":
            self._box(x + 0.001, y - 0.0003, x + 0.007, y + LETTER + 0.0003, RECTANGLES[item.style])
        else:
            scale = UNITS[self.stamp.system][1] / self.unit / self.scale.ratio
            how = {"layer": "notes", "xscale": scale, "yscale": scale, "zscale": scale}
            self.space.add_blockref(BLOCKS[item.style], self.at(x + 0.004, middle), dxfattribs=how)
        self._text(item.words, x + 0.010, y, "notes")

    def notes(self) -> None:
        """Cautions beside the legend, as many lines as there is room for."""
        left = EDGE + NOTES
        width = self.width - EDGE - TITLE_WIDTH - 0.004 - left
        words = [*self.contents.cautions, "Lengths are in the plane of the slope, seen perpendicular to it."]
        lines = [line for each in words for line in textwrap.wrap(each, max(12, int(width / LETTER / LETTER_WIDTH)))]
        for number, line in enumerate(lines[: int(STRIP / LINE) - 1]):
            self._text(line, left, EDGE + STRIP - LINE * (number + 1.3), "notes")

    def title_block(self) -> None:
        """Job, drawing, verdict, standard, scale, date; who prepared it and the revision, to fill in."""
        left, right, top = self.width - EDGE - TITLE_WIDTH, self.width - EDGE, EDGE + STRIP
        self._line((left, EDGE), (left, top), "sheet")
        letters = int((TITLE_WIDTH - 0.006) / LETTER / LETTER_WIDTH)
        (_, title), (_, standard), (_, made), (_, date), (_, units) = self.contents.statements
        self._text(
            shortened(title, int(letters * LETTER / TITLE_LETTER)), left + 0.003, top - 0.008, "sheet", TITLE_LETTER
        )
        verdicts = [line for words in self.contents.verdicts for line in textwrap.wrap(words, letters)]
        lines = [f"Roof plan, {self.contents.method}", *verdicts[:4], standard, units]
        for number, words in enumerate(lines):
            self._text(shortened(words, letters), left + 0.003, top - 0.014 - LINE * number, "sheet")
        fields = (
            (f"scale {self.scale.words}", f"date {date}", made),
            ("prepared by", "checked by", "revision"),
        )
        for row, names in enumerate(fields):
            low = EDGE + 0.009 * (1 - row)
            self._line((left, low + 0.009), (right, low + 0.009), "sheet")
            for place, name in enumerate(names):
                start = left + TITLE_WIDTH / 3 * place
                self._line((start, low), (start, low + 0.009), "sheet")
                self._text(name, start + 0.002, low + 0.005, "sheet")

    def _text(self, words: str, x: float, y: float, layer: str, height: float = LETTER) -> None:
        add_text(self.space, words, self.at(x, y), layer, height / self.unit)

    def _line(self, start: tuple[float, float], end: tuple[float, float], layer: str) -> None:
        self.space.add_line(self.at(*start), self.at(*end), dxfattribs={"layer": layer})

    def _box(self, left: float, low: float, right: float, high: float, layer: str = "sheet") -> None:
        corners = [self.at(*corner) for corner in ((left, low), (right, low), (right, high), (left, high))]
        self.space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})
