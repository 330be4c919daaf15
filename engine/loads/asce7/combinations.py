"""Allowable-stress combinations, ASCE 7 §2.4.1, with wind (and in 7-22 snow) at strength level."""

from __future__ import annotations

from collections.abc import Iterator

from engine.common.combination import Combination
from engine.loads.asce7.net_pressure import DOWN, UP
from engine.loads.asce7.seismic import HORIZONTAL, VERTICAL
from engine.loads.asce7.site import SEVEN_16, SEVEN_22
from engine.loads.interface import DEAD

SNOW = {SEVEN_16: 1.0, SEVEN_22: 0.7}
"""Edition → factor from its snow to the allowable-stress level."""

WIND = 0.6
"""Factor from wind to the allowable-stress level."""

TOGETHER = 0.75
"""Factor of each of two variable loads that act together."""

EARTHQUAKE = 0.7
"""Factor from an earthquake to the allowable-stress level, §2.4.5."""


def level(edition: str, case: str) -> str:
    """Level of a load case before any factor: "service", or "strength" where allowable-stress design reduces it."""
    if case in (UP, DOWN, VERTICAL, *HORIZONTAL):
        return "strength"
    return "service" if case == DEAD or SNOW[edition] == 1 else "strength"


def combinations(edition: str, snow_cases: tuple[str, ...], *, earthquake: bool = False) -> tuple[Combination, ...]:
    """The combinations of dead load, snow and wind, §2.4.1, and with an earthquake those of §2.4.5."""
    snow, wind = SNOW[edition], WIND * TOGETHER
    return (
        Combination("D", {DEAD: 1.0}, "permanent"),
        *(_sum({DEAD: 1.0, case: snow}, "snow") for case in snow_cases),
        _sum({DEAD: 1.0, DOWN: WIND}, "wind"),
        *(_sum({DEAD: 1.0, case: TOGETHER * snow, DOWN: wind}, "wind", snow=True) for case in snow_cases),
        _sum({DEAD: 1.0, UP: WIND}, "wind"),
        *(_sum({DEAD: 1.0, case: TOGETHER * snow, UP: wind}, "wind", snow=True) for case in snow_cases),
        _sum({DEAD: 0.6, UP: WIND}, "wind"),
        *(_earthquakes(snow, snow_cases) if earthquake else ()),
    )


def _earthquakes(snow: float, snow_cases: tuple[str, ...]) -> Iterator[Combination]:
    """D + 0.7E; D + 0.525E + 0.75S; 0.6D + 0.7E with its vertical part upward: for each horizontal direction."""
    with_snow = EARTHQUAKE * TOGETHER
    for direction in HORIZONTAL:
        yield _sum({DEAD: 1.0, direction: EARTHQUAKE, VERTICAL: EARTHQUAKE}, "seismic")
        yield from (
            _sum({DEAD: 1.0, case: TOGETHER * snow, direction: with_snow, VERTICAL: with_snow}, "seismic", snow=True)
            for case in snow_cases
        )
        yield _sum({DEAD: 0.6, direction: EARTHQUAKE, VERTICAL: -EARTHQUAKE}, "seismic")


def _sum(factors: dict[str, float], duration: str, *, snow: bool = False) -> Combination:
    rounded = {case: round(factor, 6) for case, factor in factors.items()}
    name = " + ".join(case if factor == 1 else f"{factor:g}{case}" for case, factor in rounded.items())
    return Combination(name.replace("+ -", "- "), rounded, duration, snow=snow)
