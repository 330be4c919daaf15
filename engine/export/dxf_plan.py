"""The roof plan as DXF: true scale in the plane of the slope, one layer a subject."""

from __future__ import annotations

import io
import re
import textwrap
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import pairwise
from typing import TYPE_CHECKING

import ezdxf
from ezdxf.enums import TextEntityAlignment

from engine.comparison.compare import Column, Comparison
from engine.comparison.roof_plan import Plan
from engine.export.stamp import Stamp
from engine.export.svg import shortened
from engine.units import FOOT

if TYPE_CHECKING:
    from ezdxf.layouts import Modelspace

LAYERS = {
    "roof": 7,
    "ribs": 9,
    "zones": 5,
    "modules": 8,
    "keep-clear": 1,
    "attachments": 3,
    "numbers": 9,
    "dimensions": 7,
    "notes": 7,
}
"""Layer → colour index; all print black on a monochrome plotter."""

UNITS = {"us": (2, FOOT), "si": (6, 1.0)}
"""System → the file's unit code ($INSUNITS: feet, metres) and that unit's size [m]."""

LETTER, SMALL, RADIUS = 0.35, 0.1, 0.08
"""Heights of letters and radius of an attachment [m]."""

MAX_LINE, LONGEST_NOTE = 160, 640


def plan_dxf(comparison: Comparison, column: Column, plan: Plan, stamp: Stamp) -> str:
    """The roof plan of one method; the same plan gives the same text."""
    with _no_clock():
        document = ezdxf.new("R2010", setup=["linetypes"])
        code, size = UNITS[stamp.system]
        document.units = code
        document.header["$MEASUREMENT"] = int(stamp.system == "si")
        for name, colour in LAYERS.items():
            document.layers.add(name, color=colour)
        _Model(document.modelspace(), plan, size).draw(comparison, column, stamp)
        for kind in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(kind)  # sorted, for the library's own order changes from run to run
        written = io.StringIO()
        document.write(written)
    return written.getvalue()


@contextmanager
def _no_clock() -> Iterator[None]:
    """Keep times and random names out of the file; the library's option is global, so it is restored."""
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before


class _Model:
    """A plan, and the model space it is drawn into in units of `size` metres."""

    def __init__(self, space: Modelspace, plan: Plan, size: float) -> None:
        self.space, self.plan, self.size = space, plan, size

    def draw(self, comparison: Comparison, column: Column, stamp: Stamp) -> None:
        plan = self.plan
        self._box(0, 0, plan.length, plan.depth, "roof")
        for rib in plan.ribs:
            self._line(rib, 0, rib, plan.depth, "ribs")
        borders = plan.borders
        for border in zip(borders.x1, borders.y1, borders.x2, borders.y2, strict=True):
            self._line(*border, "zones", linetype="DASHED")
        for name, x, y in plan.zone_places:
            self._text(name, x, y, "zones", 2 * LETTER)
        at = plan.modules
        for module in zip(at.left, at.low, at.right, at.high, strict=True):
            self._box(*module, "modules")
        for place in plan.keep_clear:
            (left, low), (wide, deep) = place.at, place.size
            self._box(left, low, left + wide, low + deep, "keep-clear")
            self._text(shortened(place.name, MAX_LINE), left, low + deep + SMALL, "keep-clear", LETTER / 2)
        self._attachments()
        self._dimensions()
        self._notes(comparison, column, stamp)

    def _attachments(self) -> None:
        """Circles with their numbers, crossed if a component at or beside them is over."""
        attachments = self.plan.attachments
        for number, (x, y, verdict) in enumerate(
            zip(attachments.x, attachments.y, attachments.verdicts, strict=True), 1
        ):
            self.space.add_circle(self._at(x, y), RADIUS / self.size, dxfattribs={"layer": "attachments"})
            if verdict == "over":
                self._line(x - RADIUS, y - RADIUS, x + RADIUS, y + RADIUS, "attachments")
                self._line(x - RADIUS, y + RADIUS, x + RADIUS, y - RADIUS, "attachments")
            self._text(str(number), x + RADIUS, y + RADIUS, "numbers", SMALL)

    def _dimensions(self) -> None:
        style = {
            "dimtxt": LETTER / self.size,
            "dimasz": LETTER / self.size,
            "dimexe": SMALL / self.size,
            "dimexo": SMALL / self.size,
        }
        for start, end in pairwise(self.plan.along_eave):
            self._dimension((start, 0), (end, 0), (0, -4 * LETTER), 0, style)
        for start, end in pairwise(self.plan.up_slope):
            self._dimension((0, start), (0, end), (-4 * LETTER, 0), 90, style)

    def _dimension(
        self,
        start: tuple[float, float],
        end: tuple[float, float],
        base: tuple[float, float],
        angle: float,
        style: dict[str, float],
    ) -> None:
        override = style | {"dimdec": 2 if self.size == FOOT else 3, "dimtad": 1}
        layer = {"layer": "dimensions"}
        self.space.add_linear_dim(
            self._at(*base), self._at(*start), self._at(*end), angle=angle, override=override, dxfattribs=layer
        ).render()

    def _notes(self, comparison: Comparison, column: Column, stamp: Stamp) -> None:
        words = [f"{name}: {words}" for name, words in stamp.of_method(comparison, column)]
        words.append("one slope, seen perpendicular to it; lengths are in the plane of the slope")
        is_checked = self.plan.attachments.is_checked
        words.append(
            f"open circle: {is_checked} hold there; crossed: one of them does not"
            if is_checked
            else "circle: not checked"
        )
        lines = [line for each in words for line in textwrap.wrap(shortened(each, LONGEST_NOTE), MAX_LINE)]
        for line, each in enumerate(lines):
            self._text(each, 0, -(8 + 1.6 * line) * LETTER, "notes", LETTER)

    def _at(self, x: float, y: float) -> tuple[float, float]:
        return float(x) / self.size, float(y) / self.size

    def _line(self, x1: float, y1: float, x2: float, y2: float, layer: str, linetype: str = "BYLAYER") -> None:
        self.space.add_line(self._at(x1, y1), self._at(x2, y2), dxfattribs={"layer": layer, "linetype": linetype})

    def _box(self, left: float, low: float, right: float, high: float, layer: str) -> None:
        corners = [self._at(x, y) for x, y in ((left, low), (right, low), (right, high), (left, high))]
        self.space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})

    def _text(self, words: str, x: float, y: float, layer: str, height: float) -> None:
        """One line of text, shown as it is given."""
        text = self.space.add_text(_without_codes(words), height=height / self.size, dxfattribs={"layer": layer})
        text.set_placement(self._at(x, y), align=TextEntityAlignment.LEFT)


def _without_codes(words: str) -> str:
    """Text in which nothing starts a code: signs such as "%%c" are separated, and a caret is its own code, "^ "."""
    return re.sub(r"%(?=%)|\\(?=[UM]\+)|\^", r"\g<0> ", words)
