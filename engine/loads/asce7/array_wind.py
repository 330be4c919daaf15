"""Interface of wind on modules; one implementation a clause."""

from __future__ import annotations

from typing import Protocol

from engine.common.arrays import Floats, Ints
from engine.common.calculation import CalculationStep, Recorder, silent
from engine.common.tolerances import SAME_LENGTH
from engine.loads.interface import ExceededLimit, ZonedModules
from engine.units import INCH, both

MIN_GAP = 0.25 * INCH
"""Smallest clear distance between modules, §29.4.3 and §29.4.4 [m]."""


class ModuleWind(ZonedModules, Protocol):
    """Net wind coefficients of the modules of one field, and the limits of their clause."""

    @property
    def zone_widths(self) -> tuple[CalculationStep, ...]:
        """Steps to the widths of its own zones; none where the modules have those of the roof."""
        ...

    def coefficient(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """Net coefficients with their sign, for modules and effective areas [ft²] of one shape."""
        ...


def narrow_gap(clause: str, gap: float, modules: int) -> tuple[ExceededLimit, ...]:
    """The limit of 0.25 in between modules, §29.4.3 and §29.4.4, if exceeded; gap [m]."""
    if modules < 2 or gap >= MIN_GAP - SAME_LENGTH:
        return ()
    given, minimum = both(gap, "small length"), both(MIN_GAP, "small length")
    return (ExceededLimit(clause, f"the gap between modules is {given}, the minimum is {minimum}"),)
