"""Continuous beams by the three-moment equation written out, as one works them on paper."""

from __future__ import annotations

import numpy as np

Points = np.ndarray
"""Positions along a beam, in any unit of length."""


def three_ways(supports: Points, loads: Points, number: int) -> tuple[np.ndarray, ...]:
    """Influence of each load on a support near an end: continuous beam, tributary load, stiff beam on equal springs.

    Three-moment equation, with overhangs; lever rule, an overhang's load to the last support alone; equilibrium.
    """
    number %= len(supports)
    tributary = np.interp(loads, supports, np.eye(len(supports))[number])
    by_beam = [reaction(supports, x, number, by_levers) for x, by_levers in zip(loads, tributary, strict=True)]
    arm = supports - supports.mean()
    stiff = 1 / len(supports) + arm[number] * (loads - supports.mean()) / (arm**2).sum()
    return np.array(by_beam), tributary, stiff


def reaction(supports: Points, x: float, number: int, by_levers: float) -> float:
    """Reaction of a support to a load of 1 at x; `by_levers`: what simple spans would bring it."""
    n, spans = len(supports), np.diff(supports)
    matrix, known = np.eye(n), np.zeros(n)
    known[0], known[-1] = -max(supports[0] - x, 0), -max(x - supports[-1], 0)
    for i in range(1, n - 1):
        matrix[i, i - 1 : i + 2] = spans[i - 1], 2 * (spans[i - 1] + spans[i]), spans[i]
        if supports[i - 1] < x <= supports[i]:
            a = x - supports[i - 1]
            known[i] -= a * (spans[i - 1] ** 2 - a**2) / spans[i - 1]
        if supports[i] < x < supports[i + 1]:
            b = supports[i + 1] - x
            known[i] -= b * (spans[i] ** 2 - b**2) / spans[i]
    moments = np.linalg.solve(matrix, known)
    others = {number - 1, number + 1} & set(range(n))
    return by_levers + sum(
        (moments[other] - moments[number]) / abs(supports[other] - supports[number]) for other in others
    )
