"""A higher roof beside the slope with the array: snow drifts against its wall and slides off it."""

from __future__ import annotations

from typing import Annotated

from engine.schema import Choice, InputTable, Quantity, Switch, input_field

EAVE, RIDGE, LEFT_RAKE, RIGHT_RAKE = SIDES = ("eave", "ridge", "left rake", "right rake")


class HigherRoof(InputTable):
    """One higher roof, along the whole of one side of the slope."""

    side: Annotated[str, Choice(SIDES)] = input_field(
        description="side of this slope where the higher roof is; 'ridge' is the high edge of a single slope"
    )
    distance: Annotated[float, Quantity("length", "0 ft", "100 ft")] = input_field(
        "0 ft", description="horizontal distance from the higher roof to the edge of this one"
    )
    height: Annotated[float, Quantity("length", "0.1 ft", "500 ft")] = input_field(
        description="height of the higher roof's edge above this roof at that side"
    )
    upwind_length: Annotated[float, Quantity("length", "1 ft", "3000 ft")] = input_field(
        description="length of the higher roof at right angles to that side, over which wind brings snow"
    )
    slope: Annotated[float, Quantity("angle", "0 deg", "70 deg")] | None = input_field(
        None, description="slope of the higher roof; needed if its snow slides here"
    )
    ridge_distance: Annotated[float, Quantity("length", "0.5 ft", "3000 ft")] | None = input_field(
        None, description="horizontal distance from the higher roof's eave to its ridge; needed if its snow slides here"
    )
    slippery: Annotated[bool, Switch()] = input_field(
        True, description="true if the higher roof is metal or otherwise slippery, without snow guards"
    )
    slides_here: Annotated[bool, Switch()] = input_field(
        True, description="true if an eave of the higher roof is on that side, so that its snow slides onto this roof"
    )
