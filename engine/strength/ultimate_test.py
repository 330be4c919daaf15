"""Strength from a test to failure, with a safety factor."""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import Field

from engine.common.calculation import SCENARIO, CalculationStep, Term
from engine.schema import Number, Quantity
from engine.strength.base import FailureMode, StrengthBasis
from engine.strength.test_statistics import small_factor_cautions
from engine.units import POUND_FORCE


class UltimateTest(StrengthBasis):
    """`{ tested = "1500 lb", safety_factor = 2.5 }`."""

    title: ClassVar[str] = "tested"
    identifying_keys: ClassVar[tuple[str, ...]] = ("tested",)
    tested: Annotated[float, Quantity("force", "1 lb", "1000 kip")] = Field(description="load at failure in the test")
    safety_factor: Annotated[float, Number(1.0, 20.0)] = Field(description="divisor of the load at failure")

    def modes(self) -> tuple[FailureMode, ...]:
        """One mode: the load at failure, with the safety factor."""
        step = CalculationStep(
            "Rn", "load at failure in the test", Term(self.tested / POUND_FORCE, "lb"), "", {}, SCENARIO
        )
        cautions = small_factor_cautions(self.safety_factor)
        return (
            FailureMode("test to failure", self.tested, self.safety_factor, SCENARIO, steps=(step,), cautions=cautions),
        )

    def description(self) -> str:
        """Origin of the strength."""
        return f"test to failure, safety factor {self.safety_factor:g}"
