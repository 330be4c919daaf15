"""Irregular beams, against two independent solutions.

One is a general-purpose frame library (PyNiteFEA, a test dependency, stiffness method); the other
solves the same beams exactly, in fractions, by the force method with unit reactions.
"""

from __future__ import annotations

import random
from fractions import Fraction

import numpy as np
import pytest
from Pynite import FEModel3D

from engine.beam import Couples, Spread, respond

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


def ours(supports: list[int], loads: list[tuple[int, int, int]], stations: list[float]) -> tuple[np.ndarray, np.ndarray]:
    start, end, size = (np.array([column]) / scale for column, scale in zip(zip(*loads, strict=True), (100, 100, 1), strict=True))
    answer = respond(np.array([supports]) / 100, Spread(start, end), np.array([stations]))
    return answer.reactions[0] @ size[0], answer.moments[0] @ size[0]


def by_frame_library(supports: list[int], loads: list[tuple[int, int, int]], stations: list[float]) -> tuple[list[float], list[float]]:
    model = FEModel3D()
    model.add_material("any", 200e9, 77e9, 0.3, 0.0)
    model.add_section("any", 0.01, 1e-5, 1e-5, 1e-5)
    ends = sorted({*supports, supports[0] - 60, supports[-1] + 60})
    for place in ends:
        model.add_node(f"n{place}", place / 100, 0, 0)
        held = place in supports
        model.def_support(f"n{place}", place == supports[0], held, True, True, False, False)
    for left, right in zip(ends[:-1], ends[1:], strict=True):
        model.add_member(f"m{left}", f"n{left}", f"n{right}", "any", "any")
    for start, end, size in loads:
        for left, right in zip(ends[:-1], ends[1:], strict=True):
            if start == end:
                if left <= start < right:
                    model.add_member_pt_load(f"m{left}", "Fy", -size, (start - left) / 100)
                continue
            low, high = max(start, left), min(end, right)
            if low < high:
                density = -size / ((end - start) / 100)
                model.add_member_dist_load(f"m{left}", "Fy", density, density, (low - left) / 100, (high - left) / 100)
    model.analyze(check_statics=False)
    moments = []
    for station in stations:
        left = max(place for place in ends[:-1] if place / 100 <= station + 1e-12)
        moments.append(-model.members[f"m{left}"].moment("Mz", station - left / 100))
    return [model.nodes[f"n{place}"].RxnFY["Combo 1"] for place in supports], moments


@pytest.mark.parametrize("seed", CASES)
def test_reactions_and_moments_agree_with_a_frame_library(seed: int) -> None:
    supports, loads = irregular(seed)
    stations = [
        (left + (right - left) * part) / 100 for left, right in zip(supports[:-1], supports[1:], strict=True) for part in (0.31, 0.77)
    ]
    reactions, moments = ours(supports, loads, stations)
    theirs, their_moments = by_frame_library(supports, loads, stations)
    np.testing.assert_allclose(reactions, theirs, atol=1e-6)
    np.testing.assert_allclose(moments, their_moments, atol=1e-6)


def exact_reactions(supports: list[int], loads: list[tuple[int, int, int]]) -> list[Fraction]:
    """Force method in fractions: inner reactions close the gaps that a simple beam of full length would leave."""
    first, last = Fraction(supports[0]), Fraction(supports[-1])
    length = last - first

    def bent(at: Fraction, load: Fraction) -> Fraction:
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
        if start != end:  # Gauss-Legendre would be inexact in fractions: split at supports, then Boole's rule, exact for cubics
            cuts = sorted({start, end, *(place for place in supports if start < place < end)})
            for left, right in zip(cuts[:-1], cuts[1:], strict=True):
                weight = Fraction(size * (right - left), (end - start) * 90)
                points += [(Fraction(left) + Fraction(right - left, 4) * k, weight * w) for k, w in enumerate((7, 32, 12, 32, 7))]
    rows = [[bent(Fraction(place), Fraction(other)) for other in inner] for place in inner]
    known = [sum((size * bent(Fraction(place), load) for load, size in points), Fraction(0)) for place in inner]
    solved = _solve(rows, known)
    turning = sum((size * (load - first) for load, size in points), Fraction(0))
    turning -= sum((force * (place - first) for force, place in zip(solved, inner, strict=True)), Fraction(0))
    total = sum((size for _, size in points), Fraction(0))
    far = turning / length
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
    supports, loads = irregular(seed)
    reactions, _ = ours(supports, loads, [supports[0] / 100])
    np.testing.assert_allclose(reactions, [float(force) for force in exact_reactions(supports, loads)], atol=1e-9)


@pytest.mark.parametrize("seed", CASES)
def test_a_couple_is_the_limit_of_two_forces(seed: int) -> None:
    supports, loads = irregular(seed)
    place, arm = np.array([[loads[0][0] / 100 + 0.0037]]), 1e-5
    stations = np.array([[supports[0] / 100, (supports[0] + supports[1]) / 200]])
    couple = respond(np.array([supports]) / 100, Couples(place), stations)
    around = np.hstack([place - arm / 2, place + arm / 2])  # centred, so that what is left over falls with the arm squared
    pair = respond(np.array([supports]) / 100, Spread(around, around), stations)
    np.testing.assert_allclose(couple.reactions[0, :, 0], pair.reactions[0] @ [-1 / arm, 1 / arm], atol=1e-6)
