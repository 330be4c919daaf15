"""Rafters under a wood deck, up the slope."""

from __future__ import annotations

from typing import Annotated

import numpy as np

from engine.common.arrays import Floats
from engine.common.tolerances import WHOLE_NUMBER
from engine.schema import InputTable, Quantity, input_field
from engine.units import INCH

HALF_WIDTH = 0.75 * INCH
"""Half the width of a rafter of 1 1/2 in, the thinnest of sawn lumber [m]."""

EDGE_DISTANCES = 1.5
"""Smallest distance of a screw from the edge of a rafter, in its diameters (NDS, for loads along the grain)."""

USUAL_SCREW = 5 / 16 * INCH
"""Diameter of a screw that no strength states: a 5/16 in lag (judgement) [m]."""


class Rafters(InputTable):
    """Rafters up the slope at an even spacing, under a wood deck; brackets on them need their spacing and place."""

    spacing: Annotated[float, Quantity("length", "6 in", "48 in", shown="small length")] | None = input_field(
        None, description="spacing of the rafters, middle to middle; needed for brackets on rafters"
    )
    first: Annotated[float, Quantity("length", "0 in", "48 in", shown="small length")] | None = input_field(
        None,
        description="distance of the middle of the first rafter from the left rake, measured on site; "
        "needed for brackets on rafters, because a rib meets a rafter only in phase",
    )
    thread: Annotated[float, Quantity("length", "0.25 in", "12 in", shown="small length")] | None = input_field(
        None, description="length of thread that a screw has in the rafter, less its tip; not set: as its strength says"
    )

    def along(self, length: float) -> Floats:
        """Distances of the rafters' middles from the left rake (N,) [m]; none where their place is not set.

        Args:
            length: of the roof along the eave [m].
        """
        if self.spacing is None or self.first is None:
            return np.empty(0)
        count = int(np.floor((length - self.first) / self.spacing + WHOLE_NUMBER)) + 1
        return self.first + self.spacing * np.arange(count, dtype=np.float64)


def off_middle(diameter: float | None) -> float:
    """Largest distance of a screw from the middle of a rafter [m]: 0.75 in less 1.5 diameters; None: the usual one."""
    return max(HALF_WIDTH - EDGE_DISTANCES * (diameter or USUAL_SCREW), 0.0)
