"""A strength is a list of failure modes; the lowest resistance governs.

A basis records the steps to its nominal strength. `FailureMode.resistance_step` is the last one: it depends on the
combination.
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
"""Units of strengths in calculation steps."""


@dataclass(frozen=True)
class FailureMode:
    """One failure mode of a part.

    Args:
        name: for people ("pull-out").
        nominal: strength without a safety factor [N; a module's rating Pa].
        safety_factor: divisor of allowable-stress design.
        reference: the clause.
        load_duration: factor of wood by the combination's duration; empty for other materials.
        temperature_factor: factor of wood in combinations without snow.
        steps: calculation of the nominal strength.
        cautions: sentences to be shown wherever the strength is shown.
        unit: of the strength in its steps, a key of `STEP_UNITS`.
        partial_factor: its own divisor where combinations have partial factors; None is theirs.
    """

    name: str
    nominal: float
    safety_factor: float
    reference: Reference
    load_duration: Mapping[str, float] = field(default_factory=dict)
    temperature_factor: float = 1.0
    steps: tuple[CalculationStep, ...] = ()
    cautions: tuple[str, ...] = ()
    unit: str = "lb"
    partial_factor: float | None = None

    def resistance(self, combination: Combination) -> float:
        """Resistance in a combination [N; a module's rating Pa]."""
        factors = self._duration(combination) * self._temperature(combination)
        return self.nominal * factors / self._divisor(combination)

    def resistance_step(self, combination: Combination) -> CalculationStep:
        """The step from the nominal strength to the resistance in a combination."""
        words = combination.words
        terms = {"Rn": self._term(self.nominal), words.divisor: Term(self._divisor(combination))}
        equation = f"Rn / {words.divisor}"
        if self.load_duration:
            terms["CD"], terms["Ct"] = Term(self._duration(combination)), Term(self._temperature(combination))
            equation = f"CD * Ct * {equation}"
        return CalculationStep(
            "Ra",
            f"{words.resistance} in {combination.name}, {self.name}",
            self._term(self.resistance(combination)),
            equation,
            terms,
            self.reference,
        )

    def _term(self, size: float) -> Term:
        return Term(size / STEP_UNITS[self.unit], self.unit)

    def _duration(self, combination: Combination) -> float:
        return self.load_duration.get(combination.duration, 1.0)

    def _temperature(self, combination: Combination) -> float:
        return 1.0 if combination.has_snow else self.temperature_factor  # wood under snow is cool

    def _divisor(self, combination: Combination) -> float:
        if combination.partial_factor is None:
            return self.safety_factor
        return combination.partial_factor if self.partial_factor is None else self.partial_factor


@dataclass(frozen=True)
class Strength:
    """The strength of a part: the lowest of its failure modes."""

    modes: tuple[FailureMode, ...]

    def governing(self, combination: Combination) -> FailureMode:
        """The mode with the smallest resistance in a combination."""
        return min(self.modes, key=lambda mode: mode.resistance(combination))

    def resistance(self, combination: Combination) -> float:
        """Resistance in a combination [N]."""
        return min(mode.resistance(combination) for mode in self.modes)

    @property
    def cautions(self) -> tuple[str, ...]:
        """Sentences to be shown wherever this strength is shown, each once."""
        return tuple(dict.fromkeys(sentence for mode in self.modes for sentence in mode.cautions))


class StrengthBasis(InputTable):
    """One basis of a strength, as written in the scenario."""

    title: ClassVar[str]
    """Name of the basis for people."""

    identifying_keys: ClassVar[tuple[str, ...]]
    """The keys that only this basis has: a table with one of them has this basis."""

    needed_for_shear: ClassVar[str] = "an allowable or a test in that direction"
    """The input that is missing where `shear_modes` is empty."""

    gives_allowable: ClassVar[bool] = True
    """False if no allowable follows from it: it is a characteristic value or a design resistance."""

    needed_for_design: ClassVar[str] = "{ characteristic = … }, { characteristic_tests = … } or { design = … }"
    """Bases to give in its place where a standard needs design resistances."""

    @property
    def key(self) -> str:
        """The key by which a table is known to have this basis."""
        return next(key for key in self.identifying_keys if getattr(self, key) is not None)

    @property
    def gives_design_resistance(self) -> bool:
        """True if a design resistance follows from it."""
        return not self.gives_allowable

    @abstractmethod
    def modes(self) -> tuple[FailureMode, ...]:
        """The failure modes, each with the steps to its nominal strength."""

    @abstractmethod
    def description(self) -> str:
        """Origin of the strength, in one sentence for people."""

    def shear_modes(self) -> tuple[FailureMode, ...]:
        """The failure modes under load along the surface; empty if this basis gives none.

        A stated or tested load is taken to belong to the direction for which it is written.
        """
        return self.modes()

    @property
    def screw_count(self) -> int | None:
        """Number of screws that the strength is for; None if it has none."""
        return None

    @property
    def screw_diameter(self) -> float | None:
        """Diameter of its screws in wood [m]; None if it has none."""
        return None

    @property
    def covers_seam(self) -> bool:
        """True if it covers the seam's hold on its clip, not only the screws of the clip."""
        return True

    @property
    def tested_on_this_roof(self) -> bool:
        """True if the part was tested on the roof itself, so that the sheet around it was tested with it."""
        return False

    def at_wood_temperature(self, temperature: str) -> StrengthBasis:
        """The basis with the temperature of the roof's wood; only screws in wood depend on it."""
        return self

    def why_not_applicable(self, rib_spacing: float, fastening_spacing: float) -> str | None:
        """Reason why it does not apply to a roof with these spacings [m]; None if it does."""
        return None
