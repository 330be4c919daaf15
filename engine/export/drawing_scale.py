"""Sheets of paper, and the scale at which a plan fits on one."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from engine.units import FOOT, INCH, System, text

POINT = INCH / 72
"""Unit of printing [m]."""


EDGE = INCH / 2
"""Edge of the paper that stays free [m]."""


@dataclass(frozen=True)
class Paper:
    """A sheet in landscape by its trade name: width and height [m].

    `exact` is False where a page may print it smaller: then only the bar gives its scale.
    """

    name: str
    width: float
    height: float
    exact: bool = True


PAPERS: dict[System, Paper] = {
    "us": Paper("ANSI B (17 x 11 in)", 17 * INCH, 11 * INCH),
    "si": Paper("ISO A3", 0.42, 0.297),
}
"""The sheet on which plans are drawn, by system of units."""

FEET_AN_INCH = (2, 4, 5, 8, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 300, 500)
METRES_A_METRE = (20, 25, 50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 600, 750, 1000, 1500, 2500, 5000)
"""Usual scales, largest first: 1 in to so many feet, and 1 to so many."""


@dataclass(frozen=True)
class Scale:
    """Lengths on the roof over those on paper, in number and words."""

    ratio: float
    words: str


def scale_of(length: float, depth: float, width: float, height: float, system: System) -> Scale:
    """The largest usual scale at which a roof of length x depth fits on width x height of paper, all [m]."""
    needed = max(length / width, depth / height)
    usual = [_scale(system, number) for number in (FEET_AN_INCH if system == "us" else METRES_A_METRE)]
    return next((scale for scale in usual if scale.ratio >= needed), Scale(needed, "not to a usual scale"))


def _scale(system: System, number: int) -> Scale:
    if system == "us":
        return Scale(number * FOOT / INCH, f"1 in = {number} ft")
    return Scale(number, f"1:{number}")


def bar_length(scale: Scale, longest: float, system: System) -> tuple[float, str]:
    """Length of a scale bar of at most `longest` [m of paper], as a round length on the roof [m] and in words."""
    unit = FOOT if system == "us" else 1.0
    rounds = [step * 10**power * unit for power in range(4) for step in (1, 2, 5)]
    length = max(_fitting(rounds, longest * scale.ratio), default=unit)
    return length, text(length, "length", system).replace(".000", "").replace(".00", "")


def _fitting(lengths: Iterable[float], longest: float) -> list[float]:
    return [length for length in lengths if length <= longest]
