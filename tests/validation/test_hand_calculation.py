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
from engine.mounting.influence import SolvedLines
from engine.units import FOOT, POUND, POUND_FORCE
from support import scenario_of
from support.published import verified

# Velocity pressure: exposure B at 24 ft, ground at 650 ft, Kd 0.85, 105 mph
KZ = 2.01 * (24 / 1200) ** (2 / 7.0)  # 0.657
KE = exp(-0.0000362 * 650)  # 0.977
Q = 0.00256 * KZ * 1.0 * 0.85 * KE * 105**2  # 15.40 psf

# Module 1722 x 1134 mm; roof 1:12; clip 70 psf x 2 ft x 5 ft / 2.0 = 350 lb
LONG, SHORT, GAP = 1.722 / FOOT, 1.134 / FOOT, 0.5 / 12
AREA = LONG * SHORT  # 21.02 ft²
THETA = np.arctan(1 / 12)
CLIP = 70 * 2 * 5 / 2.0
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


def force(column: Column, number: int) -> float:
    """The engine's uplift on an attachment in 0.6D + 0.6W up [lb]."""
    assert column.design
    assert column.design.candidate
    return float(column.design.candidate.demands.attachment_normal[number, -1] / POUND_FORCE)


def clip_used(column: Column, rib: int, clip: int) -> float:
    assert column.design
    assert column.design.candidate
    demands = column.design.candidate.demands
    row = int(np.flatnonzero(demands.rib == rib)[0])
    return float(-demands.fastening[row, clip, -1] / POUND_FORCE / CLIP)


def test_the_roof_alone(columns: dict[str, Column]) -> None:
    """Corner clip: 2 x 5 = 10 ft², zone 3 GCp -3.2, inside 0.18, 0.6W: 312 lb of 350 lb."""
    used = 0.6 * Q * (3.2 + 0.18) * 10 / CLIP
    assert verified(
        "bare roof, corner clip's utilisation", used, value_of(columns["rail"], "bare_roof_utilisation")
    ) == pytest.approx(used, rel=1e-4)
    assert used == pytest.approx(0.89, abs=0.005)


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
    """The clip at 21 ft under that seam: 337 lb, utilisation 0.96.

    Of the clip's own 10 ft², 18.5 to 23.5 ft from the eave, the gaps at 19.2 and 23.0 ft are bare: 2 ft x 1/2 in each.
    """
    column = columns["direct"]
    used = clip_by_hand(column, 61, 4, 2 * 2.0 * GAP)
    assert verified("direct, a clip's utilisation", used, clip_used(column, 61, 4)) == pytest.approx(used, abs=1e-4)
    assert value_of(column, "fastening_utilisation") == pytest.approx(clip_used(column, 61, 4), rel=1e-6)
    assert used == pytest.approx(0.96, abs=0.005)


def test_rail(columns: dict[str, Column]) -> None:
    """Seam 37, 72 ft from the rake, second rail of the first row: the rail is attached at every seam.

    Its clamp load is 0.6(W - D) of a quarter module at each edge. The clamps near the seam: modules 8
    and 9 meet 70.13 ft, modules 9 and 10 meet at a thermal break at 73.87 ft.
    """
    column = columns["rail"]
    assert column.design
    width, pitch = SHORT, SHORT + GAP
    start = 40.0
    edges = [(start + n * pitch + side * width) for n in range(9) for side in (0, 1)]
    supports = np.array([40 + 2 * n for n in range(17)], dtype=float)  # 40 to 72 ft: all that lie under the run
    assert (column.design.layout.attachments.rib == 36).any()
    spans = np.diff(supports)
    n = len(supports)
    reactions = []
    for x in edges:  # influence of each clamp on the last support, three-moment equation again, overhang included
        matrix, known = np.eye(n), np.zeros(n)
        for i in range(1, n - 1):
            matrix[i, i - 1 : i + 2] = spans[i - 1], 2 * (spans[i - 1] + spans[i]), spans[i]
            if supports[i - 1] < x <= supports[i]:
                a = x - supports[i - 1]
                known[i] -= a * (spans[i - 1] ** 2 - a**2) / spans[i - 1]
            if supports[i] < x < supports[i + 1]:
                b = supports[i + 1] - x
                known[i] -= b * (spans[i] ** 2 - b**2) / spans[i]
        if x > supports[-1]:
            known[-1] = -(x - supports[-1])
        moments = np.linalg.solve(matrix, known)
        last = (moments[-2] - moments[-1]) / spans[-1]
        if x > supports[-1]:
            last += 1.0
        elif x > supports[-2]:
            last += (x - supports[-2]) / spans[-1]
        reactions.append(last)
    shares = np.array(reactions) / 4  # a clamp carries a quarter of its module
    area = shares.sum() * AREA
    pressure = Q * gcp_1(max(area, 10)) * 1.5 * min(0.8, 1.2 - 0.4 * log10(area))
    pull = 0.6 * pressure * area - 0.6 * dead(column) * cos(THETA) * shares.sum()
    # in-plane weight acts 5 - 2 = 3 in above the attachments: the couple Q e / rail spacing lifts the upper rail
    spacing = LONG - 2 * 0.375 / FOOT
    shift = 0.6 * dead(column) * sin(THETA) * (3 / 12) / spacing * shares.sum() * 2
    y = 15.5 + LONG - 0.375 / FOOT
    ours = -force(column, point(column, 36, y))
    assert verified("rail, a point's uplift", pull + shift, ours, "lb") == pytest.approx(pull + shift, rel=1e-4)


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
    """The clip at 21 ft on the seam at 72 ft: utilisation 1.06, the controlling component of the rails.

    Of its 10 ft², from 71 to 73 ft and from 18.5 to 23.5 ft, only the gap between rows is bare: 2 ft x 1/2 in.
    """
    column = columns["rail"]
    used = clip_by_hand(column, 36, 4, 2.0 * 0.5 / 12)
    assert verified("rail, a clip's utilisation", used, clip_used(column, 36, 4)) == pytest.approx(used, abs=1e-4)
    assert value_of(column, "fastening_utilisation") == pytest.approx(clip_used(column, 36, 4), rel=1e-6)
    assert used == pytest.approx(1.06, abs=0.005)


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


