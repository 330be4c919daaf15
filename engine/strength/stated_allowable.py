"""Strength stated as an allowable by the maker."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, ClassVar

from pydantic import Field

from engine import units
from engine.common.calculation import SCENARIO, CalculationStep, Term
from engine.schema import Number, Quantity
from engine.strength.base import FailureMode, StrengthBasis

ENTERED = "strength as entered"
"""Name of what is stated, or of a placeholder: under a standard with partial factors it is no allowable."""


class StatedAllowable(StrengthBasis):
    """`{ allowable = "600 lb" }`; with `as_design_factor = 1.5` it is 1.5 times that as a design resistance."""

    title: ClassVar[str] = "stated"
    identifying_keys: ClassVar[tuple[str, ...]] = ("allowable",)
    allowable: Annotated[float, Quantity("force", "1 lb", "100 kip")] = Field(
        description="allowable load stated by the maker"
    )
    as_design_factor: Annotated[float, Number(0.1, 3.0)] | None = Field(
        None, description="factor from the allowable to a design resistance, for standards with partial factors"
    )
    needed_for_design: ClassVar[str] = (
        "its as_design_factor, the factor from the allowable to a design resistance, or { characteristic = … } or "
        "{ design = … }"
    )

    @property
    def gives_design_resistance(self) -> bool:
        """True if the factor to it is stated."""
        return self.as_design_factor is not None

    def modes(self) -> tuple[FailureMode, ...]:
        """One mode; its nominal strength is the allowable, with a safety factor of 1."""
        step = CalculationStep("Rn", ENTERED, Term(self.allowable / units.POUND_FORCE, "lb"), "", {}, SCENARIO)
        mode = FailureMode(ENTERED, self.allowable, 1.0, SCENARIO, steps=(step,))
        return (mode if self.as_design_factor is None else self._with_factor(mode, self.as_design_factor),)

    def _with_factor(self, mode: FailureMode, factor: float) -> FailureMode:
        """The mode of a design resistance; divided by the factor it is the allowable again."""
        stated = replace(mode.steps[0], symbol="R", meaning="allowable load, as stated")
        design = Term(factor * stated.result.value, "lb")
        terms = {"R": stated.result, "f": Term(factor)}
        step = CalculationStep("Rn", "design resistance, by the factor stated", design, "f * R", terms, SCENARIO)
        return replace(
            mode, nominal=factor * self.allowable, safety_factor=factor, partial_factor=1.0, steps=(stated, step)
        )

    def description(self) -> str:
        """Origin of the strength."""
        factor = self.as_design_factor
        return "allowable stated by the maker" + (f", {factor:g} times as a design resistance" if factor else "")
