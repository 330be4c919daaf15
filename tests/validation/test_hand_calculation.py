"""By hand: The default scenario, one attachment a method, from the wind speed to the utilisation of the clip.

Worked on paper from ASCE 7-16 (public sources) and statics, in pounds and feet; the comments
walk through it. Nothing of the engine is used but its answers, to which four digits are held.
"""

from __future__ import annotations

from math import cos, exp, log10, radians, sin, sqrt, tan

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.comparison.figures import value_of
from engine.links.attachment import attachment_ratios
from engine.links.unchecked import DOWN
from engine.units import FOOT, POUND, POUND_FORCE
from support import scenario_of
from support.balance import fastening_by_beams
from support.beams_by_hand import three_ways
from support.published import verified

# Velocity pressure: exposure B at 24 ft, ground at 650 ft, Kd 0.85, 105 mph
KZ = 2.01 * (24 / 1200) ** (2 / 7.0)  # 0.657
KE = exp(-0.0000362 * 650)  # 0.977
Q = 0.00256 * KZ * 1.0 * 0.85 * KE * 105**2  # 15.40 psf

# Module 1722 x 1134 mm; roof 1:12; clip 86 psf x 2 ft x 5 ft / 2.0 = 430 lb
LONG, SHORT, GAP = 1.722 / FOOT, 1.134 / FOOT, 0.5 / 12
AREA = LONG * SHORT  # 21.02 ft²
THETA = np.arctan(1 / 12)
CLIP = 86 * 2 * 5 / 2.0
CLIPS = np.array([1, 6, 11, 16, 21, 26, 31, 36, 41, 46, 51, 55 / cos(THETA) - 0.5])


@pytest.fixture(scope="module")
def columns() -> dict[str, Column]:
    return {
        column.id: column
        for column in compare(
            scenario_of(methods__rail__spacing="1 ribs", methods__tilted_rack__spacing="2 ribs")
        ).columns
    }


def gcp_1(area: float) -> float:
    """Zone 1, Fig. 30.3-2A: -1.7 to 10 ft², -1.0 from 500 ft², straight in log A."""
    return 1.7 - 0.7 * (log10(area) - 1) / (log10(500) - 1)


def seam(loads: list[tuple[float, float]], clip: int) -> float:
    """Reaction of one clip under point loads on the continuous seam, by the three-moment equation written out."""
    spans = np.diff(CLIPS)
    n = len(CLIPS)
    matrix, known = np.eye(n), np.zeros(n)
    for i in range(1, n - 1):
        matrix[i, i - 1 : i + 2] = spans[i - 1], 2 * (spans[i - 1] + spans[i]), spans[i]
        for y, load in loads:
            if CLIPS[i - 1] < y <= CLIPS[i]:
                a = y - CLIPS[i - 1]
                known[i] -= load * a * (spans[i - 1] ** 2 - a**2) / spans[i - 1]
            if CLIPS[i] < y < CLIPS[i + 1]:
                b = CLIPS[i + 1] - y
                known[i] -= load * b * (spans[i] ** 2 - b**2) / spans[i]
    moments = np.linalg.solve(matrix, known)
    reaction = 0.0
    for i in (clip - 1, clip):  # the spans left and right of the clip
        far, near = (clip - 1, clip) if i == clip - 1 else (clip + 1, clip)
        reaction += (moments[far] - moments[near]) / spans[i]
        for y, load in loads:
            if CLIPS[i] < y <= CLIPS[i + 1]:
                part = (y - CLIPS[i]) / spans[i]
                reaction += load * (part if i == clip - 1 else 1 - part)
    return reaction


def dead(column: Column) -> float:
    """Weight of one module with its part of the hardware [lb]."""
    assert value_of(column, "mass_kg") is not None
    return value_of(column, "mass_kg") / POUND / 144


