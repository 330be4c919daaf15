"""Library: PyNiteFEA, a general-purpose frame solver (stiffness method), on irregular beams and on layouts as they stand.

The irregular beams are solved a second time, exactly, in fractions, by the force method with unit reactions.
"""

from __future__ import annotations

import random
from fractions import Fraction

import numpy as np
import pytest
from Pynite import FEModel3D

from engine.comparison.compare import compare
from engine.mounting.layout import Layout
from engine.project.job import Job
from engine.statics.continuous_beam import UnitCouples, UnitForces, solve_beams
from support import scenario_of
from support.validation_page import verified

CASES = range(14)


def irregular(seed: int) -> tuple[list[int], list[tuple[int, int, int]]]:
    """Supports and loads on a grid of hundredths: (from, to, size); overhangs and shared supports among them."""
    chance = random.Random(seed)
    supports = sorted(chance.sample(range(50, 1000, 10), chance.randint(2, 9)))
    loads = []
    for _ in range(chance.randint(1, 7)):
        start = chance.randrange(supports[0] - 40, supports[-1] + 40)
        length = chance.choice([0, 0, chance.randint(1, 300)])
        loads.append((start, min(start + length, supports[-1] + 40), chance.choice([-3, -1, 1, 2, 5])))
    loads.append((supports[0], supports[0], 2))
    return supports, loads


