"""Irregular continuous beams, drawn from a seed: what independent solutions are compared on."""

from __future__ import annotations

import random

import numpy as np

from engine.statics.continuous_beam import UnitForces, solve_beams

SEEDS = range(14)


def irregular_beam(seed: int) -> tuple[list[int], list[tuple[int, int, int]]]:
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


def solved(
    supports: list[int], loads: list[tuple[int, int, int]], stations: list[float]
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """The engine's reactions, moments at stations [m], and midspan deflections times EI of such a beam."""
    start, end, size = (
        np.array([column]) / scale for column, scale in zip(zip(*loads, strict=True), (100, 100, 1), strict=True)
    )
    answer = solve_beams(np.array([supports]) / 100, UnitForces(start, end))
    return (
        answer.reactions[0] @ size[0],
        answer.moments(np.array([stations]))[0] @ size[0],
        answer.deflections_ei[0] @ size[0],
    )
