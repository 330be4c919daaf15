"""A combination of load cases, and the resistance to it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from engine.common.vocabulary import ALLOWABLES, DESIGN_VALUES, Vocabulary


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
        member_factor: divides stated moments and other strengths without a basis; None is the partial factor.
    """

    name: str
    factors: Mapping[str, float]
    duration: str = "permanent"
    partial_factor: float | None = None
    snow: bool = False
    member_factor: float | None = None

    @property
    def has_snow(self) -> bool:
        """True if snow is one of its loads."""
        return self.snow or self.duration == "snow"

    def of_allowable(self, allowable: float) -> float:
        """Resistance of a part known by one stated value alone, in its unit: an allowable or a characteristic one."""
        divisor = self.partial_factor if self.member_factor is None else self.member_factor
        return allowable if divisor is None else allowable / divisor

    @property
    def words(self) -> Vocabulary:
        """Names of its loads and resistances."""
        return ALLOWABLES if self.partial_factor is None else DESIGN_VALUES
