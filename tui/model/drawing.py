"""Drawing on the roof: the array and its keep-clear areas moved and changed by steps. It knows no screen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from engine.mounting.joined_arrays import size_as_counted
from engine.project.array import Array, KeepClear
from engine.project.job import Job
from engine.scenario.changes import REMOVED, value_at
from engine.scenario.sources import without_source
from engine.units import INCH, System
from tui.model.inputs import Inputs

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
    """The part that the keys change: an array or a keep-clear area by its number, or a module by its middle [m]."""

    kind: Literal["array", "area", "module"] = "array"
    number: int = 0
    place: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True)
class Drawing:
    """The inputs and their job; every change gives the inputs after it. `number` is that of the array in hand."""

    inputs: Inputs
    job: Job
    system: System
    number: int = 0

    @property
    def array(self) -> Array:
        """The array in hand, or the first if there are fewer."""
        arrays = self.job.arrays
        return arrays[self.number] if self.number < len(arrays) else arrays[0]

    @property
    def areas(self) -> tuple[KeepClear, ...]:
        """The keep-clear areas of all arrays."""
        return self.job.keep_clear

    def step(self, name: str) -> tuple[float, float]:
        """Length of a step along the eave and up the slope [m]."""
        roof, module, gap = self.job.roof, self.job.module, self.job.module_gap
        if name == "module":
            return module.length + gap, module.width + gap
        if name == "seam":
            return roof.rib_spacing, roof.support_spacing
        inch = INCH if self.system == "us" else 0.01
        return inch, inch

    def array_moved(self, along: float, up: float) -> Inputs:
        """The array moved, but not beyond the left rake or the eave."""
        x, y = self.array.origin
        return self.inputs.with_value(self.array.steps("origin"), self._pair(max(0.0, x + along), max(0.0, y + up)))

    def array_resized(self, rows: int, columns: int) -> Inputs:
        """The array with more rows and columns, or with fewer."""
        array = self.array
        inputs = self.inputs.with_value(array.steps("rows"), min(MOST, max(1, array.rows + rows)))
        return inputs.with_value(array.steps("columns"), min(MOST, max(1, array.columns + columns)))

    def area_added(self, x: float, y: float, size: tuple[float, float] = NEW_AREA, name: str = "skylight") -> Inputs:
        """A new keep-clear area with its middle at a place, to the nearest inch."""
        inch = self.step("inch")[0]
        box = self._inside(round((x - size[0] / 2) / inch) * inch, round((y - size[1] / 2) / inch) * inch, size)
        return self._with_areas(self.array, [*self._written(self.array), self._area(box, size, name)])

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
        array, own = self._owner(number)
        written = self._written(array)
        return self._with_areas(array, [*written[:own], *written[own + 1 :]])

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

    def _owner(self, number: int) -> tuple[Array, int]:
        """The array that states a keep-clear area, and the area's number among its own."""
        for array in self.job.arrays:
            if number < len(array.keep_clear):
                return array, number
            number -= len(array.keep_clear)
        raise IndexError(f"there is no keep-clear area {number}")

    def _with_area(self, number: int, at: tuple[float, float], size: tuple[float, float]) -> Inputs:
        array, own = self._owner(number)
        written = self._written(array)
        written[own] = self._area(at, size, self.areas[number].name)
        return self._with_areas(array, written)

    def _with_areas(self, array: Array, areas: Sequence[dict[str, Any]]) -> Inputs:
        return self.inputs.with_value(array.steps("keep_clear"), list(areas))

    def _written(self, array: Array) -> list[dict[str, Any]]:
        """The areas of an array as the file has them: those that are not touched keep their words."""
        stated = without_source(value_at(self.inputs.tables(), array.steps("keep_clear")))
        return [] if stated is REMOVED else [dict(area) for area in stated]

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


def box_of(drawing: Drawing) -> Box:
    """The array in hand as it counts its modules, aisles included [m]."""
    array, (x, y) = drawing.array, drawing.array.origin
    wide, deep = size_as_counted(array, drawing.job.module)
    along = sum(count * (wide + array.gap) - array.gap + aisle for count, aisle in array.column_bands)
    up = sum(count * (deep + array.gap) - array.gap + aisle for count, aisle in array.row_bands)
    return x, y, x + along, y + up
