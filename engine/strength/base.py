"""What a strength is: failure modes, the lowest of which governs.

A way records the steps to its nominal strength; the last step, which depends on the combination,
is `Mode.answer`.
"""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import ClassVar

from engine.common.calculation import CalculationStep, Reference, Term
from engine.common.combination import Combination
from engine.schema import InputTable
from engine.units import POUND_FORCE, PSF

STEP_UNITS = {"lb": POUND_FORCE, "psf": PSF}
"""The units that steps tell strengths in."""


@dataclass(frozen=True)
class FailureMode:
    """One way of failing.

    `nominal` [N, of a rating Pa] is what it takes before any safety, `safety_factor` what allowable-stress design
    divides it by, `unit` what its steps are told in. `load_duration` multiplies the strength by the combination's
    duration (wood; empty elsewhere). `cautions` are sentences to be shown wherever the strength is.
    """

    name: str
    nominal: float
    safety_factor: float
    reference: Reference
    load_duration: Mapping[str, float] = field(default_factory=dict)
    steps: tuple[CalculationStep, ...] = ()
    cautions: tuple[str, ...] = ()
    unit: str = "lb"

    def resistance(self, combination: Combination) -> float:
        """What this mode may be asked to carry in a combination [N, of a rating Pa]."""
        return self.nominal * self._duration(combination) / self._divisor(combination)

    def resistance_step(self, combination: Combination) -> CalculationStep:
        """`resistance` as a step: from the nominal strength to what a combination may ask."""
        terms = {"Rn": self._term(self.nominal), "Omega": Term(self._divisor(combination))}
        equation = "Rn / Omega"
        if self.load_duration:
            terms["CD"], equation = Term(self._duration(combination)), "CD * Rn / Omega"
        return CalculationStep(
            "Ra",
            f"what {self.name} allows in {combination.name}",
            self._term(self.resistance(combination)),
            equation,
            terms,
            self.reference,
        )

    def _term(self, size: float) -> Term:
        return Term(size / STEP_UNITS[self.unit], self.unit)

    def _duration(self, combination: Combination) -> float:
        return self.load_duration.get(combination.duration, 1.0)

    def _divisor(self, combination: Combination) -> float:
        return self.safety_factor if combination.partial_factor is None else combination.partial_factor


@dataclass(frozen=True)
class Strength:
    """A capacity as the lowest of its modes."""

    modes: tuple[FailureMode, ...]

    def governing(self, combination: Combination) -> FailureMode:
        """The mode that gives out first in a combination."""
        return min(self.modes, key=lambda mode: mode.resistance(combination))

    def resistance(self, combination: Combination) -> float:
        """What may be asked of it in a combination [N]."""
        return self.governing(combination).resistance(combination)

    @property
    def cautions(self) -> tuple[str, ...]:
        """What must be said wherever this strength is shown."""
        return tuple(dict.fromkeys(sentence for mode in self.modes for sentence in mode.cautions))


class StrengthBasis(InputTable):
    """One of the ways to know a strength, as written in the scenario."""

    title: ClassVar[str]
    """What the way is called."""

    identifying_keys: ClassVar[tuple[str, ...]]
    """The keys that tell it from the other ways: a table with one of them is written in this way."""

    needed_for_shear: ClassVar[str] = "an allowable or a test in that direction"
    """What must be known where `shear_modes` gives none."""

    @abstractmethod
    def modes(self) -> tuple[FailureMode, ...]:
        """The failure modes this knowledge gives, each with the steps to its nominal strength."""

    @abstractmethod
    def sentence(self) -> str:
        """How the strength was obtained, in one sentence for people."""

    def shear_modes(self) -> tuple[FailureMode, ...]:
        """The failure modes under load along the surface; none where this knowledge says nothing about it.

        A load that was stated or tested is taken to have been found in the direction it is given for.
        """
        return self.modes()

    @property
    def covers_seam(self) -> bool:
        """Whether this covers a standing seam's own hold on its clip, not only what holds the clip down."""
        return True

    def why_not_applicable(self, rib_spacing: float, fastening_spacing: float) -> str | None:
        """Why this knowledge does not apply to a roof of these spacings [m]; None where it does."""
        return None
