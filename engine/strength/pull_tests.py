"""The sixth way: pull tests on site, AISI S100 K2 (formerly F1)."""

from __future__ import annotations

import statistics
from typing import Annotated, ClassVar

from pydantic import Field

from engine.common.calculation import CalculationStep, Recorder, Term, silent
from engine.schema import Choice, FieldType, Quantity, TextLine
from engine.strength.base import FailureMode, StrengthBasis
from engine.strength.test_statistics import CLAUSE, FEWEST_TESTS, MIN_SCATTER, resistance_factor, safety_factor
from engine.units import POUND_FORCE

CONNECTION_RELIABILITY = 3.5
FIELD_MATERIAL = 1.00
"""Mm: in field pulls the overstrength of the real metal is already in the sample (safe; the clause has 1.10)."""

FABRICATION_SCATTER = {"screw": 0.10, "other": 0.15}
MIN_FACTOR = {"screw": 3.0, "other": 1.0}
"""What gave out → VF, and the least Ω."""

SPREAD, FEWEST_WIDE = 0.15, 2 * FEWEST_TESTS
"""Once a pull lies farther off the mean than this, so many are needed."""

ROUNDING = 1e-9
PLACE = "a pulled point alone does not prove the roof's own fastening"


class PullList(FieldType):
    """A list of forces; the fifteen-percent rule applies and no result is dropped."""

    def read(self, written: object) -> tuple[float, ...]:
        """Forces in N."""
        if not isinstance(written, list | tuple) or len(written) < FEWEST_TESTS:
            raise ValueError(
                f"{len(written) if isinstance(written, list | tuple) else 'no list of'} pulls given; {self.allowed}"
            )
        force = Quantity("force", "1 lb", "100 kip")
        pulls = tuple(force.read(pull) for pull in written)
        mean = statistics.fmean(pulls)
        widest = max(abs(pull / mean - 1) for pull in pulls)
        if widest > SPREAD + ROUNDING and len(pulls) < FEWEST_WIDE:
            off = f"one of {len(pulls)} pulls is {widest:.0%} off their mean"
            raise ValueError(f"{off}; beyond 15 % three more are needed, at least six in all, and none is dropped")
        return pulls

    @property
    def allowed(self) -> str:
        """What may be written."""
        return 'at least three are needed, such as ["520 lb", "610 lb", "575 lb"]'


class PullTests(StrengthBasis):
    """`{ pull_tests = ["520 lb", …], connection = "screw" }`."""

    title: ClassVar[str] = "pull tests"
    identifying_keys: ClassVar[tuple[str, ...]] = ("pull_tests",)
    pull_tests: Annotated[tuple[float, ...], PullList()] = Field(
        description="load at failure of each pull, none left out"
    )
    connection: Annotated[str, Choice(("screw", "other"))] = Field(
        description="whether a screw gave out, or something else"
    )
    place: Annotated[str, TextLine(60)] = Field(
        "not said", description="where the pulls were made; unlike places are not pooled"
    )

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
        """VP, standard deviation of the pulls over their mean, as it was found."""
        mean = self.mean()
        scatter = statistics.stdev(self.pull_tests) / mean
        pulls = self._terms()
        squares = " + ".join(f"({pull} - Rn) ** 2" for pull in pulls)
        equation = f"max(sqrt(({squares}) / {len(pulls) - 1}) / Rn, least)"
        terms = {**pulls, "Rn": Term(mean / POUND_FORCE, "lb"), "least": Term(MIN_SCATTER)}
        record(
            CalculationStep(
                "VP",
                "scatter of the pulls, and not less than the least",
                Term(max(scatter, MIN_SCATTER)),
                equation,
                terms,
                CLAUSE,
            )
        )
        return scatter

    def modes(self) -> tuple[FailureMode, ...]:
        """One mode: the mean, over the safety factor that the pulls' scatter asks for."""
        steps: list[CalculationStep] = []
        mean = self.mean(steps.append)
        phi = resistance_factor(
            len(self.pull_tests),
            self.scatter(steps.append),
            reliability=CONNECTION_RELIABILITY,
            material=FIELD_MATERIAL,
            fabrication_scatter=FABRICATION_SCATTER[self.connection],
            record=steps.append,
        )
        omega = safety_factor(phi, MIN_FACTOR[self.connection], steps.append)
        return (FailureMode("field pull tests", mean, omega, CLAUSE, steps=tuple(steps), cautions=(PLACE,)),)

    @property
    def covers_seam(self) -> bool:
        """Only where something other than a screw gave out: then the seam was pulled too."""
        return self.connection == "other"

    def sentence(self) -> str:
        """How it was obtained."""
        pulls = f"{len(self.pull_tests)} pull tests on site ({self.place})"
        omega = self.modes()[0].safety_factor
        return f"{pulls}, mean {self.mean() / POUND_FORCE:.0f} lb, scatter {self.scatter():.3f}, divided by {omega:.2f}"

    def _terms(self) -> dict[str, Term]:
        return {f"P{number}": Term(pull / POUND_FORCE, "lb") for number, pull in enumerate(self.pull_tests, start=1)}
