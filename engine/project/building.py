"""The building under the roof: its plan, height and roof shape."""

from __future__ import annotations

import math
from typing import Annotated

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.common.tolerances import SAME_LENGTH
from engine.project.higher_roof import HigherRoof
from engine.project.overhang import Overhang
from engine.schema import Choice, InputTable, Quantity, input_field


class Building(InputTable):
    """The building: a rectangular plan with one slope, two equal slopes, or four on a hip roof."""

    length: Annotated[float, Quantity("length", "10 ft", "3000 ft")] = input_field(
        description="length along the eave, rake to rake, overhangs included"
    )
    width: Annotated[float, Quantity("length", "10 ft", "3000 ft")] = input_field(
        description="horizontal width across the ridge, eave to eave, overhangs included"
    )
    mean_roof_height: Annotated[float, Quantity("length", "6 ft", "60 ft")] = input_field(
        description="mean height of the roof above ground, midway between eave and ridge; that of the eave only where "
        "the load standard allows it"
    )
    roof_shape: Annotated[str, Choice(("gable", "hip", "monoslope", "flat"))] = input_field(
        "gable", description="shape of the roof"
    )
    slope: Annotated[float, Quantity("angle", "0 deg", "45 deg")] = input_field(
        description="slope of the roof, as rise:run or in degrees"
    )
    parapet_height: Annotated[float, Quantity("length", "0 ft", "20 ft")] = input_field(
        "0 ft", description="height of the parapet above the edge of the roof"
    )
    enclosure: Annotated[str, Choice(("enclosed", "partially enclosed"))] = input_field(
        "enclosed", description="openings in the walls, which set the internal wind pressure"
    )
    overhang: Overhang = input_field({}, description="parts of the roof beyond the walls")
    thermal: Annotated[str, Choice(("heated", "just above freezing", "unheated", "freezer"))] = input_field(
        "heated", description="heating of the building, for snow on the roof alone"
    )
    higher_roofs: tuple[HigherRoof, ...] = input_field(
        (),
        description="higher roofs beside this one, for drifts and sliding snow: "
        '[{ side = "ridge", height = "8 ft", upwind_length = "60 ft", slides_here = false }]',
    )
    eave_faces: Annotated[float, Quantity("angle", "0 deg", "360 deg")] | None = input_field(
        None,
        description="direction that the eave of the slope with the array faces, clockwise from north, for the north "
        "arrow of plans: 90 deg is east, 180 deg south",
    )

    @property
    def slope_length(self) -> float:
        """Length of the slope with the array, eave to ridge or high edge, along the roof [m]."""
        return self.run / self._cosine

    @property
    def run(self) -> float:
        """Horizontal length of the slope, eave to ridge or high edge [m]; equal on all slopes of a hip roof."""
        if self.roof_shape == "hip":
            return min(self.width, self.length) / 2
        return self.width / 2 if self.roof_shape == "gable" else self.width

    @property
    def has_ridge(self) -> bool:
        """True if the slope ends at a ridge, False at a high edge."""
        return self.roof_shape in ("gable", "hip")

    @property
    def between_walls(self) -> tuple[float, float]:
        """Length and width of the plan between the walls, without overhangs [m]."""
        eave, rake = self.overhang.eave, self.overhang.rake
        length = self.length - 2 * (eave if self.roof_shape == "hip" else rake)
        return length, self.width - eave - (eave if self.has_ridge else self.overhang.high_edge)

    @property
    def stands_from_to(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Stretches on which attachments may stand, along the eave and up the slope, from and to [m along the roof]."""
        if self.overhang.attachments:
            return (0.0, self.length), (0.0, self.slope_length)
        rake = 0.0 if self.roof_shape == "hip" else self.overhang.rake
        return (rake, self.length - rake), self.inside_walls

    @property
    def inside_walls(self) -> tuple[float, float]:
        """The lower and the upper end of the slope within the walls, from the eave along the roof [m]."""
        return self.overhang.eave / self._cosine, self.slope_length - self.overhang.high_edge / self._cosine

    def overhangs_at(self, left: Floats, low: Floats, right: Floats, high: Floats) -> Bools:
        """True for each rectangle of the slope (n,) [m along the roof] that reaches beyond a wall."""
        (lower, upper), rake = self.inside_walls, self.overhang.rake
        outside = np.maximum(np.maximum(lower - low, high - upper), np.maximum(rake - left, right - self.length + rake))
        beyond: Bools = outside > SAME_LENGTH
        return beyond

    @property
    def side_word(self) -> str:
        """Name of the slope's left and right border."""
        return "hip" if self.roof_shape == "hip" else "rake"

    def top_at(self, x: Floats) -> Floats:
        """Distance from the eave to the upper border at x, along the roof, (n,) [m]: ridge, high edge or hip."""
        top = np.full(len(x), self.slope_length)
        return np.minimum(top, np.minimum(x, self.length - x) / self._cosine) if self.roof_shape == "hip" else top

    def from_sides(self, left: Floats, right: Floats, high: Floats) -> tuple[Floats, Floats]:
        """Distances of rectangles from the left and the right rake or hip, along the roof.

        Args:
            left: left sides, from the left rake (n,) [m].
            right: right sides, from the left rake (n,) [m].
            high: upper sides, from the eave along the slope (n,) [m].

        Returns:
            Distance from the left and from the right border (n,), (n,) [m]; negative beyond a hip.
        """
        if self.roof_shape != "hip":
            return left, self.length - right
        hip_scale = math.hypot(1.0, self._cosine)
        return (left - high * self._cosine) / hip_scale, (self.length - right - high * self._cosine) / hip_scale

    @property
    def _cosine(self) -> float:
        return math.cos(math.radians(self.slope))