def point(column: Column, rib: int, y: float) -> int:
    assert column.design
    attachments = column.design.layout.attachments
    return int(np.flatnonzero((attachments.rib == rib) & (np.abs(attachments.y / FOOT - y) < 0.01))[0])


def force(column: Column, number: int, *, by_beams: bool = False) -> float:
    """The engine's uplift on an attachment in 0.6D + 0.6W up [lb], near the ends of lines the largest of its ways."""
    assert column.design
    assert column.design.candidate
    demands = column.design.candidate.demands
    normal = demands.on_attachments.normal_by_beams if by_beams else demands.attachment_normal
    return float(normal[number, -1] / POUND_FORCE)


def clip_used(column: Column, rib: int, clip: int) -> float:
    assert column.design
    assert column.design.candidate
    demands = column.design.candidate.demands
    row = int(np.flatnonzero(demands.rib == rib)[0])
    return float(-demands.fastening[row, clip, -1] / POUND_FORCE / CLIP)


def test_the_roof_alone(columns: dict[str, Column]) -> None:
    """Corner clip: 2 x 5 = 10 ft², zone 3 GCp -3.2, inside 0.18, 0.6W: 312 lb of 430 lb."""
    used = 0.6 * Q * (3.2 + 0.18) * 10 / CLIP
    assert verified(
        "bare roof, corner clip's utilisation", used, value_of(columns["rail"], "bare_roof_utilisation")
    ) == pytest.approx(used, rel=1e-4)
    assert used == pytest.approx(0.73, abs=0.005)


def test_direct(columns: dict[str, Column]) -> None:
    """Column 15 starts 119.68 ft from the rake and crosses seams 122 and 124 ft well inside its edge.

    The seam at 120 ft lies 98.6 mm from the corner, short of the 100 mm allowed. So the edge is a
    beam on two points: the one at 122 ft takes (124 - 122.50)/2 of it.
    """
    column = columns["direct"]
    left = 40 + 14 * (LONG + GAP)
    middle = left + LONG / 2
    part = (124 - middle) / 2  # 0.749 of an edge, an edge carries half a module
    y = 15.5 + SHORT + GAP / 2  # the line that rows 1 and 2 share
    area = 2 * part * AREA / 2  # 15.74 ft²
    pressure = Q * gcp_1(area) * 1.5 * (1.2 - 0.4 * log10(area))  # zone 1, exposed, γa
    pull = 0.6 * pressure * area - 0.6 * dead(column) * cos(THETA) * part
    number = point(column, 61, y)
    assert column.design
    assert column.design.candidate
    ours = column.design.candidate.demands.attachment_area[number] / FOOT**2
    assert verified("direct, a point's effective wind area", area, ours, "ft²") == pytest.approx(area, rel=1e-6)
    assert verified("direct, that point's uplift", pull, -force(column, number), "lb") == pytest.approx(pull, rel=1e-4)
    assert pull == pytest.approx(233, abs=1)


def test_direct_clip(columns: dict[str, Column]) -> None:
    """The clip at 21 ft under that seam: 337 lb, utilisation 0.78.

    Of the clip's own 10 ft², 18.5 to 23.5 ft from the eave, the gaps at 19.2 and 23.0 ft are bare: 2 ft x 1/2 in each.
    """
    column = columns["direct"]
    used = clip_by_hand(column, 61, 4, 2 * 2.0 * GAP)
    assert verified("direct, a clip's utilisation", used, clip_used(column, 61, 4)) == pytest.approx(used, abs=1e-4)
    assert value_of(column, "fastening_utilisation") == pytest.approx(clip_used(column, 61, 4), rel=1e-6)
    assert used == pytest.approx(337 / CLIP, abs=0.005)


