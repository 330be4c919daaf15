"""Fewest attachments found by the search, against layouts laid and followed here by hand, without the engine's.

Two rows of six modules on rails, the lower row in the windier strip of a made-up standard, whose pressures do not
depend on areas. Ribs are chosen here rail by rail; rails and seams are beams by the three-moment equation; forces are
summed up by statics. Everything but the attachments and the clips is strong, so that these two decide. Racks and modules
on seams are searched in `test_fewest`, on the engine's own layouts.
"""

from __future__ import annotations

from functools import cache
from itertools import product
from math import atan, ceil, cos, sin
from typing import Any

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from engine.units import FOOT, GRAVITY, INCH, POUND, POUND_FORCE
from support import scenario_of
from support.beams_by_hand import three_ways

Steps = tuple[float, float]
"""Ribs from attachment to attachment under the lower and under the upper row."""

THETA = atan(1 / 12)
LONG, SHORT, GAP = 1.722, 1.134, 0.5 * INCH
LEFTS = 10.3 * FOOT + np.arange(6) * (SHORT + GAP)
CLAMPS = np.concatenate([LEFTS, LEFTS + SHORT])
LENGTH = CLAMPS.max() - CLAMPS.min()
ROWS = 5 * FOOT, 5 * FOOT + LONG + GAP
RAILS = 0.375, LONG - 0.375  # from a row's lower edge: in the middle of the clamp zones
GUSTS = 1500.0, 1000.0  # the lower row begins within 3 m of the eave

RIBS = np.arange(51) * FOOT
FIRST, LAST = ceil(CLAMPS.min() / FOOT), int(CLAMPS.max() / FOOT)
CLIPS = np.array([1, 6, 11, 16, 20 / cos(THETA) - 0.5]) * FOOT
BORDERS = np.array([0.0, *(CLIPS[:-1] + CLIPS[1:]) / 2, 20 * FOOT / cos(THETA)])

SPACINGS = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8)
MINIMUM = 2 * (12 + 2)
"""Attachments by rule of practice: twice the modules and runs."""

STRONG = {"allowable": "100 kip"}
SECTION = {"moment_strong": "90000 lb ft", "moment_weak": "90000 lb ft", "deflection_ratio": 1, "cantilever_ratio": 0}
JOB: dict[str, Any] = {
    "site": {"standard": "Made-up 1", "gust": "1 kPa"},
    "building__length": "50 ft",
    "building__width": "40 ft",
    "roof__rib_spacing": "12 in",
    "roof__panel__moment_rib_compressed": "90000 lb ft",
    "roof__panel__moment_pan_compressed": "90000 lb ft",
    "roof__fixed_point__in_plane": STRONG,
    "module__rating_up": {"test": "40000 Pa"},
    "module__rating_down": {"test": "40000 Pa"},
    "array__rows": 3,  # in landscape; in portrait the same twelve modules make two rows
    "array__columns": 4,
    "array__origin": ["10.3 ft", "5 ft"],
    "hardware__rail": SECTION,
    "hardware__clamp_uplift": STRONG,
    "hardware__attachment_down": STRONG,
}


def lay_out(steps: Steps) -> list[list[int]]:
    """Numbers of the ribs under each row; single ribs are added if all rails together have fewer than the minimum."""
    rows = [every(step) for step in steps]
    if 2 * sum(map(len, rows)) >= MINIMUM:
        return rows
    return [with_single_ribs(ribs) for ribs in rows]


