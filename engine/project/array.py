"""An array: rows and columns, gaps, aisles, setbacks, areas to keep clear."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Annotated, Self

from engine.schema import Choice, Count, InputTable, LengthRange, ModulePlaces, Name, Quantity, TextLine, input_field

LANDSCAPE, PORTRAIT = "landscape", "portrait"
"""A module's long side lies along the eave, or up the slope."""


class KeepClear(InputTable):
    """An area without modules: a hatch, a vent, a walkway."""

    at: Annotated[tuple[float, float], LengthRange(ordered=False)] = input_field(
        description="lower left corner, from the left rake and from the eave"
    )
    size: Annotated[tuple[float, float], LengthRange(ordered=False, low="1 in")] = input_field(
        description="size along the eave and up the slope"
    )
    name: Annotated[str, TextLine(60)] = input_field("keep clear", description="name of the area")


class Setbacks(InputTable):
    """Distances of the modules from the edges of the roof, for access or by the fire code."""

    eave: Annotated[float, Quantity("length", "0 ft", "100 ft")] = input_field(
        "0 ft", description="distance from the eave, along the slope"
    )
    ridge: Annotated[float, Quantity("length", "0 ft", "100 ft")] = input_field(
        "0 ft", description="distance from the ridge or high edge, along the slope"
    )
    rakes: Annotated[float, Quantity("length", "0 ft", "100 ft")] = input_field(
        "0 ft", description="distance from either rake or hip"
    )


class Aisle(InputTable):
    """A strip between two rows or two columns of an array without modules, for people to walk in."""

    after_row: Annotated[int, Count(1, 1000)] | None = input_field(
        None, description="number of the row below the aisle, from the eave"
    )
    after_column: Annotated[int, Count(1, 1000)] | None = input_field(
        None, description="number of the column left of the aisle, from the left rake"
    )
    width: Annotated[float, Quantity("length", "3 in", "100 ft")] = input_field(
        description="clear distance between the modules on both sides"
    )


MAX_GAP = "2 in"
"""Largest gap that one clamp bridges (common practice, no source); write a walkway as an aisle."""

Bands = Sequence[tuple[int, float]]
"""Rows or columns between two aisles: their number, and the width of the aisle after them [m], 0 after the last."""


class Array(InputTable):
    """Size and place of an array."""

    rows: Annotated[int, Count(1, 1000)] = input_field(description="number of rows up the slope")
    columns: Annotated[int, Count(1, 1000)] = input_field(description="number of columns along the eave")
    orientation: Annotated[str, Choice((LANDSCAPE, PORTRAIT))] = input_field(
        LANDSCAPE,
        description="how rows and columns are counted; a method that turns the modules keeps their number and width",
    )
    origin: Annotated[tuple[float, float], LengthRange(ordered=False)] = input_field(
        description="lower left corner of the array, from the left rake and from the eave"
    )
    gap: Annotated[float, Quantity("length", "0 in", MAX_GAP, shown="small length")] = input_field(
        description="clear distance between modules, bridged by one clamp"
    )
    height_above_roof: Annotated[float, Quantity("length", "0 in", "24 in", shown="small length")] = input_field(
        description="height of the modules' top above the pan, for mounting parallel to the roof"
    )
    setbacks: Setbacks = input_field(
        {}, description="distances of the modules from the edges of the roof; nearer modules are flagged"
    )
    keep_clear: tuple[KeepClear, ...] = input_field(
        (),
        description='areas without modules: [{ at = ["60 ft", "20 ft"], size = ["4 ft", "8 ft"], name = "hatch" }]',
    )
    aisles: tuple[Aisle, ...] = input_field(
        (), description='aisles across the whole array: [{ after_row = 3, width = "4 ft" }], or after_column'
    )
    leave_out: Annotated[tuple[tuple[int, int], ...], ModulePlaces()] = input_field(
        (), description='places without a module, row and column from the eave and the left rake: ["3.7", "3.8"]'
    )

    @property
    def title(self) -> str:
        """The array as sentences name it."""
        return "the array"

    def steps(self, key: str) -> tuple[str, ...]:
        """The steps of the path to one of its inputs: ("array", "origin")."""
        return "array", key

    @property
    def count_in_words(self) -> str:
        """Its rows and columns in words, with its name if it has one."""
        aside = f", without {len(self.leave_out)}" if self.leave_out else ""
        return f"{self.rows} rows of {self.columns}, counted in {self.orientation}{aside}"

    def moved(self, right: float, up: float) -> Self:
        """The array moved along the eave and up the slope [m]; areas to keep clear stay where they are."""
        x, y = self.origin
        return self.model_copy(update={"origin": (x + right, y + up)})

    @property
    def min_rows(self) -> int:
        """Fewest rows with which its aisles still lie between two rows."""
        return 1 + max((aisle.after_row or 0 for aisle in self.aisles), default=0)

    @property
    def min_columns(self) -> int:
        """Fewest columns with which its aisles still lie between two columns."""
        return 1 + max((aisle.after_column or 0 for aisle in self.aisles), default=0)

    @property
    def row_bands(self) -> Bands:
        """Its rows between aisles, from the eave."""
        return _bands(self.rows, [(aisle.after_row, aisle.width) for aisle in self.aisles])

    @property
    def column_bands(self) -> Bands:
        """Its columns between aisles, from the left rake."""
        return _bands(self.columns, [(aisle.after_column, aisle.width) for aisle in self.aisles])


class NamedArray(Array):
    """Size and place of one of several arrays on a slope."""

    name: Annotated[str, Name()] = input_field(description="name of the array")

    @property
    def title(self) -> str:
        """The array as sentences name it."""
        return f"array {self.name}"

    def steps(self, key: str) -> tuple[str, ...]:
        """The steps of the path to one of its inputs: ("arrays", "A", "origin")."""
        return "arrays", self.name, key

    @property
    def count_in_words(self) -> str:
        """Its rows and columns in words, with its name if it has one."""
        return f"{super().count_in_words} in {self.title}"


def _bands(number: int, aisles: Sequence[tuple[int | None, float]]) -> Bands:
    """The bands of rows or columns, some `number` in all; `aisles`: number before each and its width [m]."""
    widths = {after: width for after, width in aisles if after}
    ends = [0, *sorted(widths), number]
    return [(end - start, widths.get(end, 0.0)) for start, end in pairwise(ends)]


def modules_of(arrays: Sequence[Array]) -> int:
    """Number of modules of some arrays, before keep-clear areas and end laps take any away."""
    return sum(array.rows * array.columns - len(array.leave_out) for array in arrays)
