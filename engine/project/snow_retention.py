"""A line of snow retention along the eave: snow guards or a fence that hold snow on the roof."""

from __future__ import annotations

from typing import Annotated

from engine.schema import InputTable, Quantity, input_field


class SnowRetention(InputTable):
    """One line of snow retention, along the whole slope, and the load it puts on the panels."""

    at: Annotated[float, Quantity("length", "0 ft", "1000 ft")] = input_field(
        description="distance of the line from the eave, along the slope"
    )
    load: Annotated[float, Quantity("line load", "0 lb/ft", "5000 lb/ft")] = input_field(
        description="along-slope load of the snow it holds, per length of the line, from its maker's calculation; "
        "at the level of the standard's snow load"
    )
