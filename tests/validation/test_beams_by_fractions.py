"""By hand: Irregular continuous beams exactly, in fractions, by the force method with unit reactions."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest

from engine.statics.continuous_beam import UnitCouples, UnitForces, solve_beams
from support.irregular_beams import SEEDS, irregular_beam, solved
from support.published import verified


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


@pytest.mark.parametrize("seed", SEEDS)
def test_reactions_agree_with_exact_fractions(seed: int) -> None:
    """By hand: The same irregular beams exactly, in fractions, by the force method with unit reactions."""
    supports, loads = irregular_beam(seed)
    reactions, *_ = solved(supports, loads, [supports[0] / 100])
    exact = [float(force) for force in exact_reactions(supports, loads)]
    np.testing.assert_allclose(verified("reactions", exact, reactions), exact, atol=1e-9)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_couple_is_the_limit_of_two_forces(seed: int) -> None:
    supports, loads = irregular_beam(seed)
    place, arm = np.array([[loads[0][0] / 100 + 0.0037]]), 1e-5
    couple = solve_beams(np.array([supports]) / 100, UnitCouples(place))
    around = np.hstack(
        [place - arm / 2, place + arm / 2]
    )  # centred, so that what is left over falls with the arm squared
    pair = solve_beams(np.array([supports]) / 100, UnitForces(around, around))
    np.testing.assert_allclose(couple.reactions[0, :, 0], pair.reactions[0] @ [-1 / arm, 1 / arm], atol=1e-6)
