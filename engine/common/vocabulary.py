"""Words of a design basis: allowables against loads, or design resistances against design loads."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Vocabulary:
    """What loads and resistances are called where a load standard compares them.

    Args:
        load: name of a factored or unfactored load, as it is checked.
        resistance: name of what a part can take, as it is checked against.
        moment: name of the moments that a scenario states.
        divisor: symbol of what divides a strength to give it.
        written: key of a strength in the scenario that states this resistance as it is.
    """

    load: str
    resistance: str
    moment: str
    divisor: str
    written: str

    @property
    def a_resistance(self) -> str:
        """The resistance with its article: "an allowable"."""
        return f"{'an' if self.resistance[0] in 'aeiou' else 'a'} {self.resistance}"

    def against(self, load: str) -> str:
        """The resistance to one load: "allowable uplift", "design resistance to uplift"."""
        return f"{self.resistance}{' to' if self is DESIGN_VALUES else ''} {load}"


ALLOWABLES = Vocabulary("load", "allowable", "allowable moment", "Omega", "allowable")
"""Allowable-stress design."""

DESIGN_VALUES = Vocabulary("design load", "design resistance", "characteristic moment", "gammaM", "design")
"""Partial factors on loads and on strengths."""
