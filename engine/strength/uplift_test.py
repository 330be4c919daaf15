"""Strength from an uplift test of the roof, with the spacings of the test."""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from engine.common.calculation import CalculationStep, Confidence, Recorder, Reference, Term, silent
from engine.common.tolerances import MILLIMETRE
from engine.schema import Count, Number, Quantity
from engine.strength.base import FailureMode, StrengthBasis
from engine.strength.test_statistics import (
    MIN_TESTS,
    SMALLEST_FACTOR,
    resistance_factor,
    safety_factor,
    small_factor_cautions,
)
from engine.units import FOOT, POUND_FORCE, PSF, both

E1592 = Reference("ASTM E1592", "", "the scenario's test report", Confidence.STATED)
USUAL_FACTOR = 2.0
UNIFORM = (
    "the roof uplift test had uniform pressure; its use for point loads is an assumption: "
    "ask the roof maker for a test with the load of an attachment"
)

ANCHORS = {"reliability": 2.5, "material": 1.10, "fabrication_scatter": 0.05}
"""β, Mm and VF of AISI S100 I6.3.1 (formerly D6.2.1) for a roof panel's anchors; Mm and VF from memory."""


class UpliftTest(StrengthBasis):
    """`{ tested_pressure = "70 psf", tested_rib_spacing = "24 in", tested_fastening_spacing = "5 ft" }`."""

    title: ClassVar[str] = "uplift test"
    identifying_keys: ClassVar[tuple[str, ...]] = ("tested_pressure",)
    tested_pressure: Annotated[float, Quantity("pressure", "1 psf", "2000 psf")] = Field(
        description="pressure at failure in the test"
    )
    tested_rib_spacing: Annotated[float, Quantity("length", "3 in", "48 in")] = Field(
        description="seam or rib spacing of the test"
    )
    tested_fastening_spacing: Annotated[float, Quantity("length", "3 in", "12 ft")] = Field(
        description="fastening spacing along the seam or rib of the test"
    )
    safety_factor: Annotated[float, Number(1.0, 20.0)] | None = Field(
        None, description="divisor of the load at failure; not set: 2.0, or from the number of tests"
    )
    tests: Annotated[int, Count(1, 1000)] | None = Field(
        None, description="number of tests; three or more set the safety factor"
    )
    scatter: Annotated[float, Number(0.0, 1.0)] | None = Field(
        None, description="coefficient of variation of the tests; at least 0.065 counts"
    )

    @model_validator(mode="after")
    def enough_tests(self) -> UpliftTest:
        """Refuse a scatter without the number of tests."""
        if self.scatter is not None and (self.tests or 0) < MIN_TESTS:
            raise PydanticCustomError("loadpath", "'scatter' given; it needs 'tests' too, at least 3")
        return self

    def factor(self, record: Recorder = silent) -> float:
        """Ω: as stated; else with three tests or more max(1.67, K2.1 with β 2.5); else 2.0.

        Notes:
            The clause has no minimum for the scatter here; 0.065 is used (safe).
        """
        if self.safety_factor is not None:
            return self.safety_factor
        if self.tests is None or self.tests < MIN_TESTS:
            return USUAL_FACTOR
        phi = resistance_factor(self.tests, self.scatter or 0.0, **ANCHORS, record=record)
        return safety_factor(phi, SMALLEST_FACTOR, record)

    def modes(self) -> tuple[FailureMode, ...]:
        """One mode: pressure x rib spacing x fastening spacing, all three those of the test."""
        steps: list[CalculationStep] = []
        nominal = self.tested_pressure * self.tested_rib_spacing * self.tested_fastening_spacing
        terms = {
            "p": Term(self.tested_pressure / PSF, "psf"),
            "s_rib": Term(self.tested_rib_spacing / FOOT, "ft"),
            "s_fastening": Term(self.tested_fastening_spacing / FOOT, "ft"),
        }
        result = Term(nominal / POUND_FORCE, "lb")
        steps.append(
            CalculationStep(
                "Rn",
                "load of one fastening at failure in the roof uplift test",
                result,
                "p * s_rib * s_fastening",
                terms,
                E1592,
            )
        )
        omega = self.factor(steps.append)
        cautions = (UNIFORM, *small_factor_cautions(omega))
        return (FailureMode("roof uplift test", nominal, omega, E1592, steps=tuple(steps), cautions=cautions),)

    def shear_modes(self) -> tuple[FailureMode, ...]:
        """None: the test pressure acts normal to the roof."""
        return ()

    def description(self) -> str:
        """Origin of the strength."""
        area = f"{both(self.tested_rib_spacing, 'small length')} by {both(self.tested_fastening_spacing, 'length')}"
        test = f"roof uplift test to {both(self.tested_pressure, 'pressure')} with fastenings at {area}"
        return f"{test}, safety factor {self.factor():.2f}; {UNIFORM}"

    def why_not_applicable(self, rib_spacing: float, fastening_spacing: float) -> str | None:
        """Refuse a roof with wider spacings than tested; closer spacings do not add strength."""
        for given, tested, name in (
            (rib_spacing, self.tested_rib_spacing, "rib spacing"),
            (fastening_spacing, self.tested_fastening_spacing, "fastening spacing"),
        ):
            if given > tested + MILLIMETRE:
                wider = f"the roof's {name} is {both(given, 'length')}, the tested one {both(tested, 'length')}"
                return f"{wider}: give a test with at least the roof's spacing"
        return None
