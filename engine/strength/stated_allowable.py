"""The first way: an allowable that the maker states."""

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
        description="the allowable load the maker states"
    )

    def modes(self) -> tuple[FailureMode, ...]:
        """One mode; its nominal is the allowable itself, for more is not known."""
        step = CalculationStep(
            "Rn", "allowable, as stated", Term(self.allowable / units.POUND_FORCE, "lb"), "", {}, SCENARIO
        )
        return (FailureMode("stated", self.allowable, 1.0, SCENARIO, steps=(step,)),)

    def sentence(self) -> str:
        """How it was obtained."""
        return "stated as an allowable by its maker"
