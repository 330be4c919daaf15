"""A combination of load cases, and how strengths answer it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Combination:
    """A sum of load cases.

    `factors`: load case → factor. `duration` is the shortest-lived load in it ("permanent",
    "snow", "wind", "seismic"), which wood cares for. `partial_factor` divides a nominal strength
    in place of its own safety factor where a standard works with design resistances; None keeps
    the strength's own factor.
    """

    name: str
    factors: Mapping[str, float]
    duration: str = "permanent"
    partial_factor: float | None = None

    def of_allowable(self, allowable: float) -> float:
        """The resistance of something known only by its allowable, in the allowable's unit."""
        return allowable if self.partial_factor is None else allowable / self.partial_factor
