"""The roof plan as DXF: true scale in the plane of the slope in model space, and a sheet with a title block."""

from __future__ import annotations

import io
from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

import ezdxf
from ezdxf.enums import TextEntityAlignment

from engine.comparison.hardware_plan import Segments
from engine.comparison.plan_labels import numbered, row_numbers, zone_labels
from engine.export import dxf_parts
from engine.export.drawing_scale import Scale
from engine.export.dxf_parts import CLAMP, HOLDS, OVER, STYLE, UNCHECKED, UNITS, add_text, without_codes
from engine.export.dxf_sheet import LETTER, add_sheet, sheet_scale, stacked, stacked_height
from engine.export.plan_sheet import PlanSheet, SlopePlan
from engine.export.stamp import Stamp
from engine.export.svg import shortened
from engine.units import FOOT, text

if TYPE_CHECKING:
    from ezdxf.layouts import Modelspace

BLOCKS = {"holds": HOLDS, "over": OVER, "not checked": UNCHECKED}
"""Verdict of an attachment → its block."""

MIDDLE, RIGHT = TextEntityAlignment.MIDDLE_CENTER, TextEntityAlignment.MIDDLE_RIGHT
LEFT = TextEntityAlignment.MIDDLE_LEFT

LONGEST_NAME, LONGEST_PROPERTY = 60, 640


def plan_dxf(sheet: PlanSheet, stamp: Stamp) -> str:
    """The plans of a sheet, slopes one above the other; the same plans give the same text."""
    scale = sheet_scale(sheet, stamp.system)
    code, unit = UNITS[stamp.system]
    with dxf_parts.no_clock():
        document = ezdxf.new("R2010")
        document.units = code
        document.header["$MEASUREMENT"] = int(stamp.system == "si")
        for name, words in _statements(sheet):
            document.header.custom_vars.append(name, without_codes(shortened(words, LONGEST_PROPERTY)))
        models = [_Model(document.modelspace(), each, stamp, scale, base) for each, base in stacked(sheet, scale)]
        dxf_parts.add_layers(document)
        dxf_parts.add_styles(document, models[0].letter, decimals=2 if unit == FOOT else 3)
        dxf_parts.add_blocks(document, models[0].radius)
        for model in models:
            model.draw()
        height = stacked_height(sheet, scale)
        middle = sheet.length / 2 / unit, height / 2 / unit
        document.set_modelspace_vport(1.4 * max(height, 0.5 * sheet.length) / unit, middle)
        add_sheet(document, sheet, stamp, scale)
        for kind in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(kind)  # sorted, for the library's own order changes from run to run
        written = io.StringIO()
        document.write(written)
    return written.getvalue()


def _statements(sheet: PlanSheet) -> Iterator[tuple[str, str]]:
    """The file's properties: title, method, verdict of each slope, the rest of the stamp, cautions."""
    yield sheet.statements[0]
    yield "method", sheet.method
    yield from (("verdict", words) for words in sheet.verdicts)
    yield from sheet.statements[1:]
    yield from (("caution", words) for words in sheet.cautions)


