"""Drawing on the roof: the array, its keep-clear areas and aisles moved and changed by steps. It knows no screen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from engine.mounting.fitting import Cure
from engine.mounting.interface import Alternative, Refusal
from engine.mounting.joined_arrays import size_as_counted
from engine.project.array import Aisle, Array, Bands, KeepClear
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

NEW_AISLE = 3 * 12 * INCH
"""Width of a new aisle [m] (judgement; the fire code or the owner may want more)."""

LEAST_AISLE = 3 * INCH
"""Smallest width of an aisle that a file may state [m]."""

INSET = 0.1
"""Part of a module that its own keep-clear area keeps away from its edges, so that no neighbour is touched."""

CENTIMETRE = 0.01
MOST = 1000
Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Target:
    """The part that the keys change: an array, a keep-clear area or an aisle by its number, or a module by its middle.

    `place` is that middle [m].
    """

    kind: Literal["array", "area", "aisle", "module"] = "array"
    number: int = 0
    place: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True, eq=False)
class Fit:
    """The fit of a method to what is drawn: its refusal, if any, and the change that cures it."""

    inputs: Inputs
    method: str
    number: int
    title: str
    refusal: Refusal | None
    cure: Cure | None

    def is_of(self, inputs: Inputs, method: str, number: int) -> bool:
        """True if it belongs to these inputs, this method and this array."""
        return (self.inputs, self.method, self.number) == (inputs, method, number)


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

    @property
    def aisles(self) -> list[Aisle]:
        """The aisles of all arrays."""
        return [aisle for array in self.job.arrays for aisle in array.aisles]

    def step(self, name: str) -> tuple[float, float]:
        """Length of a step along the eave and up the slope [m]."""
        roof, module, gap = self.job.roof, self.job.module, self.job.module_gap
        if name == "module":
            return module.length + gap, module.width + gap
        if name == "seam":
            return roof.rib_spacing, roof.support_spacing
        inch = INCH if self.system == "us" else CENTIMETRE
        return inch, inch

    def array_moved(self, along: float, up: float) -> Inputs:
        """The array moved, but not beyond the left rake or the eave."""
        x, y = self.array.origin
        return self.inputs.with_value(self.array.steps("origin"), self._pair(max(0.0, x + along), max(0.0, y + up)))

    def array_resized(self, rows: int, columns: int) -> Inputs:
        """The array with more rows and columns, or with fewer; its aisles stay within it."""
        array = self.array
        inputs = self.inputs.with_value(array.steps("rows"), min(MOST, max(array.min_rows, array.rows + rows)))
        return inputs.with_value(array.steps("columns"), min(MOST, max(array.min_columns, array.columns + columns)))

    def cured(self, method: str, cure: Cure) -> Inputs:
        """The array in hand, or the method, with a change that makes the method fit; only what changes is written."""
        if isinstance(cure, Alternative):
            return self.inputs.with_changes({("methods", method, name): value for name, value in cure.options.items()})
        inputs, array = self.inputs, cure.of(self.array)
        if array.origin != self.array.origin:
            inputs = inputs.with_value(array.steps("origin"), self._pair(*array.origin))
        if cure.fewer_rows:
            inputs = inputs.with_value(array.steps("rows"), array.rows)
        return inputs.with_value(array.steps("columns"), array.columns) if cure.fewer_columns else inputs

    def aisle_added(self) -> Inputs:
        """A new aisle between the middle rows of the array in hand, or between its middle columns if it has one row."""
        array = self.array
        for between_rows in (True, False):
            place = _free_place(array, between_rows=between_rows)
            if place:
                return self._with_aisles(array, [*array.aisles, _aisle(place, NEW_AISLE, between_rows=between_rows)])
        return self.inputs

    def aisle_moved(self, number: int, along: int, up: int) -> Inputs:
        """An aisle moved between the next two rows or columns; moved the other way, it crosses the array that way."""
        array, own = self._owner(number, "aisles")
        aisles, between_rows = list(array.aisles), bool(up)
        start, step = (aisles[own].after_row, up) if between_rows else (aisles[own].after_column, along)
        place = _free_place(array, start, step, between_rows=between_rows)
        if place:
            aisles[own] = _aisle(place, aisles[own].width, between_rows=between_rows)
        return self._with_aisles(array, aisles)

    def aisle_widened(self, number: int, wider: float) -> Inputs:
        """An aisle made wider, or narrower [m]."""
        array, own = self._owner(number, "aisles")
        aisles = list(array.aisles)
        width = max(LEAST_AISLE, aisles[own].width + wider)
        aisles[own] = aisles[own].model_copy(update={"width": width})
        return self._with_aisles(array, aisles)

    def aisle_removed(self, number: int) -> Inputs:
        """Without an aisle."""
        array, own = self._owner(number, "aisles")
        return self._with_aisles(array, [*array.aisles[:own], *array.aisles[own + 1 :]])

    def aisle_box(self, number: int) -> Box:
        """The stretch of roof that an aisle keeps free, as the array counts its modules [m]."""
        array, own = self._owner(number, "aisles")
        aisle, (wide, deep) = array.aisles[own], size_as_counted(array, self.job.module)
        left, low, right, high = box_of(replace(self, number=self.job.arrays.index(array)))
        if aisle.after_row:
            start = low + _before_aisle(array.row_bands, aisle.after_row, deep, array.gap)
            return left, start, right, start + aisle.width
        start = left + _before_aisle(array.column_bands, aisle.after_column or 0, wide, array.gap)
        return start, low, start + aisle.width, high

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
        array, own = self._owner(number, "keep_clear")
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

    def _owner(self, number: int, parts: Literal["keep_clear", "aisles"]) -> tuple[Array, int]:
        """The array that states a keep-clear area, or an aisle, and its number among the array's own."""
        for array in self.job.arrays:
            own = len(getattr(array, parts))
            if number < own:
                return array, number
            number -= own
        raise IndexError(f"the arrays have no {parts} {number}")

    def _with_area(self, number: int, at: tuple[float, float], size: tuple[float, float]) -> Inputs:
        array, own = self._owner(number, "keep_clear")
        written = self._written(array)
        written[own] = self._area(at, size, self.areas[number].name)
        return self._with_areas(array, written)

    def _with_areas(self, array: Array, areas: Sequence[dict[str, Any]]) -> Inputs:
        return self.inputs.with_value(array.steps("keep_clear"), list(areas))

    def _with_aisles(self, array: Array, aisles: Sequence[Aisle]) -> Inputs:
        return self.inputs.with_value(array.steps("aisles"), [self._written_aisle(each) for each in aisles])

    def _written_aisle(self, aisle: Aisle) -> dict[str, Any]:
        place = {"after_row": aisle.after_row} if aisle.after_row else {"after_column": aisle.after_column}
        return {**place, "width": written(aisle.width, self.system)}

    def _written(self, array: Array) -> list[dict[str, Any]]:
        """The areas of an array as the file has them: those that are not touched keep their words."""
        stated = without_source(value_at(self.inputs.tables(), array.steps("keep_clear")))
        return [] if stated is REMOVED else [dict(area) for area in stated]

    def _area(self, at: tuple[float, float], size: tuple[float, float], name: str) -> dict[str, Any]:
        return {"at": self._pair(*at), "size": self._pair(*size), "name": name}

    def _pair(self, first: float, second: float) -> list[str]:
        return [written(first, self.system), written(second, self.system)]


def _aisle(place: int, width: float, *, between_rows: bool) -> Aisle:
    """An aisle after a row, or after a column."""
    row, column = (place, None) if between_rows else (None, place)
    return Aisle.model_construct(after_row=row, after_column=column, width=width)


def _free_place(array: Array, start: int | None = None, step: int = 1, *, between_rows: bool) -> int | None:
    """The next row, or column, that may have an aisle after it; without a start the one nearest the middle."""
    count = array.rows if between_rows else array.columns
    taken = {aisle.after_row if between_rows else aisle.after_column for aisle in array.aisles}
    free = [place for place in range(1, count) if place not in taken]
    if start is None:
        return min(free, key=lambda place: abs(place - count / 2), default=None)
    ahead = [place for place in free if (place - start) * step > 0]
    return min(ahead, key=lambda place: abs(place - start), default=None)


def _before_aisle(bands: Bands, place: int, size: float, gap: float) -> float:
    """Length from the array's edge to the aisle after row or column `place`, whose modules have that size [m]."""
    length, passed = 0.0, 0
    for count, aisle in bands:
        passed += count
        length += count * (size + gap) - gap
        if passed == place:
            return length
        length += aisle
    return length


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
