"""Strength from pull tests on site, AISI S100 K2 (formerly F1)."""

from __future__ import annotations

import statistics
from typing import Annotated, Any, ClassVar

from pydantic import Field

from engine.common.calculation import CalculationStep, Recorder, Term, silent
from engine.common.tolerances import SAME_RATIO
from engine.schema import Choice, FieldType, Quantity, TextLine
from engine.strength.base import FailureMode, StrengthBasis
from engine.strength.test_statistics import CLAUSE, MIN_SCATTER, MIN_TESTS, resistance_factor, safety_factor
from engine.units import POUND_FORCE

CONNECTION_RELIABILITY = 3.5
FIELD_MATERIAL = 1.00
"""Mm: the sample of a field pull already has the overstrength of the real metal (safe; the clause has 1.10)."""

SCREW, OTHER = "screw", "other"
FABRICATION_SCATTER = {SCREW: 0.10, OTHER: 0.15}
MIN_FACTOR = {SCREW: 3.0, OTHER: 1.0}
"""Part that failed → VF, and → the smallest Ω."""

MAX_DEVIATION, MIN_TESTS_BEYOND = 0.15, 2 * MIN_TESTS
"""Largest deviation of a pull from the mean, and the number of tests needed beyond it, K2.1.1."""

LOCAL = (
    "a pull test at one place does not prove the roof's own fastening: show a clip, seam or roof uplift test for it too"
)


class PullList(FieldType):
    """Loads at failure of all pulls; six are needed if one deviates more than 15 % from the mean."""

    def read(self, written: object) -> tuple[float, ...]:
        """Forces in N."""
        if not isinstance(written, list | tuple) or len(written) < MIN_TESTS:
            raise ValueError(
                f"{len(written) if isinstance(written, list | tuple) else 'no list of'} pulls given; {self.allowed}"
            )
        force = Quantity("force", "1 lb", "100 kip")
        pulls = tuple(force.read(pull) for pull in written)
        mean = statistics.fmean(pulls)
        deviation = max(abs(pull / mean - 1) for pull in pulls)
        if deviation > MAX_DEVIATION + SAME_RATIO and len(pulls) < MIN_TESTS_BEYOND:
            worst = f"one of {len(pulls)} pulls is {deviation:.0%} off the mean"
            raise ValueError(f"{worst}; beyond 15 % make three more, at least six in all, and keep every result")
        return pulls

    @property
    def allowed(self) -> str:
        """The lists allowed, in words."""
        return 'at least three are needed, such as ["520 lb", "610 lb", "575 lb"]'

    @property
    def json_schema(self) -> dict[str, Any]:
        """A list of texts."""
        return {"type": "array", "items": {"type": "string"}, "minItems": MIN_TESTS}


def mean_over_allowable(tests: int, connection: str) -> float:
    """Least mean of so many pulls over the allowable that follows from it: Ω with the smallest scatter that counts."""
    return safety_factor(_resistance_factor(tests, 0.0, connection), MIN_FACTOR[connection])


def _resistance_factor(tests: int, scatter: float, connection: str, record: Recorder = silent) -> float:
    return resistance_factor(
        tests,
        scatter,
        reliability=CONNECTION_RELIABILITY,
        material=FIELD_MATERIAL,
        fabrication_scatter=FABRICATION_SCATTER[connection],
        record=record,
    )


class PullTests(StrengthBasis):
    """`{ pull_tests = ["520 lb", …], connection = "screw" }`."""

    title: ClassVar[str] = "pull tests"
    identifying_keys: ClassVar[tuple[str, ...]] = ("pull_tests",)
    pull_tests: Annotated[tuple[float, ...], PullList()] = Field(description="load at failure of every pull")
    connection: Annotated[str, Choice((SCREW, OTHER))] = Field(
        description="the part that failed: a screw or another part"
    )
    place: Annotated[str, TextLine(60)] = Field(
        "not said", description="place of the pulls, such as mid-bay; do not mix unlike places"
    )

    @property
    def tested_on_this_roof(self) -> bool:
        """True: pulls are made on the building."""
        return True

    def mean(self, record: Recorder = silent) -> float:
        """Rm, mean of the pulls [N]."""
        mean = statistics.fmean(self.pull_tests)
        meaning = f"mean of {len(self.pull_tests)} pulls ({self.place})"
        pulls = self._terms()
        record(
            CalculationStep(
                "Rn", meaning, Term(mean / POUND_FORCE, "lb"), f"({' + '.join(pulls)}) / {len(pulls)}", pulls, CLAUSE
            )
        )
        return mean

    def scatter(self, record: Recorder = silent) -> float:
        """VP, standard deviation of the pulls over their mean, without its minimum."""
        mean = self.mean()
        scatter = statistics.stdev(self.pull_tests) / mean
        pulls = self._terms()
        squares = " + ".join(f"({pull} - Rn) ** 2" for pull in pulls)
        equation = f"max(sqrt(({squares}) / {len(pulls) - 1}) / Rn, least)"
        terms = {**pulls, "Rn": Term(mean / POUND_FORCE, "lb"), "least": Term(MIN_SCATTER)}
        record(
            CalculationStep(
                "VP",
                "coefficient of variation of the pulls, with its minimum",
                Term(max(scatter, MIN_SCATTER)),
                equation,
                terms,
                CLAUSE,
            )
        )
        return scatter

    def modes(self) -> tuple[FailureMode, ...]:
        """One mode: the mean, with the safety factor that follows from the scatter."""
        steps: list[CalculationStep] = []
        mean = self.mean(steps.append)
        scatter = self.scatter(steps.append)
        phi = _resistance_factor(len(self.pull_tests), scatter, self.connection, steps.append)
        omega = safety_factor(phi, MIN_FACTOR[self.connection], steps.append)
        return (FailureMode("field pull tests", mean, omega, CLAUSE, steps=tuple(steps), cautions=(LOCAL,)),)

    @property
    def covers_seam(self) -> bool:
        """True if another part than a screw failed: then the seam was pulled too."""
        return self.connection == OTHER

    def description(self) -> str:
        """Origin of the strength."""
        pulls = f"{len(self.pull_tests)} pull tests on site ({self.place})"
        omega = self.modes()[0].safety_factor
        mean, scatter = self.mean() / POUND_FORCE, self.scatter()
        return f"{pulls}: mean {mean:.0f} lb, coefficient of variation {scatter:.3f}, safety factor {omega:.2f}"

    def _terms(self) -> dict[str, Term]:
        return {f"P{number}": Term(pull / POUND_FORCE, "lb") for number, pull in enumerate(self.pull_tests, start=1)}
