"""The building under the roof: its plan, height and roof shape."""

from __future__ import annotations

import math
from typing import Annotated

import numpy as np

from engine.common.arrays import Floats
from engine.schema import Choice, InputTable, Quantity, input_field


class Building(InputTable):
    """The building under the roof: a rectangular plan; one slope, two alike, or four on a hip roof."""

    length: Annotated[float, Quantity("length", "10 ft", "3000 ft")] = input_field(
        description="along the eave, rake to rake"
    )
    width: Annotated[float, Quantity("length", "10 ft", "3000 ft")] = input_field(
        description="across the ridge, eave to eave (horizontal)"
    )
    mean_roof_height: Annotated[float, Quantity("length", "6 ft", "60 ft")] = input_field(
        description="mean height of the roof above ground; the wind clauses used here end at 60 ft"
    )
    roof_shape: Annotated[str, Choice(("gable", "hip", "monoslope", "flat"))] = input_field(
        "gable", description="the shape of the roof"
    )
    slope: Annotated[float, Quantity("angle", "0 deg", "45 deg")] = input_field(
        description="slope of the roof, as rise:run or in degrees"
    )
    parapet_height: Annotated[float, Quantity("length", "0 ft", "20 ft")] = input_field(
        "0 ft", description="height of the parapet above the roof's edge"
    )
    enclosure: Annotated[str, Choice(("enclosed", "partially enclosed"))] = input_field(
        "enclosed", description="how open the walls are: sets the wind's pressure from inside"
    )
    thermal: Annotated[str, Choice(("heated", "just above freezing", "unheated", "freezer"))] = input_field(
        "heated", description="the warmth beneath the roof, for snow on the bare roof"
    )

    @property
    def slope_length(self) -> float:
        """Eave to ridge (or to the high edge) along the slope that carries the array [m]."""
        return self.run / self._cosine

    @property
    def run(self) -> float:
        """Eave to ridge, or to the high edge, horizontal [m]; the slopes of a hip roof are alike."""
        if self.roof_shape == "hip":
            return min(self.width, self.length) / 2
        return self.width / 2 if self.roof_shape == "gable" else self.width

    @property
    def has_ridge(self) -> bool:
        """Whether the slope ends at a ridge rather than at an edge."""
        return self.roof_shape in ("gable", "hip")

    @property
    def side_word(self) -> str:
        """What people call the slope's border on either side."""
        return "hip" if self.roof_shape == "hip" else "rake"

    def top_at(self, x: Floats) -> Floats:
        """How far up the slope it reaches at x (n,) [m]: to ridge or high edge, on a hip roof no farther than to the hip."""
        top = np.full(len(x), self.slope_length)
        return np.minimum(top, np.minimum(x, self.length - x) / self._cosine) if self.roof_shape == "hip" else top

    def from_sides(self, left: Floats, right: Floats, high: Floats) -> tuple[Floats, Floats]:
        """How far rectangles (n,) keep from the left and the right rake, or hip, along the roof [m]; negative beyond a hip."""
        if self.roof_shape != "hip":
            return left, self.length - right
        askew = math.hypot(1.0, self._cosine)
        return (left - high * self._cosine) / askew, (self.length - right - high * self._cosine) / askew

    @property
    def _cosine(self) -> float:
        return math.cos(math.radians(self.slope))
