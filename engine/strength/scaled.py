"""A strength scaled by a factor, for sensitivity and headroom; it is never written in a scenario."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from engine.strength.base import FailureMode, StrengthBasis


class ScaledStrength(StrengthBasis):
    """The strength of another basis, times a factor."""

    title: ClassVar[str] = "scaled"
    identifying_keys: ClassVar[tuple[str, ...]] = ()
    basis: StrengthBasis
    factor: float

    def modes(self) -> tuple[FailureMode, ...]:
        """The modes of the other basis, each with its nominal strength scaled."""
        return tuple(replace(mode, nominal=self.factor * mode.nominal) for mode in self.basis.modes())

    def shear_modes(self) -> tuple[FailureMode, ...]:
        """The same under load along the surface."""
        return tuple(replace(mode, nominal=self.factor * mode.nominal) for mode in self.basis.shear_modes())

    @property
    def screw_diameter(self) -> float | None:
        """As of the other basis: a layout follows from it."""
        return self.basis.screw_diameter

    def description(self) -> str:
        """Origin of the strength."""
        return f"{self.factor:.2f} times: {self.basis.description()}"