def upper_rail_pull(column: Column, shares: float, area: float) -> float:
    """Uplift on an attachment of an upper rail that carries so many modules, its gust averaged over `area` [lb]."""
    pressure = Q * gcp_1(max(area, 10)) * 1.5 * min(0.8, 1.2 - 0.4 * log10(area))
    pull = 0.6 * pressure * shares * AREA - 0.6 * dead(column) * cos(THETA) * shares
    # in-plane weight acts 5 - 2 = 3 in above the attachments: the couple Q e / rail spacing lifts the upper rail
    spacing = LONG - 2 * 0.375 / FOOT
    return pull + 0.6 * dead(column) * sin(THETA) * (3 / 12) / spacing * shares * 2


UPPER_RAIL = 15.5 + LONG - 0.375 / FOOT
"""Second rail of the first row, from the eave [ft]."""

FIRST_RUN = 40 + np.array([n * (SHORT + GAP) + side * SHORT for n in range(9) for side in (0, 1)])
"""Clamps of its first run: nine modules."""


def test_rail(columns: dict[str, Column]) -> None:
    """Seam 37, 72 ft from the rake, second rail of the first row: the rail is attached at every seam.

    Its clamp load is 0.6(W - D) of a quarter module at each edge. The clamps near the seam: modules 8
    and 9 meet 70.13 ft, modules 9 and 10 meet at a thermal break at 73.87 ft. The seam is the run's last:
    as a tributary load, or by a stiff rail on equal seams, less would come to it.
    """
    column = columns["rail"]
    assert column.design
    supports = np.array([40 + 2 * n for n in range(17)], dtype=float)  # 40 to 72 ft: all that lie under the run
    assert (column.design.layout.attachments.rib == 36).any()
    shares = [way.sum() / 4 for way in three_ways(supports, FIRST_RUN, -1)]  # a clamp carries a quarter of its module
    pull, *others = (upper_rail_pull(column, share, shares[0] * AREA) for share in shares)
    assert pull > max(others)
    ours = -force(column, point(column, 36, UPPER_RAIL))
    assert verified("rail, a point's uplift", pull, ours, "lb") == pytest.approx(pull, rel=1e-4)


def test_first_seam_under_a_rail_on_every_fourth() -> None:
    """Seam 21, 40 ft from the rake, attached at 40, 48, 56, 64 and 72 ft: a stiff rail brings it most.

    A continuous beam would bring 162 lb, a stiff rail on five equal seams brings 290 lb. The clip at 21 ft carries 1.57
    times its strength. Of its 10 ft², half is left of the array and bare, and half has the gap between rows, 1 ft x 1/2 in.
    """
    (column,) = compare(scenario_of(methods__rail__spacing="4 ribs"), ("rail",)).columns
    supports = np.array([40.0, 48, 56, 64, 72])
    shares = [way.sum() / 4 for way in three_ways(supports, FIRST_RUN, 0)]
    beam, tributary, stiff = (upper_rail_pull(column, share, shares[0] * AREA) for share in shares)
    assert beam < tributary < stiff
    number = point(column, 20, UPPER_RAIL)
    ours = -force(column, number, by_beams=True)
    assert verified("rail, first point as a beam", beam, ours, "lb") == pytest.approx(beam, rel=1e-4)
    ours = -force(column, number)
    assert verified("rail, first point by a stiff rail", stiff, ours, "lb") == pytest.approx(stiff, rel=1e-4)
    assert (beam, stiff) == pytest.approx((162, 290), abs=0.5)
    used = clip_by_hand(column, 20, 4, 1.0 * 5.0 + 1.0 * GAP)
    assert verified("rail, the clip below it", used, clip_used(column, 20, 4)) == pytest.approx(used, abs=1e-4)
    assert value_of(column, "fastening_utilisation") == pytest.approx(used, abs=1e-4)
    assert used == pytest.approx(1.48, abs=0.005)


