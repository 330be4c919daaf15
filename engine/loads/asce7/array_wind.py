"""What every way of finding wind on modules answers; one implementation a clause."""

from __future__ import annotations

from typing import Protocol

from engine.common.arrays import Floats, Ints
from engine.common.calculation import Recorder, silent
from engine.loads.interface import ExceededLimit, ZonedModules
from engine.units import INCH, both

MIN_GAP = 0.25 * INCH
"""Least clear distance between modules, §29.4.3 and §29.4.4 [m]."""

GAP_TOLERANCE = 1e-9
"""What two lengths may differ by and still be the same [m]."""


class ModuleWind(ZonedModules, Protocol):
    """Net wind coefficients of one field's modules, and where the clause behind them ends."""

    def coefficient(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """Net coefficient with its sign, for modules and effective areas [ft²] of one shape."""
        ...


def narrow_gap_remark(where: str, gap: float, modules: int) -> tuple[ExceededLimit, ...]:
    """Gaps of at least 0.25 in between modules, for the air to pass, §29.4.3 and §29.4.4; gap [m]."""
    if modules < 2 or gap >= MIN_GAP - GAP_TOLERANCE:
        return ()
    given, first_minimum = both(gap, "small length"), both(MIN_GAP, "small length")
    return (ExceededLimit(where, f"the gap between modules is {given}, the clause asks for at least {first_minimum}"),)
