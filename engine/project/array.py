"""The modules and the array they form, as described."""

from __future__ import annotations

from typing import Annotated

from engine.schema import Count, InputTable, LengthRange, Quantity, TextLine, input_field
from engine.strength import ModuleRating


class Module(InputTable):
    """One PV module, from its data sheet and its maker's installation manual."""

    length: Annotated[float, Quantity("length", "12 in", "10 ft", shown="small length")] = input_field(
        description="the longer side"
    )
    width: Annotated[float, Quantity("length", "12 in", "10 ft", shown="small length")] = input_field(
        description="the shorter side"
    )
    thickness: Annotated[float, Quantity("length", "0.1 in", "6 in", shown="small length")] = input_field(
        description="height of the frame"
    )
    mass: Annotated[float, Quantity("mass", "1 lb", "300 lb")] = input_field(description="one module's mass")
    power: Annotated[float, Quantity("power", "1 W", "2000 W")] = input_field(description="rated power")
    rating_up: ModuleRating = input_field(
        description="what the maker rates it for in uplift, as design or as test load (test = 1.5 x design)"
    )
    rating_down: ModuleRating = input_field(
        description="what the maker rates it for in downward load, as design or as test load"
    )
    clamp_zone: Annotated[tuple[float, float], LengthRange()] = input_field(
        description="where clamps may hold the long side, from and to, measured from the corner"
    )
    edge_support: Annotated[tuple[float, float], LengthRange()] = input_field(
        description="where the long side may stand on a direct mount, from the corner to at most the middle"
    )

    @property
    def area(self) -> float:
        """Its surface [m²]."""
        return self.length * self.width


class KeepClear(InputTable):
    """A place no module may touch: a hatch, a vent, a walkway."""

    at: Annotated[tuple[float, float], LengthRange(ordered=False)] = input_field(
        description="its lower left corner, from rake and eave"
    )
    size: Annotated[tuple[float, float], LengthRange(ordered=False, low="1 in")] = input_field(
        description="its size along the eave and up the slope"
    )
    name: Annotated[str, TextLine(60)] = input_field("keep clear", description="what it is")


class Setbacks(InputTable):
    """How far modules stay from the roof's edges, for access or by the fire code."""

    eave: Annotated[float, Quantity("length", "0 ft", "100 ft")] = input_field(
        "0 ft", description="from the eave, along the slope"
    )
    ridge: Annotated[float, Quantity("length", "0 ft", "100 ft")] = input_field(
        "0 ft", description="from the ridge or high edge, along the slope"
    )
    rakes: Annotated[float, Quantity("length", "0 ft", "100 ft")] = input_field(
        "0 ft", description="from either rake, or hip"
    )


MAX_GAP = "2 in"
"""One clamp or hook holds two neighbours across no more (common practice, no source); a walkway is a place to keep clear."""


class Array(InputTable):
    """Which modules go where, counted with modules in landscape."""

    rows: Annotated[int, Count(1, 1000)] = input_field(
        description="rows up the slope, counted with modules in landscape"
    )
    columns: Annotated[int, Count(1, 1000)] = input_field(
        description="columns along the eave, counted with modules in landscape"
    )
    origin: Annotated[tuple[float, float], LengthRange(ordered=False)] = input_field(
        description="lower left corner, from rake and eave"
    )
    gap: Annotated[float, Quantity("length", "0 in", MAX_GAP, shown="small length")] = input_field(
        description="clear distance between modules, which one clamp bridges"
    )
    height_above_roof: Annotated[float, Quantity("length", "0 in", "24 in", shown="small length")] = input_field(
        description="top of the modules above the pan, for mounting parallel to the roof"
    )
    setbacks: Setbacks = input_field(
        {}, description="how far modules stay from the roof's edges; those that come nearer are flagged"
    )
    keep_clear: tuple[KeepClear, ...] = input_field(
        (),
        description='places no module may touch, such as [{ at = ["60 ft", "20 ft"], size = ["4 ft", "8 ft"], name = "hatch" }]',
    )