def clip_by_hand(column: Column, rib: int, clip: int, gaps: float) -> float:
    """Utilisation of a clip: attachments on its seam, their in-plane load at 2 in height, and wind on its own 10 ft².

    `gaps` is the part of those 10 ft² that no module covers [ft²]; beneath modules only the inside pressure acts.
    """
    assert column.design
    assert column.design.candidate
    demands, attachments = column.design.candidate.demands, column.design.layout.attachments
    loads = []
    for n in np.flatnonzero(attachments.rib == rib):
        y, couple = float(attachments.y[n] / FOOT), float(demands.attachment_in_plane[n, -1] / POUND_FORCE) * 2 / 12
        loads += [(y, force(column, int(n))), (y - 0.001, couple / 0.002), (y + 0.001, -couple / 0.002)]
    air = 0.6 * Q * 0.18 * 10 + 0.6 * Q * gcp_1(10) * gaps
    return -(seam(loads, clip) - air) / CLIP


def test_rail_clip(columns: dict[str, Column]) -> None:
    """The clip at 21 ft on the seam at 72 ft: utilisation 0.86, the controlling component of the rails.

    Of its 10 ft², from 71 to 73 ft and from 18.5 to 23.5 ft, only the gap between rows is bare: 2 ft x 1/2 in.
    """
    column = columns["rail"]
    used = clip_by_hand(column, 36, 4, 2.0 * 0.5 / 12)
    assert verified("rail, a clip's utilisation", used, clip_used(column, 36, 4)) == pytest.approx(used, abs=1e-4)
    assert value_of(column, "fastening_utilisation") == pytest.approx(clip_used(column, 36, 4), rel=1e-6)
    assert used == pytest.approx(0.86, abs=0.005)


def test_rack_clip(columns: dict[str, Column]) -> None:
    """The clip at 21 ft on the seam at 46 ft: between rows 1 and 2 the roof is uncovered for 1.78 ft, from 19.16 to 20.94 ft.

    And half an inch between columns 1 and 2, at 45.7 ft, where rows cover.
    """
    column = columns["tilted_rack"]
    tilt = radians(10)
    bare = SHORT * sin(tilt) / tan(radians(20))
    start = 15.5 + SHORT * cos(tilt)
    within = min(23.5, start + bare) - max(18.5, start)
    used = clip_by_hand(column, 23, 4, 2.0 * within + GAP * (5.0 - within))
    assert verified("rack, a clip's utilisation", used, clip_used(column, 23, 4)) == pytest.approx(used, abs=1e-4)
    assert value_of(column, "fastening_utilisation") == pytest.approx(clip_used(column, 23, 4), rel=1e-6)
    assert used == pytest.approx(0.82, abs=0.005)


TILT = radians(10)
FRAMES = np.array([40.0, *range(42, 75, 4)])
"""The first run: six modules on frames at 40 and 42 ft, and every 4 ft to 74 ft."""

SIDES = 40 + np.array([n * (LONG + GAP) + side * LONG for n in range(6) for side in (0, 1)])
"""A module hangs with half its weight at each short side; a foot takes half of what its frame carries."""


def rack_coefficients(area: float) -> tuple[float, float]:
    """GCrn without γE in zones 2 and 3, §29.4.3: tilt 10 deg, half-way between the figure's 5 and 15 deg; no parapet."""
    an = 1000 * area / max(min(0.4 * sqrt(24 * 220), 24, 110), 15) ** 2

    def curve(one: float, five_hundred: float, five_thousand: float) -> float:
        if an <= 500:
            return one + (five_hundred - one) * log10(an) / log10(500)
        return five_hundred + (five_thousand - five_hundred) * (log10(an) - log10(500)) / 1.0

    chord = max(0.6 + 0.06 * SHORT, 0.8)
    in_strip_2 = 0.5 * (curve(2.0, 0.45, 0.15) + curve(2.9, 0.65, 0.40))  # within 2h = 48 ft of the eave
    in_corner_3 = 0.5 * (curve(2.3, 0.50, 0.15) + curve(3.5, 0.80, 0.50))
    return 0.9 * chord * in_strip_2, 0.9 * chord * in_corner_3


