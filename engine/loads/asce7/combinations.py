"""Allowable-stress combinations, ASCE 7 §2.4.1, with wind (and in 7-22 snow) at strength level."""

from __future__ import annotations

from collections.abc import Iterator

from engine.common.combination import Combination
from engine.loads.asce7.net_pressure import DOWN, UP
from engine.loads.asce7.seismic import HORIZONTAL, UPRIGHT
from engine.loads.asce7.site import SEVEN_16, SEVEN_22
from engine.loads.interface import DEAD

SNOW = {SEVEN_16: 1.0, SEVEN_22: 0.7}
"""Edition → factor that brings its snow to allowable level."""

WIND = 0.6
TOGETHER = 0.75
"""Two passing loads at once, each by this."""


QUAKE = 0.7
"""Brings an earthquake to allowable level, §2.4.5."""


def combinations(edition: str, snow_cases: tuple[str, ...], *, earthquake: bool = False) -> tuple[Combination, ...]:
    """Every combination of §2.4.1, and with an earthquake of §2.4.5, that weight, snow and wind enter."""
    snow, wind = SNOW[edition], WIND * TOGETHER
    return (
        Combination("D", {DEAD: 1.0}, "permanent"),
        *(_sum({DEAD: 1.0, case: snow}, "snow") for case in snow_cases),
        _sum({DEAD: 1.0, DOWN: WIND}, "wind"),
        *(_sum({DEAD: 1.0, case: TOGETHER * snow, DOWN: wind}, "wind") for case in snow_cases),
        _sum({DEAD: 1.0, UP: WIND}, "wind"),
        *(_sum({DEAD: 1.0, case: TOGETHER * snow, UP: wind}, "wind") for case in snow_cases),
        _sum({DEAD: 0.6, UP: WIND}, "wind"),
        *(_quakes(snow, snow_cases) if earthquake else ()),
    )


def _quakes(snow: float, snow_cases: tuple[str, ...]) -> Iterator[Combination]:
    """D + 0.7E; D + 0.525E + 0.75S; 0.6D + 0.7E with the vertical part lifting: each way the ground may move."""
    with_snow = QUAKE * TOGETHER
    for way in HORIZONTAL:
        yield _sum({DEAD: 1.0, way: QUAKE, UPRIGHT: QUAKE}, "seismic")
        yield from (
            _sum({DEAD: 1.0, case: TOGETHER * snow, way: with_snow, UPRIGHT: with_snow}, "seismic")
            for case in snow_cases
        )
        yield _sum({DEAD: 0.6, way: QUAKE, UPRIGHT: -QUAKE}, "seismic")


def _sum(factors: dict[str, float], duration: str) -> Combination:
    rounded = {case: round(factor, 6) for case, factor in factors.items()}
    name = " + ".join(case if factor == 1 else f"{factor:g}{case}" for case, factor in rounded.items())
    return Combination(name.replace("+ -", "- "), rounded, duration)