def every(step: float) -> list[int]:
    """Every `step`-th rib from the first crossed to the last, the shorter spans at the ends."""
    spans = ceil((LAST - FIRST) / step)
    if step % 1:
        return [round(FIRST + number * (LAST - FIRST) / spans) for number in range(spans + 1)]
    lengths = [int(step)] * spans
    for number in range(spans * int(step) - (LAST - FIRST)):
        lengths[number // 2 if number % 2 == 0 else -1 - number // 2] -= 1
    return [FIRST + sum(lengths[:number]) for number in range(spans + 1)]


def with_single_ribs(ribs: list[int]) -> list[int]:
    """Seven ribs, those added in the middle of the widest span, of equal ones of the outermost."""
    while len(ribs) < MINIMUM / 4:
        last = len(ribs) - 2
        spans = [(ribs[n] - ribs[n + 1], min(n, last - n), n) for n in range(last + 1)]
        *_, widest = min(spans)
        middle = (ribs[widest] + ribs[widest + 1] + (widest == last)) // 2
        ribs = sorted([*ribs, middle])
    return ribs


@cache
def ways_of_rail(ribs: tuple[int, ...]) -> np.ndarray:
    """What a force of 1 at every clamp of a rail brings to each rib (3, S): as a beam, by levers, as a stiff beam."""
    supports = RIBS[list(ribs)]
    return np.array([[way.sum() for way in three_ways(supports, CLAMPS, n)] for n in range(len(ribs))]).T


def of_clamps(ribs: list[int], force: float) -> np.ndarray:
    """Forces of a rail on its ribs, `force` at every clamp: on the last and the third of either end the largest way."""
    ways = ways_of_rail(tuple(ribs)) * force
    largest = np.take_along_axis(ways, np.abs(ways).argmax(axis=0)[None], axis=0)[0]
    ends = [0, 2, -3, -1]
    ways[0, ends] = largest[ends]
    return ways[0]


@cache
def clips_below(y: float) -> tuple[np.ndarray, np.ndarray]:
    """Reactions of a seam's clips to a force of 1, and to a couple of 1 that presses above it and lifts below it."""
    step = 1e-4
    before, at, beyond = (
        np.array([three_ways(CLIPS, np.array([place]), n)[0][0] for n in range(len(CLIPS))])
        for place in (y - step, y, y + step)
    )
    return at, (beyond - before) / (2 * step)


def wind_on_seams() -> np.ndarray:
    """Force of 1.5W up on each clip's own area (R, F): beside modules from above, below them from inside."""
    left, right = np.maximum(RIBS - FOOT / 2, 0), np.minimum(RIBS + FOOT / 2, 50 * FOOT)
    along = sum(shared(left, right, start, start + SHORT) for start in LEFTS)
    up = sum(shared(BORDERS[:-1], BORDERS[1:], start, start + LONG) for start in ROWS)
    area, covered = np.outer(right - left, np.diff(BORDERS)), np.outer(along, up)
    above = np.where(BORDERS[:-1] < 3.0, *GUSTS)
    return -1.5 * ((area - covered) * above + covered * 0.1 * GUSTS[1])


def shared(starts: np.ndarray, ends: np.ndarray, low: float, high: float) -> np.ndarray:
    """Length of each stretch between two places."""
    return np.maximum(np.minimum(ends, high) - np.maximum(starts, low), 0.0)


def weight(attachments: int) -> float:
    """Weight of a module with its part of four rails, their clamps and splices, and of the attachments [N]."""
    rail = 1.1 * LENGTH / FOOT + 0.6 + 5 * 0.15 + 2 * 0.18
    return (21 + (4 * rail + 0.45 * attachments) * POUND / 12) * GRAVITY


def follow(rows: list[list[int]], attachment: float, clip: float) -> tuple[float, float]:
    """Largest utilisation of an attachment and of a clip in 1.0D + 1.5W up, by their strengths [N] over 1.25."""
    own_weight, on_clips, used = weight(2 * sum(map(len, rows))), wind_on_seams(), 0.0
    along = own_weight * sin(THETA)
    couple = along * 3 * INCH / (RAILS[1] - RAILS[0])  # modules are 5 in, attachments 2 in above the roof
    for ribs, low, gust in zip(rows, ROWS, GUSTS, strict=True):
        normal = own_weight * cos(THETA) - 1.5 * gust * LONG * SHORT
        for rail, turned in zip(RAILS, (couple, -couple), strict=True):
            force, sliding = of_clamps(ribs, (normal / 2 + turned) / 2), ways_of_rail(tuple(ribs))[0] * along / 4
            pried = np.maximum(-force + sliding * 2 / 3, 0)  # 2 in high over 3 in
            used = max(used, 1.25 * (pried / attachment + sliding / (350 * POUND_FORCE)).max())
            to_force, to_couple = clips_below(low + rail)
            on_clips[ribs] += np.outer(force, to_force) - np.outer(sliding * 2 * INCH, to_couple)
    return used, 1.25 * -on_clips[sorted({*rows[0], *rows[1]})].min() / clip


CASES = [(400, 600), (450, 650), (400, 700), (500, 800), (600, 900), (1200, 1200)]
"""Allowables of an attachment and of a clip [lb]: none holds; even with halves, by strips, with single ones, even."""


@pytest.mark.parametrize(("attachment", "clip"), CASES)
def test_the_search_finds_the_fewest_of_all_patterns_laid_here(attachment: int, clip: int) -> None:
    """Source: statics by hand, from the made-up gust to the count, and to both utilisations of the layout found."""
    strengths = {"allowable": f"{attachment} lb"}, {"allowable": f"{clip} lb"}
    scenario = scenario_of(**JOB, hardware__attachment_uplift=strengths[0], roof__fastening__uplift=strengths[1])
    (rails,) = compare(scenario, ("rail",)).columns
    assert rails.design
    layouts = {steps: lay_out(steps) for steps in product(SPACINGS, repeat=2)}
    used = {steps: follow(rows, attachment * POUND_FORCE, clip * POUND_FORCE) for steps, rows in layouts.items()}
    counts = [2 * sum(map(len, rows)) for steps, rows in layouts.items() if max(used[steps]) <= 1]
    fewest = value_of(rails, "attachments") if rails.status == "holds" else None
    assert fewest == min(counts, default=None)
    upper, lower = rails.design.layout.pattern.spacings
    found = rails.checks["attachment"].utilisation, rails.checks["roof_fastening"].utilisation
    assert found == pytest.approx(used[lower, upper], rel=1e-6)
