"""The verdict on one method, as a word."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from engine.common.tolerances import SAME_RATIO
from engine.links import Check

CLOSE = 0.05
"""A utilisation that differs from 1 by at most this is called close, whichever side it is on [-]."""


class Status(StrEnum):
    """The verdicts, best first; the values are those of JSON."""

    HOLDS = "holds"
    INCOMPLETE = "incomplete"
    STRENGTH_UNKNOWN = "strength unknown"
    OVER = "over"
    OUTSIDE_SCOPE = "outside scope"
    REFUSED = "refused"

    @property
    def word(self) -> str:
        """The word on screens."""
        return self.value.upper()

    @property
    def rank(self) -> int:
        """0 for the best."""
        return list(Status).index(self)

    @property
    def nothing_over(self) -> bool:
        """True if every link that is checked holds."""
        return self in (Status.HOLDS, Status.INCOMPLETE, Status.STRENGTH_UNKNOWN)


@dataclass(frozen=True)
class Verdict:
    """The verdict on a layout, and the check it rests on; None where nothing was checked."""

    status: Status
    check: Check | None = None

    @property
    def utilisation(self) -> float:
        """The largest utilisation [-]; 0 where nothing was checked."""
        return self.check.ratio if self.check else 0.0

    @property
    def component(self) -> str:
        """The component that has it; empty where nothing was checked."""
        return self.check.title if self.check else ""

    @property
    def badness(self) -> tuple[bool, float]:
        """Orders the verdicts on one layout at several places: the largest is the worst."""
        return not self.status.nothing_over, self.utilisation


def is_close(utilisation: float) -> bool:
    """True if a utilisation as shown is 0.95 to 1.05."""
    return abs(round(utilisation, 2) - 1) <= CLOSE + SAME_RATIO
