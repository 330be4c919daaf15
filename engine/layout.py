"""Where modules lie and what holds them: fields, support lines, points, and influence.

Lengths along the roof are in the plane of the slope that carries the array: x along the eave
from its left rake, y up the slope from the eave.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.arrays import Floats, Ints


@dataclass(frozen=True)
class Attitude:
    """How a module stands on the roof.

    `tilt` from the roof plane [deg], positive when the low edge is toward the eave; `low` and
    `high` are the heights of its two edges above the pan [m] (equal when it lies parallel);
    `chord` is its size up the slope and `long_side` its longer side, both as manufactured [m].
    """

    tilt: float
    low: float
    high: float
    chord: float
    long_side: float

    @property
    def middle(self) -> float:
        """Height of the module's middle above the pan [m]."""
        return (self.low + self.high) / 2


@dataclass(frozen=True, eq=False)
class Rectangles:
    """Rectangles on the roof plane [m], four arrays of shape (n,)."""

    left: Floats
    low: Floats
    right: Floats
    high: Floats

    def __len__(self) -> int:
        return len(self.left)


@dataclass(frozen=True, eq=False)
class Field:
    """The modules of one method, in order of row and column.

    `outlines` are the modules' shadows on the roof plane. `run` numbers the unbroken sequences
    of modules that share points. `area` is one module's own surface [m²]; `lost` counts modules
    that keep-clear areas took away. `gap` [m] is the clear distance between neighbours that the array
    asks for.
    """

    outlines: Rectangles
    row: Ints
    column: Ints
    run: Ints
    attitude: Attitude
    area: float
    gap: float
    lost: int = 0

    @property
    def modules(self) -> int:
        """How many modules there are."""
        return len(self.row)

    @property
    def runs(self) -> int:
        """How many unbroken sequences they form."""
        return len(np.unique(self.run))

    @property
    def minimum_points(self) -> int:
        """Four points a module, shared: two a module plus the edges (common practice, no source)."""
        return 2 * (self.modules + self.runs)
