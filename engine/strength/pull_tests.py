"""The sixth way: pull tests on site, AISI S100 K2 (formerly F1)."""

from __future__ import annotations

import statistics
from typing import Annotated, Any, ClassVar

from pydantic import Field

from engine.described import Choice, Kind, Quantity, Words
from engine.reference import Step, Term
from engine.strength.scatter import FEWEST_TESTS, LEAST_SCATTER, S100_K2, safety_factor
from engine.strength.vocabulary import Mode, Way
from engine.units import POUND_FORCE

FIELD_MATERIAL = 1.00
"""Mm: in field pulls the overstrength of the real metal is already in the sample (safe; the clause has 1.10)."""

SPREAD = 0.15
LEAST_SCREW_FACTOR = 3.0
PLACE = "a pulled point alone does not prove the roof's own fastening"


class Pulls(Kind):
    """A list of forces; the fifteen-percent rule applies and no result is dropped."""

    def read(self, written: object) -> tuple[float, ...]:
        """Forces in N."""
        if not isinstance(written, list | tuple) or len(written) < FEWEST_TESTS:
            raise ValueError(f"{len(written) if isinstance(written, list | tuple) else 'no list of'} pulls given; {self.allowed}")
        force = Quantity("force", "1 lb", "100 kip")
        pulls = tuple(force.read(pull) for pull in written)
        mean = statistics.fmean(pulls)
        widest = max(abs(pull / mean - 1) for pull in pulls)
        if widest > SPREAD and len(pulls) < 2 * FEWEST_TESTS:
            raise ValueError(
                f"one pull is {widest:.0%} off the mean of {len(pulls)}; beyond 15 % three more are needed, at least six in all"
            )
        return pulls

    @property
    def allowed(self) -> str:
        """What may be written."""
        return 'at least three are needed, such as ["520 lb", "610 lb", "575 lb"]'


class PullTests(Way):
    """`{ pull_tests = ["520 lb", …], connection = "screw" }`."""

    signature: ClassVar[str] = "pull_tests"
    pull_tests: Annotated[tuple[float, ...], Pulls()] = Field(description="load at failure of each pull, none left out")
    connection: Annotated[str, Choice(("screw", "other"))] = Field(description="whether a screw gave out, or something else")
    place: Annotated[str, Words(60)] = Field("not said", description="where the pulls were made; unlike places are not pooled")

    def scatter(self) -> tuple[float, float]:
        """Mean [N] and coefficient of variation of the pulls."""
        mean = statistics.fmean(self.pull_tests)
        return mean, statistics.stdev(self.pull_tests) / mean

    def modes(self) -> tuple[Mode, ...]:
        """Mean over the safety factor their scatter asks for; for screws at least 3.0."""
        steps: list[Step] = []
        mean, scatter = self.scatter()
        count = len(self.pull_tests)
        pulls = {f"P{number + 1}": Term(pull / POUND_FORCE, "lb") for number, pull in enumerate(self.pull_tests)}
        steps.append(
            Step("Rm", f"mean of {count} pulls", Term(mean / POUND_FORCE, "lb"), f"({' + '.join(pulls)}) / {count}", pulls, S100_K2)
        )
        steps.append(Step("VP", f"scatter of the pulls, counted as at least {LEAST_SCATTER}", Term(scatter), "", {}, S100_K2))
        screw = self.connection == "screw"
        omega = safety_factor(
            count, scatter, reliability=3.5, material=FIELD_MATERIAL, fabrication_scatter=0.10 if screw else 0.15, record=steps.append
        )
        omega = max(omega, LEAST_SCREW_FACTOR) if screw else omega
        terms: dict[str, Any] = {"Rm": Term(mean / POUND_FORCE, "lb"), "Omega": Term(omega)}
        steps.append(Step("Ra", "allowable from the pulls", Term(mean / omega / POUND_FORCE, "lb"), "Rm / Omega", terms, S100_K2))
        return (Mode("field pull tests", mean, omega, S100_K2, steps=tuple(steps), cautions=(PLACE,)),)

    def sentence(self) -> str:
        """How it was obtained."""
        mean, scatter = self.scatter()
        omega = self.modes()[0].safety_factor
        pulls = f"{len(self.pull_tests)} pull tests on site ({self.place})"
        return f"{pulls}, mean {mean / POUND_FORCE:.0f} lb, scatter {scatter:.3f}, divided by {omega:.2f}"
