"""Allowable-stress combinations, ASCE 7 §2.4.1, with wind at strength level."""

from __future__ import annotations

from engine.combination import Combination
from engine.loads import DEAD
from engine.standards.asce7.site import SEVEN_16


def combinations(edition: str, snow_cases: tuple[str, ...]) -> tuple[Combination, ...]:
    """Every combination that weight, snow and wind enter; in 7-22 snow counts 0.7."""
    snow = 1.0 if edition == SEVEN_16 else 0.7
    found = [Combination("D", {DEAD: 1.0}, "permanent")]
    for case in snow_cases:
        found.append(Combination(f"D + {_times(snow)}{case}", {DEAD: 1.0, case: snow}, "snow"))
    found.append(Combination("D + 0.6W down", {DEAD: 1.0, "W down": 0.6}, "wind"))
    for case in snow_cases:
        factors = {DEAD: 1.0, case: 0.75 * snow, "W down": 0.45}
        found.append(Combination(f"D + {_times(0.75 * snow)}{case} + 0.45W down", factors, "wind"))
    found.append(Combination("0.6D + 0.6W up", {DEAD: 0.6, "W up": 0.6}, "wind"))
    return tuple(found)


def _times(factor: float) -> str:
    return "" if factor == 1 else f"{factor:g}"
