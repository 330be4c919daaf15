"""Window and accuracy with which the array is set out on a surveyed roof, and the drift of its seams."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated

import numpy as np

from engine.common.arrays import Floats
from engine.common.tolerances import WHOLE_NUMBER
from engine.schema import InputTable, LengthRange, Quantity, input_field


def places_within(window: float, step: float) -> int:
    """Number of places a step apart within a window, at least the stated one."""
    return max(1, math.floor(window / step + WHOLE_NUMBER))


class Placement(InputTable):
    """The window within which the array may be moved, and the accuracy with which it is set out."""

    window: Annotated[tuple[float, float], LengthRange(ordered=False, low="1 in")] | None = input_field(
        None,
        description="how far the array may be moved in all, along the eave and up the slope, around its place, or "
        "beside it where a setback is near; not set: one rib and one support spacing, after which the places repeat",
    )
    step: Annotated[float, Quantity("length", "1 in", "12 ft", shown="small length")] | None = input_field(
        None,
        description="distance of the places that are tried from each other; not set: an eighth of the window along the "
        "eave and a fifth of it up the slope",
    )
    tolerance: Annotated[float, Quantity("length", "0 in", "12 in", shown="small length")] = input_field(
        "1 in",
        description="accuracy of setting out from the nearest seam or support: the layout must hold this far to every "
        "side too (judgement)",
    )
    tolerance_per_seam: Annotated[float, Quantity("length", "0 in", "1 in", shown="small length")] = input_field(
        "0.0625 in",
        description="added to the tolerance along the eave for every seam since the nearest that was measured: the "
        "first, a middle and the last under the arrays; on standing seam roofs, whose panels are hung one by one "
        "(judgement)",
    )


@dataclass(frozen=True)
class SeamDrift:
    """Distances [m] to the right by which seams differ from an even spacing: `by` at `x`, linear between, 0 beyond."""

    x: tuple[float, ...]
    by: tuple[float, ...]

    def added_to(self, ribs: Floats) -> Floats:
        """The places of seams from the left rake with their drift (R,) [m]."""
        return ribs + np.interp(ribs, self.x, self.by)
