"""Strength stated as a design resistance, by the maker or an approval."""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import Field

from engine.common.calculation import SCENARIO, CalculationStep, Term
from engine.schema import Quantity
from engine.strength.base import FailureMode, StrengthBasis
from engine.units import POUND_FORCE


class DesignResistance(StrengthBasis):
    """`{ design = "2.4 kN" }`."""

    title: ClassVar[str] = "design resistance"
    identifying_keys: ClassVar[tuple[str, ...]] = ("design",)
    gives_allowable: ClassVar[bool] = False
    design: Annotated[float, Quantity("force", "1 N", "500 kN")] = Field(
        description="design resistance Rd, its partial factor included, for standards with partial factors"
    )

    def modes(self) -> tuple[FailureMode, ...]:
        """One mode; nothing divides it."""
        step = CalculationStep(
            "Rn", "design resistance, as stated", Term(self.design / POUND_FORCE, "lb"), "", {}, SCENARIO
        )
        return (FailureMode("stated design resistance", self.design, 1.0, SCENARIO, steps=(step,), partial_factor=1.0),)

    def description(self) -> str:
        """Origin of the strength."""
        return "design resistance, as stated"