class _Model:
    """A plan, and the model space it is drawn into in units of `unit` metres; letters suit the sheet's scale.

    `base` is the height of its eave in model space [m].
    """

    def __init__(self, space: Modelspace, drawn: SlopePlan, stamp: Stamp, scale: Scale, base: float) -> None:
        self.space, self.plan, self.name, self.stamp, self.base = space, drawn.plan, drawn.name, stamp, base
        self.unit = UNITS[stamp.system][1]
        self.size = LETTER * scale.ratio
        self.letter = self.size / self.unit
        self.radius = dxf_parts.RADIUS * self.letter

    def at(self, x: float, y: float) -> tuple[float, float]:
        return float(x) / self.unit, (self.base + float(y)) / self.unit

    def draw(self) -> None:
        self._roof()
        self._array()
        self._attachments()
        self._names()
        self._dimensions()

    def _roof(self) -> None:
        plan = self.plan
        self._box(0, 0, plan.length, plan.depth, "roof")
        for rib in plan.ribs:
            self._line(rib, 0, rib, plan.depth, "ribs")
        for rafter in plan.rafters:
            self._line(rafter, 0, rafter, plan.depth, "supports")
        for support in plan.supports:
            self._line(0, support, plan.length, support, "supports")
        self._lines(plan.borders, "zones")

    def _array(self) -> None:
        plan, at, hardware = self.plan, self.plan.modules, self.plan.hardware
        for module in zip(at.left, at.low, at.right, at.high, strict=True):
            self._box(*module, "modules")
        self._lines(plan.exposed_edges, "exposed-edges")
        self._lines(hardware.members, "members")
        self._lines(hardware.frames, "frames")
        for x, y in zip(hardware.clamp_x, hardware.clamp_y, strict=True):
            self.space.add_blockref(CLAMP, self.at(x, y), dxfattribs={"layer": "clamps"})
        for place in plan.keep_clear:
            (left, low), (wide, deep) = place.at, place.size
            self._box(left, low, left + wide, low + deep, "keep-clear")
            self._line(left, low, left + wide, low + deep, "keep-clear")
            self._line(left, low + deep, left + wide, low, "keep-clear")
            name = shortened(place.name, LONGEST_NAME)
            self._text(name, left + wide / 2, low + deep + 0.8 * self.size, "keep-clear", MIDDLE)

    def _attachments(self) -> None:
        """A block for each, whose attributes are its number, rib, uplift and utilisation."""
        each, system = self.plan.attachments, self.stamp.system
        for index, verdict in enumerate(each.verdicts):
            place = self.at(each.x[index], each.y[index])
            up, used = (None if all_ is None else float(all_[index]) for all_ in (each.up, each.utilisation))
            rib, uplift = self._rib(int(each.rib[index])), text(up, "force", system)
            values = (str(index + 1), rib, uplift, text(used, "ratio", system))
            dxf_parts.add_attachment(self.space, BLOCKS[verdict], place, self.radius, *values)

    def _rib(self, number: int) -> str:
        """A rib by its number, with its slope where there are several."""
        return ", ".join(filter(None, (self.name, f"{self.plan.rib_word} {number}")))

    def _names(self) -> None:
        """Names of the edges and zones, and numbers of ribs, supports and rows."""
        plan, size = self.plan, self.size
        self._text(plan.top, plan.length / 2, plan.depth + 3.2 * size, "notes", MIDDLE)
        self._text("eave", plan.length / 2, -3.2 * size, "notes", MIDDLE)
        if self.name:
            self._text(self.name, 0, plan.depth + 3.2 * size, "notes", LEFT)
        self._text(f"left {plan.side}", -1.2 * size, plan.depth / 2, "notes", MIDDLE, turned=True)
        for index in numbered(plan.ribs, 3 * size):
            for y in (-1.2 * size, plan.depth + 1.2 * size):
                self._text(str(index + 1), plan.ribs[index], y, "rib-numbers", MIDDLE)
        for index in numbered(plan.supports, 1.3 * size):
            self._text(str(index + 1), plan.length + size, plan.supports[index], "rib-numbers", LEFT)
        for row in row_numbers(plan, 1.2 * size):
            self._text(str(row.first), row.left - 0.8 * size, row.y, "row-numbers", RIGHT)
            self._text(str(row.last), row.right + 0.8 * size, row.y, "row-numbers", LEFT)
        for label in zone_labels(plan, 1.4 * size):
            if label.points_at:
                self._line(label.x - size, label.y, *label.points_at, "notes")
            self._text(label.name, label.x, label.y, "zones", MIDDLE, height=1.4)

    def _dimensions(self) -> None:
        """Two chains below the eave and two beside the left rake: roof and array, and the whole."""
        plan, size = self.plan, self.size
        for away, along, up in ((7.0, plan.along_eave, plan.up_slope), (9.5, (0, plan.length), (0, plan.depth))):
            for start, end in pairwise(along):
                self._dimension((start, 0), (end, 0), (0, -away * size), 0, end - start)
            for start, end in pairwise(up):
                self._dimension((0, start), (0, end), ((3.5 - away) * size, 0), 90, end - start)

    def _dimension(
        self,
        start: tuple[float, float],
        end: tuple[float, float],
        base: tuple[float, float],
        angle: float,
        length: float,
    ) -> None:
        words = self.stamp.length(length) if self.stamp.feet_and_inches else "<>"
        self.space.add_linear_dim(
            self.at(*base), self.at(*start), self.at(*end), angle=angle, text=words, dimstyle=STYLE,
            dxfattribs={"layer": "dimensions"},
        ).render()  # fmt: skip

    def _line(self, x1: float, y1: float, x2: float, y2: float, layer: str) -> None:
        self.space.add_line(self.at(x1, y1), self.at(x2, y2), dxfattribs={"layer": layer})

    def _lines(self, lines: Segments, layer: str) -> None:
        for line in zip(lines.x1, lines.y1, lines.x2, lines.y2, strict=True):
            self._line(*line, layer)

    def _box(self, left: float, low: float, right: float, high: float, layer: str) -> None:
        corners = [self.at(x, y) for x, y in ((left, low), (right, low), (right, high), (left, high))]
        self.space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})

    def _text(
        self,
        words: str,
        x: float,
        y: float,
        layer: str,
        align: TextEntityAlignment,
        *,
        turned: bool = False,
        height: float = 1.0,
    ) -> None:
        add_text(self.space, words, self.at(x, y), layer, height * self.letter, align, turned=turned)
