"""A combination of load cases, and the resistance to it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Combination:
    """A sum of factored load cases.

    Args:
        name: as the standard writes it ("0.6D + 0.6W up").
        factors: load case → factor.
        duration: the load of shortest duration in it ("permanent", "snow", "wind" or "seismic"); it sets the strength
            of wood.
        partial_factor: divides the nominal strength in place of its own safety factor, where a standard works with
            design resistances; None keeps the safety factor.
        snow: snow acts beside a load of shorter duration.
    """

    name: str
    factors: Mapping[str, float]
    duration: str = "permanent"
    partial_factor: float | None = None
    snow: bool = False

    @property
    def has_snow(self) -> bool:
        """True if snow is one of its loads."""
        return self.snow or self.duration == "snow"

    def of_allowable(self, allowable: float) -> float:
        """Resistance of a part of which only the allowable is known, in the unit of the allowable."""
        return allowable if self.partial_factor is None else allowable / self.partial_factor
