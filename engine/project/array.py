"""The array: rows and columns, gaps, setbacks, areas to keep clear."""

from __future__ import annotations

from typing import Annotated

from engine.schema import Count, InputTable, LengthRange, Quantity, TextLine, input_field


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


MAX_GAP = "2 in"
"""Largest gap that one clamp bridges (common practice, no source); write a walkway as an area to keep clear."""


class Array(InputTable):
    """Size and place of the array, counted with modules in landscape."""

    rows: Annotated[int, Count(1, 1000)] = input_field(
        description="number of rows up the slope, counted with modules in landscape"
    )
    columns: Annotated[int, Count(1, 1000)] = input_field(
        description="number of columns along the eave, counted with modules in landscape"
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
