"""Strength stated as a characteristic value, with its partial factor."""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import Field

from engine.common.calculation import SCENARIO, CalculationStep, Term
from engine.schema import Number, Quantity
from engine.strength.base import FailureMode, StrengthBasis
from engine.units import POUND_FORCE

PartialFactor = Annotated[float, Number(1.0, 5.0)]


class Characteristic(StrengthBasis):
    """`{ characteristic = "3 kN", gamma_m = 1.33 }`."""

    title: ClassVar[str] = "characteristic value"
    identifying_keys: ClassVar[tuple[str, ...]] = ("characteristic",)
    gives_allowable: ClassVar[bool] = False
    characteristic: Annotated[float, Quantity("force", "1 N", "500 kN")] = Field(
        description="characteristic strength Rk, such as an approval states it, for standards with partial factors"
    )
    gamma_m: PartialFactor | None = Field(None, description="its partial factor; not set: that of the standard")

    def modes(self) -> tuple[FailureMode, ...]:
        """One mode, with its own partial factor or that of the combination."""
        step = CalculationStep(
            "Rn", "characteristic strength, as stated", Term(self.characteristic / POUND_FORCE, "lb"), "", {}, SCENARIO
        )
        return (
            FailureMode(
                "characteristic strength",
                self.characteristic,
                1.0,
                SCENARIO,
                steps=(step,),
                partial_factor=self.gamma_m,
            ),
        )

    def description(self) -> str:
        """Origin of the strength."""
        return "characteristic value, as stated" + (f", partial factor {self.gamma_m:g}" if self.gamma_m else "")
