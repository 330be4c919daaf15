"""Combinations for the ultimate limit state, EN 1990 Eq. 6.10, with partial factors on loads and strengths."""

from __future__ import annotations

from collections.abc import Iterator

from engine.common.combination import Combination
from engine.loads.en1991.cladding import DOWN, UP
from engine.loads.en1991.national import NationalValues
from engine.loads.interface import DEAD


def combinations(values: NationalValues, snow_cases: tuple[str, ...]) -> tuple[Combination, ...]:
    """Permanent load, snow and wind, each of the two leading in turn; and permanent load that holds against uplift.

    Uplift with snow and full permanent load is there for the load along the slope that acts with it (safe).
    """
    return tuple(_combinations(values, snow_cases))


def _combinations(values: NationalValues, snow_cases: tuple[str, ...]) -> Iterator[Combination]:
    heavy, variable = {DEAD: values.permanent}, values.variable
    with_wind, with_snow = values.psi_wind * variable, values.psi_snow * variable
    yield _sum(values, heavy, "permanent")
    for snow in snow_cases:
        yield _sum(values, heavy | {snow: variable}, "snow")
    for wind in (DOWN, UP):
        yield _sum(values, heavy | {wind: variable}, "wind")
        for snow in snow_cases:
            yield _sum(values, heavy | {snow: variable, wind: with_wind}, "wind", snow=True)
            yield _sum(values, heavy | {wind: variable, snow: with_snow}, "wind", snow=True)
    yield _sum(values, {DEAD: values.permanent_favourable, UP: variable}, "wind")


def _sum(values: NationalValues, factors: dict[str, float], duration: str, *, snow: bool = False) -> Combination:
    rounded = {case: round(factor, 6) for case, factor in factors.items()}
    name = " + ".join(f"{factor:g}{case}" for case, factor in rounded.items())
    return Combination(name, rounded, duration, values.connections, snow, values.members)
