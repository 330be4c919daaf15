"""A capacity taken weaker or stronger than it is known to be: for asking "what if", never written in a scenario."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from engine.strength.base import FailureMode, StrengthBasis


class ScaledStrength(StrengthBasis):
    """Another way's strength, times a factor."""

    title: ClassVar[str] = "scaled"
    identifying_keys: ClassVar[tuple[str, ...]] = ()
    way: StrengthBasis
    factor: float

    def modes(self) -> tuple[FailureMode, ...]:
        """The other way's modes, each with its nominal strength scaled."""
        return tuple(replace(mode, nominal=self.factor * mode.nominal) for mode in self.way.modes())

    def shear_modes(self) -> tuple[FailureMode, ...]:
        """The same, along the surface."""
        return tuple(replace(mode, nominal=self.factor * mode.nominal) for mode in self.way.shear_modes())

    def sentence(self) -> str:
        """How it was obtained."""
        return f"{self.factor:.2f} times what is {self.way.sentence()}"
