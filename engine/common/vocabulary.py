"""Words of a design basis: allowables against loads, or design resistances against design loads."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Vocabulary:
    """Names of loads and resistances where a load standard compares them, and the rule for existing roofs.

    Args:
        load: name of a factored or unfactored load, as it is checked.
        resistance: name of what a part can take, as it is checked against.
        moment: name of the moments that a scenario states.
        divisor: symbol of what divides a strength to give it.
        growth_rule: source of the rule by which growing loads on members of an existing roof must be shown.
        written: key of a strength in the scenario that states this resistance as it is.
        placeholder: key of a strength in the scenario that means the same as a placeholder.
    """

    load: str
    resistance: str
    moment: str
    divisor: str
    written: str
    placeholder: str
    growth_rule: str

    @property
    def a_resistance(self) -> str:
        """The resistance with its article: "an allowable"."""
        return f"{'an' if self.resistance[0] in 'aeiou' else 'a'} {self.resistance}"

    def of(self, effect: str) -> str:
        """A factored load, force or moment by its name: "uplift", "design uplift"."""
        return f"{self.load.removesuffix('load')}{effect}"

    def against(self, load: str) -> str:
        """The resistance to one load: "allowable uplift", "design resistance to uplift"."""
        return f"{self.resistance}{' to' if self is DESIGN_VALUES else ''} {load}"


ALLOWABLES = Vocabulary(
    load="load",
    resistance="allowable",
    moment="allowable moment",
    divisor="Omega",
    written="allowable",
    placeholder="allowable",
    growth_rule="IEBC 805.2, 806.2",
)
"""Allowable-stress design."""

DESIGN_VALUES = Vocabulary(
    load="design load",
    resistance="design resistance",
    moment="characteristic moment",
    divisor="gammaM",
    written="design",
    placeholder="characteristic",
    growth_rule="common practice, no source",
)
"""Partial factors on loads and on strengths."""
