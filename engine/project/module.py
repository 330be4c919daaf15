"""The PV module: sizes, ratings, and the parts of its edges that may be held."""

from __future__ import annotations

from typing import Annotated

from engine.schema import InputTable, LengthRange, Quantity, input_field
from engine.strength import ModuleRating


class Module(InputTable):
    """One PV module, from its data sheet and the maker's installation manual."""

    length: Annotated[float, Quantity("length", "12 in", "10 ft", shown="small length")] = input_field(
        description="length of the longer side"
    )
    width: Annotated[float, Quantity("length", "12 in", "10 ft", shown="small length")] = input_field(
        description="length of the shorter side"
    )
    thickness: Annotated[float, Quantity("length", "0.1 in", "6 in", shown="small length")] = input_field(
        description="thickness of the frame"
    )
    mass: Annotated[float, Quantity("mass", "1 lb", "300 lb")] = input_field(description="mass of one module")
    power: Annotated[float, Quantity("power", "1 W", "2000 W")] = input_field(description="rated power of one module")
    rating_up: ModuleRating = input_field(
        description="the maker's uplift rating, as design or as test load (test = 1.5 x design)"
    )
    rating_down: ModuleRating = input_field(description="the maker's down-load rating, as design or as test load")
    clamp_zone: Annotated[tuple[float, float], LengthRange()] = input_field(
        description="the maker's clamp zone on the long side, from and to, measured from the corner"
    )
    edge_support: Annotated[tuple[float, float], LengthRange()] = input_field(
        description="part of the long side that a direct mount may support, from and to, measured from the corner"
    )

    @property
    def area(self) -> float:
        """Area of one module [m²]."""
        return self.length * self.width