def test_rack(columns: dict[str, Column]) -> None:
    """Rear foot of a frame in row 1: §29.4.3, tilt 10 deg, half-way between the figure's 5 and 15 deg."""
    column = columns["tilted_rack"]
    assert column.design
    assert column.design.candidate
    tilt = radians(10)
    h2 = 0.5 + SHORT * sin(tilt)
    apart, high = SHORT * cos(tilt), (0.5 + h2) / 2 - 2 / 12
    layout, demands = column.design.layout, column.design.candidate.demands
    rear = point(column, 23, 15.5 + apart)
    influence = SolvedLines(layout).influence
    entries = influence.attachment == rear
    frame = (
        influence.share[entries].sum() * 2
    )  # the frame's reaction under a unit load on every module; a foot takes half
    area = frame * AREA
    lb = min(0.4 * sqrt(24 * 220), 24, 110)
    an = 1000 * area / max(lb, 15) ** 2

    def curve(one: float, five_hundred: float, five_thousand: float) -> float:
        if an <= 500:
            return one + (five_hundred - one) * log10(an) / log10(500)
        return five_hundred + (five_thousand - five_hundred) * (log10(an) - log10(500)) / 1.0

    in_strip_2 = 0.5 * (curve(2.0, 0.45, 0.15) + curve(2.9, 0.65, 0.40))  # within 2h = 48 ft of the eave
    in_corner_3 = 0.5 * (curve(2.3, 0.50, 0.15) + curve(3.5, 0.80, 0.50))
    # the frame's load comes from columns 1 and 2, which reach into the corner zone (48 ft), and, with a small
    # share that relieves, from columns 3 on: zone 2
    left = column.design.field.outlines.left[influence.module[entries]] / FOOT
    in_corner = influence.share[entries][left < 48].sum() * 2 / frame
    nominal = in_corner * in_corner_3 + (1 - in_corner) * in_strip_2
    chord = max(0.6 + 0.06 * SHORT, 0.8)
    gcrn = 0.9 * chord * 1.5 * nominal  # no parapet, exposed
    wind = Q * gcrn * area  # normal to the frame
    v, hor = wind * cos(tilt), wind * sin(tilt)
    uplift = v / 2 + hor * high / apart
    weight = dead(column) * frame
    down = weight * cos(THETA) / 2 - weight * sin(THETA) * high / apart
    pull = 0.6 * uplift - 0.6 * down
    ours = demands.attachment_area[rear] / FOOT**2
    assert verified("rack, a rear foot's effective wind area", area, ours, "ft²") == pytest.approx(area, rel=1e-6)
    assert verified("rack, that foot's uplift", pull, -force(column, rear), "lb") == pytest.approx(pull, rel=1e-4)


def test_row_pitch_of_the_rack(columns: dict[str, Column]) -> None:
    """Lp cos ω + Lp sin ω / tan(20 deg)."""
    column = columns["tilted_rack"]
    assert column.design
    low = np.unique(np.rint(column.design.field.outlines.low / FOOT * 1e4) / 1e4)
    tilt = radians(10)
    pitch = SHORT * cos(tilt) + SHORT * sin(tilt) / tan(radians(20))
    for ours in np.diff(low):
        assert verified("rack, row to row", pitch, ours, "ft") == pytest.approx(pitch, rel=1e-3)


def test_headline_figures(columns: dict[str, Column]) -> None:
    """By hand: An earlier and rougher calculation of the default scenario, with every column and every rail alike.

    Direct: ours is 0.96, for two of the 24 columns have only two crossings in the supportable stretch of
    their edge, and one of them takes three quarters. Rails at every fourth seam: ours are 160 points and
    1.66, for rails are broken into four runs of at most 40 ft and each run stands on its own points.
    """
    direct = columns["direct"]
    assert (
        verified("direct, points", 336, value_of(direct, "attachments"))
        == value_of(direct, "attachments_minimum")
        == 336
    )
    assert direct.status == "holds"
    assert verified(
        "direct, worst clip (two columns differ)", 0.89, value_of(direct, "fastening_utilisation")
    ) == pytest.approx(0.96, abs=0.005)
    (rail,) = compare(scenario_of(methods__rail__spacing="4 ribs"), ("rail",)).columns
    assert verified("rail, points (in four runs)", 144, value_of(rail, "attachments")) == 160
    assert verified("rail, worst clip", 1.64, value_of(rail, "fastening_utilisation")) == pytest.approx(1.64, rel=0.03)
    assert rail.status == "over"
    assert "below_count_rule" in {flag.code for flag in rail.flags}