def test_rack(columns: dict[str, Column]) -> None:
    """Rear foot of a frame in row 1, near an exposed edge.

    The frame is the third of its run: more comes to it as a tributary load, 154 lb, than by a continuous beam, 146 lb.
    Its gust is averaged over the area whose load a continuous beam brings.
    """
    column = columns["tilted_rack"]
    assert column.design
    assert column.design.candidate
    h2 = 0.5 + SHORT * sin(TILT)
    apart, high = SHORT * cos(TILT), (0.5 + h2) / 2 - 2 / 12
    demands = column.design.candidate.demands
    rear = point(column, 23, 15.5 + apart)  # the frame at 46 ft
    ways = [way / 2 for way in three_ways(FRAMES, SIDES, 2)]
    area = ways[0].sum() * AREA
    in_strip_2, in_corner_3 = rack_coefficients(area)
    # columns 1 and 2 reach into the corner zone (48 ft); columns 3 on are in zone 2
    pulls = []
    for way in ways:
        frame, in_corner = way.sum(), way[:4].sum()
        gcrn = 1.5 * (in_corner * in_corner_3 + (frame - in_corner) * in_strip_2)
        wind = Q * gcrn * AREA  # normal to the frame
        v, hor = wind * cos(TILT), wind * sin(TILT)
        uplift = v / 2 + hor * high / apart
        weight = dead(column) * frame
        down = weight * cos(THETA) / 2 - weight * sin(THETA) * high / apart
        pulls.append(0.6 * uplift - 0.6 * down)
    beam, tributary, stiff = pulls
    assert tributary > beam > stiff
    assert (beam, tributary) == pytest.approx((146, 154), abs=0.5)
    ours = demands.attachment_area[rear] / FOOT**2
    assert verified("rack, a rear foot's effective wind area", area, ours, "ft²") == pytest.approx(area, rel=1e-6)
    ours = -force(column, rear, by_beams=True)
    assert verified("rack, that foot's uplift by a continuous beam", beam, ours, "lb") == pytest.approx(beam, rel=1e-4)
    ours = -force(column, rear)
    assert verified("rack, that foot's uplift", tributary, ours, "lb") == pytest.approx(tributary, rel=1e-4)


def test_rack_pressed_down(columns: dict[str, Column]) -> None:
    """D + 0.6W down on the front foot of the frame at 54 ft, the fifth of its run: wind pushes it up the slope.

    The two feet share that push. Its size counts in V/Va, and with 2 in of height over 3 in it pries, whichever way it
    acts: 93 lb down with 11 lb x 2/3, of 900 lb, and 11 of 350 lb.
    """
    column = columns["tilted_rack"]
    assert column.design
    assert column.design.candidate
    demands = column.design.candidate.demands
    high, apart = (0.5 + 0.5 + SHORT * sin(TILT)) / 2 - 2 / 12, SHORT * cos(TILT)
    way = three_ways(FRAMES, SIDES, 4)[0] / 2
    frame, in_corner = way.sum(), way[:4].sum()
    in_strip_2, in_corner_3 = rack_coefficients(frame * AREA)
    pressure = in_corner * max(Q * in_corner_3, 16) + (frame - in_corner) * max(Q * in_strip_2, 16)
    wind, weight = 0.6 * pressure * AREA, dead(column) * frame
    normal = (wind * cos(TILT) + weight * cos(THETA)) / 2
    along = weight * sin(THETA) - wind * sin(TILT)
    pressed, pushed = normal + along * high / apart, along / 2  # what acts up the slope relieves the lower foot
    front = point(column, 27, 15.5)
    number = [each.name for each in demands.combinations].index("D + 0.6W down")
    ours = demands.attachment_in_plane[front, number] / POUND_FORCE
    assert verified("rack pressed, push up the slope", pushed, ours, "lb") == pytest.approx(pushed, rel=1e-4)
    ours = demands.attachment_normal[front, number] / POUND_FORCE
    assert verified("rack pressed, front foot", pressed, ours, "lb") == pytest.approx(pressed, rel=1e-4)
    assert (pressed, pushed) == pytest.approx((93, -11), abs=0.5)
    used = (pressed + abs(pushed) * 2 / 3) / 900 + abs(pushed) / 350
    ours = attachment_ratios(demands, DOWN).utilisation[front, number]
    assert verified("rack pressed, utilisation", used, ours) == pytest.approx(used, rel=1e-4)


