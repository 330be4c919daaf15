"""What a strength is: failure modes, the lowest of which governs."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, field

from engine.combination import Combination
from engine.described import Described
from engine.reference import Reference, Step


@dataclass(frozen=True)
class Mode:
    """One way of failing.

    `nominal` [N] is what it takes before any safety, `safety_factor` what allowable-stress
    design divides it by. `load_duration` multiplies the strength by the combination's duration
    (wood; empty elsewhere). `cautions` are sentences to be shown wherever the strength is.
    """

    name: str
    nominal: float
    safety_factor: float
    reference: Reference
    load_duration: Mapping[str, float] = field(default_factory=dict)
    steps: tuple[Step, ...] = ()
    cautions: tuple[str, ...] = ()

    def resistance(self, combination: Combination) -> float:
        """What this mode may be asked to carry in a combination [N]."""
        divisor = self.safety_factor if combination.partial_factor is None else combination.partial_factor
        return self.nominal * self.load_duration.get(combination.duration, 1.0) / divisor


@dataclass(frozen=True)
class Strength:
    """A capacity as the lowest of its modes."""

    modes: tuple[Mode, ...]

    def governing(self, combination: Combination) -> Mode:
        """The mode that gives out first in a combination."""
        return min(self.modes, key=lambda mode: mode.resistance(combination))

    def resistance(self, combination: Combination) -> float:
        """What may be asked of it in a combination [N]."""
        return self.governing(combination).resistance(combination)

    @property
    def cautions(self) -> tuple[str, ...]:
        """What must be said wherever this strength is shown."""
        return tuple(dict.fromkeys(sentence for mode in self.modes for sentence in mode.cautions))


class Way(Described):
    """One of the ways to know a strength, as written in the scenario."""

    @abstractmethod
    def modes(self) -> tuple[Mode, ...]:
        """The failure modes this knowledge gives, each with its steps."""

    @abstractmethod
    def sentence(self) -> str:
        """How the strength was obtained, in one sentence for people."""

    def refuses(self, rib_spacing: float, fastening_spacing: float) -> str | None:
        """Why this knowledge does not apply to a roof of these spacings [m]; None where it does."""
        return None
