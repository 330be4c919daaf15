"""Fewest attachments found by the search, against layouts laid and followed here by hand, without the engine's.

Two rows of six modules on rails, or three of three on seams, the lower ones in the windier strip of a made-up standard,
whose pressures do not depend on areas. Ribs are chosen here line by line; rails, edges and seams are beams by the
three-moment equation; forces are summed up by statics. Everything but the attachments and the clips is strong, so that
these two decide. The same of two rows of racks.
"""

from __future__ import annotations

from functools import cache
from itertools import combinations, product
from math import atan, ceil, cos, radians, sin, tan
from typing import Any

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from engine.units import FOOT, GRAVITY, INCH, POUND, POUND_FORCE
from support import scenario_of
from support.beams_by_hand import three_ways

Stretch = tuple[float, float]
"""From and to [m]."""

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


def lay_out(steps: Steps, first: int = FIRST, last: int = LAST) -> list[list[int]]:
    """Numbers of the ribs under each row; single ribs are added if all rails together have fewer than the minimum."""
    rows = [every(step, first, last) for step in steps]
    if 2 * sum(map(len, rows)) >= MINIMUM:
        return rows
    return [with_single_ribs(ribs) for ribs in rows]


def every(step: float, first: int, last: int) -> list[int]:
    """Every `step`-th rib from the first crossed to the last, the shorter spans at the ends."""
    spans = ceil((last - first) / step)
    if step % 1:
        return [round(first + number * (last - first) / spans) for number in range(spans + 1)]
    lengths = [int(step)] * spans
    for number in range(spans * int(step) - (last - first)):
        lengths[number // 2 if number % 2 == 0 else -1 - number // 2] -= 1
    return [first + sum(lengths[:number]) for number in range(spans + 1)]


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
def ways_of_bar(ribs: tuple[int, ...], clamps: tuple[float, ...]) -> np.ndarray:
    """What a force of 1 at every clamp of a bar brings to each rib (3, S): as a beam, by levers, as a stiff beam."""
    supports, loads = RIBS[list(ribs)], np.array(clamps)
    return np.array([[way.sum() for way in three_ways(supports, loads, n)] for n in range(len(ribs))]).T


def of_clamps(ribs: list[int], force: float, clamps: np.ndarray = CLAMPS) -> np.ndarray:
    """Forces of a bar on its ribs, `force` at every clamp: on the last and the third of either end the largest way."""
    ways = ways_of_bar(tuple(ribs), tuple(clamps)) * force
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


def wind_on_seams(ribs: np.ndarray, across: list[Stretch], up_slope: list[Stretch]) -> np.ndarray:
    """Force of 1.5W up on each clip's own area (R, F): beside modules from above, below them from inside."""
    half = (ribs[1] - ribs[0]) / 2
    left, right = np.maximum(ribs - half, 0), np.minimum(ribs + half, 50 * FOOT)
    along = sum(shared(left, right, *stretch) for stretch in across)
    up = sum(shared(BORDERS[:-1], BORDERS[1:], *stretch) for stretch in up_slope)
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
    own_weight, used = weight(2 * sum(map(len, rows))), 0.0
    on_clips = wind_on_seams(RIBS, [(x, x + SHORT) for x in LEFTS], [(y, y + LONG) for y in ROWS])
    along = own_weight * sin(THETA)
    couple = along * 3 * INCH / (RAILS[1] - RAILS[0])  # modules are 5 in, attachments 2 in above the roof
    for ribs, low, gust in zip(rows, ROWS, GUSTS, strict=True):
        normal = own_weight * cos(THETA) - 1.5 * gust * LONG * SHORT
        for rail, turned in zip(RAILS, (couple, -couple), strict=True):
            force, sliding = (
                of_clamps(ribs, (normal / 2 + turned) / 2),
                ways_of_bar(tuple(ribs), tuple(CLAMPS))[0] * along / 4,
            )
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


PITCH = LONG + GAP
SEAMS = np.arange(44) * PITCH / 5
"""Five seams under every module on seams, the middle one under its middle."""

STANDS = LONG / 2 + np.arange(-2, 3) * PITCH / 5
"""Where the seams cross an edge, from its left end [m]: all 100 mm or more from its corners, none in the clamp zone."""

COLUMNS = 11 * PITCH / 5 - LONG / 2 + np.arange(3) * PITCH
LEVELS = 5 * FOOT + np.arange(3) * (SHORT + GAP)
STRONGER, WEAKER = GUSTS
ON_SEAMS = JOB | {
    "roof__rib_spacing": f"{PITCH / 5} m",
    "array__rows": 3,
    "array__columns": 3,
    "array__origin": [f"{COLUMNS[0]} m", "5 ft"],
}


def shares_of_edge(supports: np.ndarray) -> np.ndarray:
    """Parts of an evenly loaded edge that its supports take (3, S): as a beam, by levers, as a stiff beam.

    Three-moment equation with overhangs; each span's load to its ends in halves; equilibrium.
    """
    n, spans = len(supports), np.diff(supports)
    over = supports[0], LONG - supports[-1]
    matrix, known = np.eye(n), np.zeros(n)
    known[0], known[-1] = -(over[0] ** 2) / 2, -(over[1] ** 2) / 2
    for i in range(1, n - 1):
        matrix[i, i - 1 : i + 2] = spans[i - 1], 2 * (spans[i - 1] + spans[i]), spans[i]
        known[i] = -(spans[i - 1] ** 3 + spans[i] ** 3) / 4
    moments = np.linalg.solve(matrix, known)
    levers = np.zeros(n)
    levers[:-1] += spans / 2
    levers[1:] += spans / 2
    levers[[0, -1]] += over
    slope = np.diff(moments) / spans
    beam = levers + np.append(slope, 0) - np.append(0, slope)
    arm = supports - supports.mean()
    stiff = 1 / n + arm * (LONG / 2 - supports.mean()) / (arm**2).sum()
    return np.array([beam / LONG, levers / LONG, stiff])


@cache
def best_stands(count: int) -> tuple[int, ...]:
    """The crossings of an edge that hold it best: nearly the least largest share (5 %), then the shortest overhang."""
    ways = {each: shares_of_edge(STANDS[list(each)])[0] for each in combinations(range(5), count)}
    overhang = {each: max(STANDS[each[0]], LONG - STANDS[each[-1]]) for each in ways}
    fit = [each for each in ways if min(ways[each]) >= 0.05 and overhang[each] <= LONG / 3]
    least = min(max(ways[each]) for each in fit)
    near = [each for each in fit if max(ways[each]) <= least + 0.05]
    return min(near, key=lambda each: (round(overhang[each], 6), round(max(ways[each]), 9)))


def counts_on_edges(per_edge: tuple[int, int]) -> list[int]:
    """Attachments on the four edges of a column, from the eave; two rows lie in the strip, and the larger number rules."""
    lower, upper = per_edge
    return [lower, lower, max(per_edge), upper]


def follow_on_seams(edges: list[int], attachment: float, clip: float) -> tuple[float, float]:
    """As `follow`, of modules on seams."""
    own_weight = (21 + (0.45 + 0.3) * POUND * 3 * sum(edges) / 9) * GRAVITY
    along = own_weight * sin(THETA)
    couple = along * 3 * INCH / (SHORT + GAP)
    on_edge, sliding_on_edge = np.zeros(4), np.zeros(4)
    for row, gust in enumerate((STRONGER, STRONGER, WEAKER)):
        half = (own_weight * cos(THETA) - 1.5 * gust * LONG * SHORT) / 2
        on_edge[[row, row + 1]] += half + couple, half - couple
        sliding_on_edge[[row, row + 1]] += along / 2
    on_clips = wind_on_seams(SEAMS, [(x, x + LONG) for x in COLUMNS], [(y, y + SHORT) for y in LEVELS])
    used, loaded = 0.0, set[int]()
    for edge, (count, load, slides) in enumerate(zip(edges, on_edge, sliding_on_edge, strict=True)):
        stands = list(best_stands(count))
        ways = shares_of_edge(STANDS[stands]) * load
        ends = sorted({0, 2, count - 3, count - 1} & set(range(count))) if count > 2 else []
        largest = np.take_along_axis(ways, np.abs(ways).argmax(axis=0)[None], axis=0)[0]
        ways[0, ends] = largest[ends]
        force, sliding = ways[0], shares_of_edge(STANDS[stands])[0] * slides
        pried = np.maximum(-force + sliding * 2 / 3, 0)
        used = max(used, 1.25 * (pried / attachment + sliding / (350 * POUND_FORCE)).max())
        to_force, to_couple = clips_below(5 * FOOT + edge * (SHORT + GAP) - GAP / 2)
        for column in range(3):
            seams = [9 + 5 * column + each for each in stands]
            loaded |= set(seams)
            on_clips[seams] += np.outer(force, to_force) - np.outer(sliding * 2 * INCH, to_couple)
    return used, 1.25 * -on_clips[sorted(loaded)].min() / clip


@pytest.mark.parametrize(("attachment", "clip"), [(200, 500), (300, 500), (500, 700), (700, 800)])
def test_modules_on_seams_have_the_fewest_of_all_patterns_laid_here(attachment: int, clip: int) -> None:
    """Source: statics by hand, from the made-up gust to the count, and to both utilisations of the layout found."""
    strengths = {"allowable": f"{attachment} lb"}, {"allowable": f"{clip} lb"}
    scenario = scenario_of(**ON_SEAMS, hardware__attachment_uplift=strengths[0], roof__fastening__uplift=strengths[1])
    (direct,) = compare(scenario, ("direct",)).columns
    assert direct.design
    edges = {each: counts_on_edges(each) for each in product(range(2, 6), repeat=2)}
    used = {
        each: follow_on_seams(counts, attachment * POUND_FORCE, clip * POUND_FORCE) for each, counts in edges.items()
    }
    holding = [3 * sum(counts) for each, counts in edges.items() if max(used[each]) <= 1]
    fewest = value_of(direct, "attachments") if direct.status == "holds" else None
    assert fewest == min(holding, default=None)
    upper, lower = (int(each) for each in direct.design.layout.pattern.spacings)
    found = direct.checks["attachment"].utilisation, direct.checks["roof_fastening"].utilisation
    assert found == pytest.approx(used[lower, upper], rel=1e-6)


TILT = radians(10)
DEEP = SHORT * cos(TILT)
SUN = SHORT * sin(TILT) / tan(radians(20))
ENDS = 10.3 * FOOT + np.array([n * PITCH + side * LONG for n in range(6) for side in (0, 1)])
"""The short sides of six modules in landscape, at which they hang on the bars of a rack."""

FIRST_FRAME, LAST_FRAME = ceil(ENDS.min() / FOOT), int(ENDS.max() / FOOT)
RACK_ROWS = 5 * FOOT, 5 * FOOT + DEEP + SUN
LIGHT = ("attachment", "leg", "brace", "middle_clamp", "end_clamp", "splice")
ON_RACKS = JOB | {
    "array__rows": 2,
    "array__columns": 6,
    "hardware__rack_beam": SECTION | {"mass": "0.01 lb/ft"},
    "hardware__leg_capacity": STRONG,
    "hardware__parts": {part: {"mass": "0 lb"} for part in LIGHT},
}


def follow_rack(rows: list[list[int]], attachment: float, clip: float) -> tuple[float, float]:
    """As `follow`, of tilted rows on frames with a front and a rear foot."""
    own_weight = (21 + 4 * 0.01 * (ENDS.max() - ENDS.min()) / FOOT * POUND / 12) * GRAVITY
    height = 6 * INCH + SHORT / 2 * sin(TILT) - 2 * INCH  # of a module's middle above the attachments
    on_clips = wind_on_seams(RIBS, [(x, x + LONG) for x in ENDS[::2]], [(y, y + DEEP) for y in RACK_ROWS])
    used = 0.0
    for ribs, low, gust in zip(rows, RACK_ROWS, GUSTS, strict=True):
        lifted = 1.5 * gust * LONG * SHORT
        normal = own_weight * cos(THETA) - lifted * cos(TILT)
        along = own_weight * sin(THETA) + lifted * sin(TILT)
        sliding = ways_of_bar(tuple(ribs), tuple(ENDS))[0] * along / 4
        for y, sense in ((low, 1), (low + DEEP, -1)):
            force = of_clamps(ribs, (normal / 2 + sense * along * height / DEEP) / 2, ENDS)
            pried = np.maximum(-force + sliding * 2 / 3, 0)
            used = max(used, 1.25 * (pried / attachment + sliding / (350 * POUND_FORCE)).max())
            to_force, to_couple = clips_below(y)
            on_clips[ribs] += np.outer(force, to_force) - np.outer(sliding * 2 * INCH, to_couple)
    return used, 1.25 * -on_clips[sorted({*rows[0], *rows[1]})].min() / clip


@pytest.mark.parametrize(("attachment", "clip"), [(500, 800), (700, 800), (700, 900), (1500, 1500)])
def test_racks_have_the_fewest_of_all_patterns_laid_here(attachment: int, clip: int) -> None:
    """Source: statics by hand, from the made-up gust to the count, and to both utilisations of the layout found."""
    strengths = {"allowable": f"{attachment} lb"}, {"allowable": f"{clip} lb"}
    scenario = scenario_of(**ON_RACKS, hardware__attachment_uplift=strengths[0], roof__fastening__uplift=strengths[1])
    (rack,) = compare(scenario, ("tilted_rack",)).columns
    assert rack.design
    layouts = {steps: lay_out(steps, FIRST_FRAME, LAST_FRAME) for steps in product(SPACINGS, repeat=2)}
    used = {steps: follow_rack(rows, attachment * POUND_FORCE, clip * POUND_FORCE) for steps, rows in layouts.items()}
    counts = [2 * sum(map(len, rows)) for steps, rows in layouts.items() if max(used[steps]) <= 1]
    fewest = value_of(rack, "attachments") if rack.status == "holds" else None
    assert fewest == min(counts, default=None)
    upper, lower = rack.design.layout.pattern.spacings
    found = rack.checks["attachment"].utilisation, rack.checks["roof_fastening"].utilisation
    assert found == pytest.approx(used[lower, upper], rel=1e-6)
