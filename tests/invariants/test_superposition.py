"""Superposition: twice the load is twice the force, and two loads add, for beams and for every link of generated jobs."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.load_path.demands import Demands
from engine.statics.continuous_beam import UnitForces, solve_beams
from support.balance import checked_designs, linear_demands
from support.generated import EVERY_RIB, JOBS, Changes, cases, comparison_of

BEAMS = st.lists(st.integers(20, 300), min_size=1, max_size=9).map(lambda spans: np.cumsum([0, *spans])[None] / 100)
"""Supports of one beam (1, S) [m]."""

PLACES = st.integers(0, 1000).map(lambda thousandth: thousandth / 1000)
"""Positions as parts of a beam's length, with an overhang of a tenth at either end."""


def places(beam: np.ndarray, *parts: float) -> np.ndarray:
    """Positions along a beam (1, n) [m]."""
    return np.array([[(1.2 * part - 0.1) * beam[0, -1] for part in parts]])


@given(BEAMS, PLACES, PLACES)
@cases(30)
def test_a_beam_is_in_equilibrium(beam: np.ndarray, one: float, other: float) -> None:
    """Forces, and moments about its first support."""
    start, end = places(beam, min(one, other)), places(beam, max(one, other))
    reactions = solve_beams(beam, UnitForces(start, end)).reactions[0, :, 0]
    assert reactions.sum() == pytest.approx(1.0)
    assert reactions @ beam[0] == pytest.approx((start + end).item() / 2)


@given(BEAMS, st.lists(PLACES, min_size=3, max_size=3, unique=True))
@cases(30)
def test_a_spread_load_is_the_sum_of_its_parts(beam: np.ndarray, cuts: list[float]) -> None:
    low, cut, high = np.split(places(beam, *sorted(cuts)), 3, axis=1)
    part = ((cut - low) / (high - low)).item()
    answer = solve_beams(beam, UnitForces(np.hstack([low, low, cut]), np.hstack([high, cut, high])))
    for whole in (answer.reactions, answer.moments((beam[:, :-1] + beam[:, 1:]) / 2), answer.deflections_ei):
        np.testing.assert_allclose(
            whole[..., 0], part * whole[..., 1] + (1 - part) * whole[..., 2], atol=1e-9 * max(1, np.abs(whole).max())
        )


@given(BEAMS)
@cases(30)
def test_deflections_are_reciprocal(beam: np.ndarray) -> None:
    """A load in one span deflects another as much as a load there deflects the first (Maxwell's theorem)."""
    middles = (beam[:, :-1] + beam[:, 1:]) / 2
    deflections_ei = solve_beams(beam, UnitForces(middles, middles)).deflections_ei[0]
    np.testing.assert_allclose(deflections_ei, deflections_ei.T, atol=1e-9 * deflections_ei.max())


@given(st.lists(st.lists(st.floats(0.5, 3.0), min_size=4, max_size=4), min_size=2, max_size=4), PLACES, PLACES)
@cases(30)
def test_beams_solved_together_do_not_affect_each_other(spans: list[list[float]], one: float, other: float) -> None:
    beams = np.cumsum(np.pad(spans, ((0, 0), (1, 0))), axis=1)
    start, end = np.vstack([places(beam[None], *sorted((one, other))) for beam in beams]).T[:, :, None]
    together = solve_beams(beams, UnitForces(start, end))
    alone = [solve_beams(beams[[each]], UnitForces(start[[each]], end[[each]])) for each in range(len(beams))]
    for of in (lambda beam: beam.reactions, lambda beam: beam.support_moments, lambda beam: beam.deflections_ei):
        np.testing.assert_allclose(of(together), np.concatenate([of(each) for each in alone]), rtol=0, atol=1e-12)


def speed(pressure: int) -> str:
    """Wind speed for a number of parts of pressure, strong enough to exceed the minimum pressures of the standard."""
    return f"{300 * sqrt(pressure / 3)!r} mph"


LOADS: dict[str, tuple[list[Changes], str]] = {
    "wind": (
        [
            {"site__wind_speed": speed(n), "site__exposure": "D", "building__mean_roof_height": "60 ft"}
            for n in (1, 2, 3)
        ],
        "W down",
    ),
    "snow": (
        [
            {"site__ground_snow": f"{20 * n} psf", "building__roof_shape": "monoslope", "building__slope": "20 deg"}
            for n in (1, 2, 3)
        ],
        "",
    ),
    "weight": ([{"module__mass": f"{12 * n} kg"} for n in (1, 2, 3)], ""),
}
"""Load → three jobs with equal steps of load, and the case without steps: downward wind stays at the minimum."""


@given(JOBS, st.sampled_from(sorted(LOADS)))
@cases(15)
def test_equal_steps_of_a_load_are_equal_steps_of_every_force(job: tuple[str, Changes], load: str) -> None:
    """Snow on a slope without minimum loads, in combinations without drifts: these fill their steps with more snow.

    The roof is unheated, because the thermal factor depends on the snow load.
    """
    (name, changes), (steps, fixed) = job, LOADS[load]
    same = {**changes, **EVERY_RIB, "building__thermal": "unheated", "roof__support": "purlin"}
    low, middle, high = (comparison_of(name, same, **step) for step in steps)
    for designs in zip(checked_designs(low), checked_designs(middle), checked_designs(high), strict=True):
        forces = [
            [each[..., steady_combinations(demands, fixed)] for each in linear_demands(demands, solid_deck=False)]
            for _, demands in designs
        ]
        for a, b, c in zip(*forces, strict=True):
            np.testing.assert_allclose(c - b, b - a, atol=1e-9 * max(1.0, np.abs(c).max(initial=0)))


def steady_combinations(demands: Demands, fixed: str) -> np.ndarray:
    """True for the combinations without the fixed case and without drifts (C,)."""
    return np.array(
        [
            fixed not in combination.factors and not any("drift" in case for case in combination.factors)
            for combination in demands.combinations
        ]
    )