def test_row_pitch_of_the_rack(columns: dict[str, Column]) -> None:
    """Lp cos ω + Lp sin ω / tan(20 deg)."""
    column = columns["tilted_rack"]
    assert column.design
    low = np.unique(np.rint(column.design.field.outlines.low / FOOT * 1e4) / 1e4)
    tilt = radians(10)
    pitch = SHORT * cos(tilt) + SHORT * sin(tilt) / tan(radians(20))
    for ours in np.diff(low):
        assert verified("rack, row to row", pitch, ours, "ft") == pytest.approx(pitch, rel=1e-3)


def attachments_on_every_fourth_seam(modules: int, before: int = 0) -> int:
    """Attachments of a rail under so many modules of a row in portrait, at every fourth of the seams it crosses.

    It reaches from the first clamp to the last; a last, shorter span ends on its last seam.
    """
    first = 40 + before * (SHORT + GAP)
    last = first + modules * (SHORT + GAP) - GAP
    crossed = int(last // 2) - int(-(-first // 2))
    return -(-crossed // 4) + 1


def test_headline_figures(columns: dict[str, Column]) -> None:
    """By hand: Numbers of attachments of the default scenario, and the clips that decide.

    Direct: 24 columns, two attachments on each edge of six rows. The controlling clip lies under the edge of which one
    attachment takes three quarters (`test_direct`). Rails at every fourth seam: two under each of four rows, in runs of
    at most 40 ft, nine modules; in one piece an earlier and rougher calculation found clips of 1.64 times 350 lb. The
    roof's clip may carry 430 lb since. Divided, each run stands on its own attachments: more of them, and larger loads.
    """
    direct = columns["direct"]
    points = 24 * 7 * 2
    assert verified("direct, points", points, value_of(direct, "attachments")) == points
    assert value_of(direct, "attachments_minimum") == points
    assert direct.status == "holds"
    clip = clip_by_hand(direct, 61, 4, 2 * 2.0 * GAP)
    worst = value_of(direct, "fastening_utilisation")
    assert verified("direct, worst clip", clip, worst) == pytest.approx(clip, abs=1e-4)
    pieces = [
        compare(scenario_of(methods__rail__spacing="4 ribs", hardware__rail__longest_run=longest), ("rail",)).columns[0]
        for longest in ("200 ft", "40 ft")
    ]
    by_hand = (
        8 * attachments_on_every_fourth_seam(36),
        8 * sum(attachments_on_every_fourth_seam(9, before) for before in (0, 9, 18, 27)),
    )
    found = tuple(value_of(rail, "attachments") for rail in pieces)
    assert tuple(verified("rail, points in one piece and in four runs", by_hand, found)) == by_hand == (144, 160)
    one_piece, divided = (worst_clip_by_beams(rail) for rail in pieces)
    earlier = 1.64 * 350 / CLIP  # two digits printed, every rail taken for the worst
    assert verified("rail in one piece, worst clip", earlier, one_piece) == pytest.approx(earlier, rel=0.01)
    assert divided > one_piece
    assert {rail.status for rail in pieces} == {"over"}
    assert all("below_count_rule" in {flag.code for flag in rail.flags} for rail in pieces)


def worst_clip_by_beams(column: Column) -> float:
    """The largest utilisation of a clip where attachments share the loads as continuous beams do."""
    assert column.design
    assert column.design.candidate
    return float(-fastening_by_beams(column.design.candidate.demands).min() / POUND_FORCE / CLIP)
