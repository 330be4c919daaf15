"""Strength stated as an allowable by the maker."""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import Field

from engine import units
from engine.common.calculation import SCENARIO, CalculationStep, Term
from engine.schema import Quantity
from engine.strength.base import FailureMode, StrengthBasis


class StatedAllowable(StrengthBasis):
    """`{ allowable = "600 lb" }`."""

    title: ClassVar[str] = "stated"
    identifying_keys: ClassVar[tuple[str, ...]] = ("allowable",)
    allowable: Annotated[float, Quantity("force", "1 lb", "100 kip")] = Field(
        description="allowable load stated by the maker"
    )

    def modes(self) -> tuple[FailureMode, ...]:
        """One mode; its nominal strength is the allowable, with a safety factor of 1."""
        step = CalculationStep(
            "Rn", "allowable load, as stated", Term(self.allowable / units.POUND_FORCE, "lb"), "", {}, SCENARIO
        )
        return (FailureMode("stated allowable", self.allowable, 1.0, SCENARIO, steps=(step,)),)

    def description(self) -> str:
        """Origin of the strength."""
        return "allowable stated by the maker"
