"""The modules and the array they form, as described."""

from __future__ import annotations

from typing import Annotated

from engine.schema import Count, Described, Quantity, Stretch, Words, entry
from engine.strength import Rating


class Module(Described):
    """One PV module, from its data sheet and its maker's installation manual."""

    length: Annotated[float, Quantity("length", "12 in", "10 ft", shown="small length")] = entry(description="the longer side")
    width: Annotated[float, Quantity("length", "12 in", "10 ft", shown="small length")] = entry(description="the shorter side")
    thickness: Annotated[float, Quantity("length", "0.1 in", "6 in", shown="small length")] = entry(description="height of the frame")
    mass: Annotated[float, Quantity("mass", "1 lb", "300 lb")] = entry(description="one module's mass")
    power: Annotated[float, Quantity("power", "1 W", "2000 W")] = entry(description="rated power")
    rating_up: Rating = entry(description="what the maker rates it for in uplift, as design or as test load (test = 1.5 x design)")
    rating_down: Rating = entry(description="what the maker rates it for in downward load, as design or as test load")
    clamp_zone: Annotated[tuple[float, float], Stretch()] = entry(
        description="where clamps may hold the long side, from and to, measured from the corner"
    )
    edge_support: Annotated[tuple[float, float], Stretch()] = entry(
        description="where the long side may stand on a direct mount, from the corner to at most the middle"
    )

    @property
    def area(self) -> float:
        """Its surface [m²]."""
        return self.length * self.width


class KeepClear(Described):
    """A place no module may touch: a hatch, a vent, a walkway."""

    at: Annotated[tuple[float, float], Stretch(ordered=False)] = entry(description="its lower left corner, from rake and eave")
    size: Annotated[tuple[float, float], Stretch(ordered=False, low="1 in")] = entry(description="its size along the eave and up the slope")
    name: Annotated[str, Words(60)] = entry("keep clear", description="what it is")


class Setbacks(Described):
    """How far modules stay from the roof's edges, for access or by the fire code."""

    eave: Annotated[float, Quantity("length", "0 ft", "100 ft")] = entry("0 ft", description="from the eave, along the slope")
    ridge: Annotated[float, Quantity("length", "0 ft", "100 ft")] = entry(
        "0 ft", description="from the ridge or high edge, along the slope"
    )
    rakes: Annotated[float, Quantity("length", "0 ft", "100 ft")] = entry("0 ft", description="from either rake, or hip")


WIDEST_GAP = "2 in"
"""One clamp or hook holds two neighbours across no more (common practice, no source); a walkway is a place to keep clear."""


class Array(Described):
    """Which modules go where, counted with modules in landscape."""

    rows: Annotated[int, Count(1, 1000)] = entry(description="rows up the slope, counted with modules in landscape")
    columns: Annotated[int, Count(1, 1000)] = entry(description="columns along the eave, counted with modules in landscape")
    origin: Annotated[tuple[float, float], Stretch(ordered=False)] = entry(description="lower left corner, from rake and eave")
    gap: Annotated[float, Quantity("length", "0 in", WIDEST_GAP, shown="small length")] = entry(
        description="clear distance between modules, which one clamp bridges"
    )
    height_above_roof: Annotated[float, Quantity("length", "0 in", "24 in", shown="small length")] = entry(
        description="top of the modules above the pan, for mounting parallel to the roof"
    )
    setbacks: Setbacks = entry({}, description="how far modules stay from the roof's edges; those that come nearer are flagged")
    keep_clear: tuple[KeepClear, ...] = entry(
        (), description='places no module may touch, such as [{ at = ["60 ft", "20 ft"], size = ["4 ft", "8 ft"], name = "hatch" }]'
    )
