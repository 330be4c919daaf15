"""Where a number comes from, and how it came about.

A clause function takes an optional recorder. During the search it is `silent`; asked "why?",
the same function runs again with a list's `append`, and the steps are shown.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum


class Confidence(StrEnum):
    """How well a source was seen. Nothing here was read from the printed standards."""

    SEVERAL = "seen in several public sources"
    SINGLE = "seen in one public source"
    MEMORY = "from memory, to be checked against the printed document"
    STATED = "stated in the scenario"
    STATICS = "statics"
    COUNTED = "counted and added up"
    PRACTICE = "common practice, no source"
    CHOICE = "a stated choice of loadpath's, on the safe side"


@dataclass(frozen=True)
class Reference:
    """A document, its edition and clause, and how sure we are of what it says."""

    document: str
    edition: str
    clause: str
    confidence: Confidence

    def __str__(self) -> str:
        return " ".join(part for part in (self.document, self.edition, self.clause) if part)


STATICS = Reference("statics", "", "", Confidence.STATICS)
COUNTED = Reference("counted and added up", "", "", Confidence.COUNTED)
SCENARIO = Reference("the scenario", "", "", Confidence.STATED)


@dataclass(frozen=True)
class Term:
    """A symbol's value in the unit the equation is written in."""

    value: float
    unit: str = ""


@dataclass(frozen=True)
class CalculationStep:
    """One line of a calculation.

    `equation` is the right-hand side as a Python expression over the names in `terms`
    (with `log` for log10, `exp`, `sqrt`, `sin`, `cos`, `tan` in degrees, `min`, `max`), so that
    anyone can evaluate it again; an empty equation is a value taken as it stands.
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
