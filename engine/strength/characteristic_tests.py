"""Characteristic strength from tests, EN 1990 annex D.7."""

from __future__ import annotations

import statistics
from typing import Annotated, Any, ClassVar

from pydantic import Field

from engine.common.calculation import CalculationStep, Confidence, Reference, Term
from engine.schema import FieldType, Quantity, as_given
from engine.strength.base import FailureMode, StrengthBasis
from engine.strength.characteristic import PartialFactor
from engine.units import POUND_FORCE

CLAUSE = Reference("EN 1990", "2002", "table D1, Vx unknown", Confidence.SINGLE)

FRACTILE_FACTORS = {3: 3.37, 4: 2.63, 5: 2.33, 6: 2.18, 10: 1.92}
"""Number of tests → kn for the 5 % fractile, its scatter unknown; between numbers that of the smaller one (safe)."""

MIN_TESTS = min(FRACTILE_FACTORS)


def fractile_factor(tests: int) -> float:
    """Kn for a number of tests, at least three."""
    return FRACTILE_FACTORS[max(number for number in FRACTILE_FACTORS if number <= tests)]


USUAL_SCATTER = 0.10
"""Coefficient of variation taken for tests that are only planned (judgement): the results decide."""


def mean_over_design(tests: int, partial_factor: float) -> float:
    """Mean of so many tests over the design resistance that follows from it, with the usual scatter."""
    return partial_factor / (1 - fractile_factor(tests) * USUAL_SCATTER)


class TestList(FieldType):
    """Loads at failure of at least three tests, with a scatter that leaves a characteristic value."""

    def read(self, written: object) -> tuple[float, ...]:
        """Forces in N."""
        if not isinstance(written, list | tuple) or len(written) < MIN_TESTS:
            given = f"{len(written)} tests" if isinstance(written, list | tuple) else as_given(written)
            raise ValueError(f"{given} given; {self.allowed}")
        force = Quantity("force", "1 N", "500 kN")
        tests = tuple(force.read(test) for test in written)
        scatter = statistics.stdev(tests) / statistics.fmean(tests)
        if fractile_factor(len(tests)) * scatter >= 1:
            raise ValueError(
                f"the tests scatter by {scatter:.0%}, which leaves no characteristic value; make more tests"
            )
        return tests

    @property
    def allowed(self) -> str:
        """The lists allowed, in words."""
        return 'at least three are needed, such as ["3.1 kN", "3.4 kN", "3.2 kN"]'

    @property
    def json_schema(self) -> dict[str, Any]:
        """A list of texts."""
        return {"type": "array", "items": {"type": "string"}, "minItems": MIN_TESTS}


class CharacteristicTests(StrengthBasis):
    """`{ characteristic_tests = ["3.1 kN", "3.4 kN", "3.2 kN"], gamma_m = 1.25 }`."""

    title: ClassVar[str] = "characteristic value of tests"
    identifying_keys: ClassVar[tuple[str, ...]] = ("characteristic_tests",)
    gives_allowable: ClassVar[bool] = False
    characteristic_tests: Annotated[tuple[float, ...], TestList()] = Field(
        description="load at failure of every test, for standards with partial factors"
    )
    gamma_m: PartialFactor | None = Field(None, description="its partial factor; not set: that of the standard")

    @property
    def scatter(self) -> float:
        """Coefficient of variation of the tests."""
        return statistics.stdev(self.characteristic_tests) / statistics.fmean(self.characteristic_tests)

    def modes(self) -> tuple[FailureMode, ...]:
        """One mode: Rk = m (1 - kn V)."""
        number, mean = len(self.characteristic_tests), statistics.fmean(self.characteristic_tests)
        kn = fractile_factor(number)
        nominal = mean * (1 - kn * self.scatter)
        terms = {"m": Term(mean / POUND_FORCE, "lb"), "kn": Term(kn), "V": Term(self.scatter)}
        meaning = f"characteristic strength of {number} tests, 5 % fractile"
        step = CalculationStep("Rn", meaning, Term(nominal / POUND_FORCE, "lb"), "m - kn * V * m", terms, CLAUSE)
        return (
            FailureMode("characteristic strength", nominal, 1.0, CLAUSE, steps=(step,), partial_factor=self.gamma_m),
        )

    def description(self) -> str:
        """Origin of the strength."""
        number, own = len(self.characteristic_tests), f", partial factor {self.gamma_m:g}" if self.gamma_m else ""
        return f"{number} tests, coefficient of variation {self.scatter:.3f}, EN 1990 table D1{own}"
