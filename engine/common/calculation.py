"""Steps of a calculation with their sources.

A clause function takes an optional recorder. During the search it is `silent`. To explain a result the same function
runs again with a list's `append` as its recorder, and the recorded steps are shown.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum


class Confidence(StrEnum):
    """Quality of a source. Nothing here was read from the printed standards."""

    SEVERAL = "seen in several public sources"
    SINGLE = "seen in one public source"
    MEMORY = "from memory, to be checked against the printed document"
    STATED = "stated in the scenario"
    STATICS = "statics"
    COUNTED = "computed"
    PRACTICE = "common practice, no source"
    CHOICE = "loadpath's own choice, on the safe side"


@dataclass(frozen=True)
class Reference:
    """A document, its edition and clause, and how well its figures are confirmed."""

    document: str
    edition: str
    clause: str
    confidence: Confidence

    def __str__(self) -> str:
        return " ".join(part for part in (self.document, self.edition, self.clause) if part)


STATICS = Reference("statics", "", "", Confidence.STATICS)
COUNTED = Reference("computed", "", "", Confidence.COUNTED)
SCENARIO = Reference("the scenario", "", "", Confidence.STATED)


@dataclass(frozen=True)
class Term:
    """The value of a symbol, in the unit of its equation."""

    value: float
    unit: str = ""


@dataclass(frozen=True)
class CalculationStep:
    """One line of a calculation.

    `equation` is the right-hand side as a Python expression over the names in `terms`, with `log` for log10, `exp`,
    `sqrt`, `sin`, `cos`, `tan` in degrees, `min` and `max`: anyone can evaluate it again. The equation of a value that
    is taken as given is empty.
    """

    symbol: str
    meaning: str
    result: Term
    equation: str
    terms: Mapping[str, Term]
    reference: Reference


Recorder = Callable[[CalculationStep], None]


def silent(step: CalculationStep) -> None:
    """The recorder that records nothing."""
