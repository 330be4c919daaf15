"""Drawing on the roof: the array and its keep-clear areas moved and changed by steps. It knows no screen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from engine.project.array import KeepClear
from engine.project.job import Job
from engine.units import INCH, System
from tui.model.inputs import Inputs

ORIGIN, ROWS, COLUMNS, AREAS = (("array", key) for key in ("origin", "rows", "columns", "keep_clear"))
STEPS = ("module", "seam", "inch")
LEFT_OUT = "left out"
"""Name of the keep-clear area that leaves out one module."""

NEW_AREA = (4 * 12 * INCH, 8 * 12 * INCH)
"""Size of a new keep-clear area, of a common skylight panel [m] (judgement)."""

INSET = 0.1
"""Part of a module that its own keep-clear area keeps away from its edges, so that no neighbour is touched."""

MOST = 1000
Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Target:
    """The part that the keys change: the array, a keep-clear area by its number, or a module by its middle [m]."""

    kind: Literal["array", "area", "module"] = "array"
    number: int = 0
    place: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True)
class Drawing:
    """The inputs and their job; every change gives the inputs after it."""

    inputs: Inputs
    job: Job
    system: System

    @property
    def areas(self) -> tuple[KeepClear, ...]:
        """The keep-clear areas."""
        return self.job.array.keep_clear

    def step(self, name: str) -> tuple[float, float]:
        """Length of a step along the eave and up the slope [m]."""
        roof, module, gap = self.job.roof, self.job.module, self.job.array.gap
        if name == "module":
            return module.length + gap, module.width + gap
        if name == "seam":
            return roof.rib_spacing, roof.support_spacing
        inch = INCH if self.system == "us" else 0.01
        return inch, inch

    def array_moved(self, along: float, up: float) -> Inputs:
        """The array moved, but not beyond the left rake or the eave."""
        x, y = self.job.array.origin
        return self.inputs.with_value(ORIGIN, self._pair(max(0.0, x + along), max(0.0, y + up)))

    def array_resized(self, rows: int, columns: int) -> Inputs:
        """The array with more rows and columns, or with fewer."""
        array = self.job.array
        inputs = self.inputs.with_value(ROWS, min(MOST, max(1, array.rows + rows)))
        return inputs.with_value(COLUMNS, min(MOST, max(1, array.columns + columns)))

    def area_added(self, x: float, y: float, size: tuple[float, float] = NEW_AREA, name: str = "skylight") -> Inputs:
        """A new keep-clear area with its middle at a place, to the nearest inch."""
        inch = self.step("inch")[0]
        box = self._inside(round((x - size[0] / 2) / inch) * inch, round((y - size[1] / 2) / inch) * inch, size)
        return self._with_areas([*self._written(), self._area(box, size, name)])

    def area_moved(self, number: int, along: float, up: float) -> Inputs:
        """A keep-clear area moved, on the roof."""
        area = self.areas[number]
        return self._with_area(number, self._inside(area.at[0] + along, area.at[1] + up, area.size), area.size)

    def area_resized(self, number: int, wider: float, taller: float) -> Inputs:
        """A keep-clear area made larger or smaller, at least an inch."""
        area = self.areas[number]
        size = (max(INCH, area.size[0] + wider), max(INCH, area.size[1] + taller))
        return self._with_area(number, self._inside(*area.at, size), size)

    def area_removed(self, number: int) -> Inputs:
        """Without a keep-clear area."""
        written = self._written()
        return self._with_areas([*written[:number], *written[number + 1 :]])

    def module_toggled(self, box: Box) -> Inputs:
        """A module left out, or put back where it was left out."""
        left, low, right, high = box
        middle = (left + right) / 2, (low + high) / 2
        for number, area in enumerate(self.areas):
            (x, y), (width, height) = area.at, area.size
            if area.name == LEFT_OUT and x <= middle[0] <= x + width and y <= middle[1] <= y + height:
                return self.area_removed(number)
        size = ((right - left) * (1 - 2 * INSET), (high - low) * (1 - 2 * INSET))
        return self.area_added(*middle, size, LEFT_OUT)

    def _inside(self, x: float, y: float, size: tuple[float, float]) -> tuple[float, float]:
        building = self.job.building
        return (
            min(max(0.0, x), max(0.0, building.length - size[0])),
            min(max(0.0, y), max(0.0, building.slope_length - size[1])),
        )

    def _with_area(self, number: int, at: tuple[float, float], size: tuple[float, float]) -> Inputs:
        written = self._written()
        written[number] = self._area(at, size, self.areas[number].name)
        return self._with_areas(written)

    def _with_areas(self, areas: Sequence[dict[str, Any]]) -> Inputs:
        return self.inputs.with_value(AREAS, list(areas))

    def _written(self) -> list[dict[str, Any]]:
        """The areas as the file has them: those that are not touched keep their words."""
        array: dict[str, Any] = self.inputs.tables()["array"]
        return [dict(area) for area in array.get("keep_clear", ())]

    def _area(self, at: tuple[float, float], size: tuple[float, float], name: str) -> dict[str, Any]:
        return {"at": self._pair(*at), "size": self._pair(*size), "name": name}

    def _pair(self, first: float, second: float) -> list[str]:
        return [written(first, self.system), written(second, self.system)]


def written(length: float, system: System) -> str:
    """A length [m] as it is written on a drawing: "40 ft 2 in", "12.19 m"."""
    if system == "si":
        return f"{round(length, 4):g} m"
    inches = round(length / INCH, 2)
    feet, rest = int(inches // 12), round(inches % 12, 2)
    if rest >= 12:
        feet, rest = feet + 1, 0.0
    return " ".join(filter(None, [f"{feet} ft" if feet or not rest else "", f"{rest:g} in" if rest else ""]))
