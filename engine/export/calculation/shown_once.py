"""Steps of a calculation that a document has not shown yet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from engine.common.calculation import CalculationStep
from engine.export.document import Steps, steps_block
from engine.units import System


class ShownOnce:
    """Memory of the steps that a document has shown, in one system of units."""

    def __init__(self, system: System) -> None:
        self._system: System = system
        self._shown: set[tuple[str, str, float]] = set()

    def block(self, steps: Iterable[CalculationStep]) -> Iterator[Steps]:
        """The steps not shown before, as one block; nothing where all were."""
        new = []
        for step in steps:
            mark = (step.symbol, step.meaning, step.result.value)
            if mark not in self._shown:
                self._shown.add(mark)
                new.append(step)
        if new:
            yield steps_block(new, self._system)