def ours(
    supports: list[int], loads: list[tuple[int, int, int]], stations: list[float]
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    start, end, size = (
        np.array([column]) / scale for column, scale in zip(zip(*loads, strict=True), (100, 100, 1), strict=True)
    )
    answer = solve_beams(np.array([supports]) / 100, UnitForces(start, end))
    return (
        answer.reactions[0] @ size[0],
        answer.moments(np.array([stations]))[0] @ size[0],
        answer.deflections_ei[0] @ size[0],
    )


def by_frame_library(
    supports: list[float], loads: list[tuple[float, float, float]], stations: list[float]
) -> tuple[list[float], list[float], list[float]]:
    """Reactions, moments, and midspan deflections times EI of one beam [m, any force].

    They are those of a stiffness solution in three dimensions.
    """
    model = FEModel3D()
    model.add_material("any", 200e9, 77e9, 0.3, 0.0)
    model.add_section("any", 0.01, 1e-5, 1e-5, 1e-5)
    ends = [
        min(supports[0], *(load[0] for load in loads)) - 0.5,
        *supports,
        max(supports[-1], *(load[1] for load in loads)) + 0.5,
    ]
    for number, place in enumerate(ends):
        model.add_node(f"n{number}", place, 0, 0)
        held = 0 < number < len(ends) - 1
        model.def_support(f"n{number}", number == 1, held, True, True, False, False)
    for number, (left, right) in enumerate(zip(ends[:-1], ends[1:], strict=True)):
        model.add_member(f"m{number}", f"n{number}", f"n{number + 1}", "any", "any")
        for start, end, size in loads:
            if start == end and left <= start < right:
                model.add_member_pt_load(f"m{number}", "Fy", -size, start - left)
            low, high = max(start, left), min(end, right)
            if start < end and low < high:
                density = -size / (end - start)
                model.add_member_dist_load(f"m{number}", "Fy", density, density, low - left, high - left)
    model.analyze(check_statics=False)
    moments = []
    for station in stations:
        number = max(index for index, place in enumerate(ends[:-1]) if place <= station + 1e-12)
        moments.append(-model.members[f"m{number}"].moment("Mz", station - ends[number]))
    inner = range(1, len(ends) - 1)
    deflections_ei = [
        -model.members[f"m{number}"].deflection("dy", (ends[number + 1] - ends[number]) / 2) * 200e9 * 1e-5
        for number in inner[:-1]
    ]
    return [model.nodes[f"n{number}"].RxnFY["Combo 1"] for number in inner], moments, deflections_ei


@pytest.mark.parametrize("seed", CASES)
def test_reactions_moments_and_deflections_agree_with_a_frame_library(seed: int) -> None:
    supports, loads = irregular(seed)
    stations = [
        (left + (right - left) * part) / 100
        for left, right in zip(supports[:-1], supports[1:], strict=True)
        for part in (0.31, 0.77)
    ]
    reactions, moments, deflections_ei = ours(supports, loads, stations)
    metres = [place / 100 for place in supports], [(start / 100, end / 100, size) for start, end, size in loads]
    theirs, their_moments, their_sags = by_frame_library(*metres, stations)
    np.testing.assert_allclose(verified("irregular beams, reactions", theirs, reactions), theirs, atol=1e-6)
    np.testing.assert_allclose(verified("irregular beams, moments", their_moments, moments), their_moments, atol=1e-6)
    np.testing.assert_allclose(
        verified("irregular beams, midspan deflections x EI", their_sags, deflections_ei), their_sags, atol=1e-6
    )


def exact_reactions(supports: list[int], loads: list[tuple[int, int, int]]) -> list[Fraction]:
    """Force method in fractions: inner reactions close the gaps that a simple beam of full length would leave."""
    first, last = Fraction(supports[0]), Fraction(supports[-1])
    length = last - first

    def rib_moments(at: Fraction, load: Fraction) -> Fraction:
        """6 EI L x deflection at `at` under a unit point load at `load`, a simple beam with overhanging loads."""
        x, a = at - first, load - first
        if a < 0 or a > length:
            near = a < 0
            arm = -a if near else a - length
            z = x if near else length - x
            return -arm * (2 * length**2 * z - 3 * length * z**2 + z**3)
        if x > a:
            x, a = length - x, length - a
        b = length - a
        return b * x * (length**2 - b**2 - x**2)

    inner = supports[1:-1]
    points = [(Fraction(start), Fraction(size)) for start, end, size in loads if start == end]
    for start, end, size in loads:
        if (
            start != end
        ):  # Gauss-Legendre would be inexact in fractions: split at supports, then Boole's rule, exact for cubics
            cuts = sorted({start, end, *(place for place in supports if start < place < end)})
            for left, right in zip(cuts[:-1], cuts[1:], strict=True):
                weight = Fraction(size * (right - left), (end - start) * 90)
                points += [
                    (Fraction(left) + Fraction(right - left, 4) * k, weight * w)
                    for k, w in enumerate((7, 32, 12, 32, 7))
                ]
    rows = [[rib_moments(Fraction(place), Fraction(other)) for other in inner] for place in inner]
    known = [sum((size * rib_moments(Fraction(place), load) for load, size in points), Fraction(0)) for place in inner]
    solved = _solve(rows, known)
    couples = sum((size * (load - first) for load, size in points), Fraction(0))
    couples -= sum((force * (place - first) for force, place in zip(solved, inner, strict=True)), Fraction(0))
    total = sum((size for _, size in points), Fraction(0))
    far = couples / length
    return [total - sum(solved, Fraction(0)) - far, *solved, far]


def _solve(rows: list[list[Fraction]], known: list[Fraction]) -> list[Fraction]:
    rows = [[*row, value] for row, value in zip(rows, known, strict=True)]
    for pivot in range(len(rows)):
        for other in range(len(rows)):
            if other != pivot:
                factor = rows[other][pivot] / rows[pivot][pivot]
                rows[other] = [a - factor * b for a, b in zip(rows[other], rows[pivot], strict=True)]
    return [row[-1] / row[index] for index, row in enumerate(rows)]


@pytest.mark.parametrize("seed", CASES)
def test_reactions_agree_with_exact_fractions(seed: int) -> None:
    """By hand: The same irregular beams exactly, in fractions, by the force method with unit reactions."""
    supports, loads = irregular(seed)
    reactions, *_ = ours(supports, loads, [supports[0] / 100])
    exact = [float(force) for force in exact_reactions(supports, loads)]
    np.testing.assert_allclose(verified("reactions", exact, reactions), exact, atol=1e-9)


@pytest.mark.parametrize("seed", CASES)
def test_a_couple_is_the_limit_of_two_forces(seed: int) -> None:
    supports, loads = irregular(seed)
    place, arm = np.array([[loads[0][0] / 100 + 0.0037]]), 1e-5
    couple = solve_beams(np.array([supports]) / 100, UnitCouples(place))
    around = np.hstack(
        [place - arm / 2, place + arm / 2]
    )  # centred, so that the error falls with the square of the arm
    pair = solve_beams(np.array([supports]) / 100, UnitForces(around, around))
    np.testing.assert_allclose(couple.reactions[0, :, 0], pair.reactions[0] @ [-1 / arm, 1 / arm], atol=1e-6)


LAYOUTS = [
    ("kestrel_yard", "rail", {"methods__rail__spacing": "3 ribs"}),
    ("kestrel_yard", "tilted_rack", {}),
    ("kestrel_yard", "direct", {"methods__direct__spacing": "3 per edge"}),
    ("heron_depot", "rail", {}),
    ("sparrow_lane", "rail", {}),
    ("sparrow_lane", "direct", {"methods__direct__spacing": "4 per edge"}),
    ("kestrel_yard", "direct", {"roof__edge_strip": "20 ft", "roof__edge_support_spacing": "2.5 ft"}),
    ("wren_workshop", "rail", {"methods__rail__runs": "up the slope", "module__clamp_zone": ["150 mm", "500 mm"]}),
]


@pytest.mark.parametrize(("name", "method", "changes"), LAYOUTS)
def test_rails_racks_and_edges_as_laid_out(name: str, method: str, changes: dict[str, str]) -> None:
    """Every different line of real layouts: the shares of its attachments in the loads of its modules."""
    _, layout = laid_out(name, method, changes)
    for lines in layout.lines[:6]:
        places = list(layout.supports(lines))
        loads = list(zip(lines.load_start, lines.load_end, [1.0] * len(lines.load_start), strict=True))
        theirs, *_ = by_frame_library(places, loads, [])
        ours = (
            solve_beams(np.array([places]), UnitForces(lines.load_start[None], lines.load_end[None]))
            .reactions[0]
            .sum(axis=1)
        )
        what = f"{name}, {method}: what a point gets of a unit load at every clamp or edge"
        np.testing.assert_allclose(verified(what, theirs, ours), theirs, atol=1e-7)


ARM = 1e-3
"""Distance of the pair of forces that stands for the couple of an in-plane force at its height [m]."""


@pytest.mark.parametrize(("name", "method", "changes"), LAYOUTS)
def test_seams_as_laid_out(name: str, method: str, changes: dict[str, str]) -> None:
    """Reactions and bending moments of a seam in the middle of the array, in the uplift combination."""
    (column,) = compare(scenario_of(name, **changes), (method,)).columns
    assert column.design
    assert column.design.candidate
    demands, points = column.design.candidate.demands, column.design.layout.attachments
    row = len(demands.rib) // 2
    here = np.flatnonzero(points.rib == demands.rib[row])
    normal, turn = demands.attachment_normal[here, -1], -demands.attachment_in_plane[here, -1] * points.height
    loads = [(float(y), float(y), float(force)) for y, force in zip(points.y[here], normal, strict=True)]
    for y, couple in zip(points.y[here].tolist(), turn.tolist(), strict=True):
        loads += [(y - ARM / 2, y - ARM / 2, -couple / ARM), (y + ARM / 2, y + ARM / 2, couple / ARM)]
    held = demands.is_fastened[row]
    supports = demands.fastening_y[held].tolist()
    theirs, *_ = by_frame_library(supports, loads, [])
    brought = verified(
        f"{name}, {method}: what a seam brings to a fastening",
        theirs,
        demands.fastening_from_attachments[row, held, -1],
        "N",
    )
    np.testing.assert_allclose(brought, theirs, atol=1e-3 * np.abs(normal).max())
    assert not demands.fastening_from_attachments[row, ~held].any()

    these = next(these for these in demands.roof.rib_groups if demands.rib[row] in these.ribs)
    air = list(
        zip(
            these.low.tolist(),
            these.high.tolist(),
            demands.fastening_from_surface[row, these.levels, -1].tolist(),
            strict=True,
        )
    )
    places = np.array(
        [
            demands.rib_moments.place(row, item, len(demands.combinations) - 1)
            for item in range(demands.rib_moments.extremes.shape[1])
        ]
    )
    seen = (
        (np.abs(places[:, None] - points.y[here]).min(axis=1) > ARM) & (places > supports[0]) & (places < supports[-1])
    )
    _, moments, _ = by_frame_library(supports, loads + air, places[seen].tolist())
    rib_moments = verified(
        f"{name}, {method}: how a seam bends", moments, demands.rib_moments.extremes[row, seen, -1], "N m"
    )
    np.testing.assert_allclose(rib_moments, moments, atol=1e-3 * np.abs(moments).max())


def laid_out(name: str, method: str, changes: dict[str, str]) -> tuple[Job, Layout]:
    scenario = scenario_of(name, **changes)
    (column,) = compare(scenario, (method,)).columns
    assert column.design
    return scenario.job, column.design.layout
