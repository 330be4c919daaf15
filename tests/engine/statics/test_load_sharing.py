"""Beams on supports that give way: printed ratios, limits, equilibrium."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.statics.continuous_beam import BeamResponse, UnitForces, solve_beams
from engine.statics.load_sharing import spring_reactions, stiff_beam_reactions, tributary_reactions


def even_load(supports: list[float], start: float, end: float) -> BeamResponse:
    return solve_beams(np.array([supports]), UnitForces(np.array([[start]]), np.array([[end]])))


def point_loads(supports: list[float], positions: list[float]) -> BeamResponse:
    at = np.array([positions])
    return solve_beams(np.array([supports]), UnitForces(at, at))


@pytest.mark.parametrize(
    ("supports", "at_016", "at_036", "stiff"),
    [(3, 0.547, 0.598, 0.667), (4, 0.497, 0.562, 0.75), (5, 0.482, 0.529, 0.8)],
)
def test_end_reactions_under_an_even_load(supports: int, at_016: float, at_036: float, stiff: float) -> None:
    """End reaction over the load of a bay, EI / (k s³) of 0.16, 0.36 and beyond: a second computation, by springs.

    On rigid supports it is 0.375, 0.400 and 0.393 (beam tables), and half a bay as tributary load.
    """
    beam, bays = even_load(list(map(float, range(supports))), 0.0, supports - 1.0), supports - 1
    for softness, expected in ((0.16, at_016), (0.36, at_036)):
        assert spring_reactions(beam, softness)[0, 0, 0] * bays == pytest.approx(expected, abs=6e-4)
    assert stiff_beam_reactions(beam)[0, 0, 0] * bays == pytest.approx(stiff, abs=4e-4)
    assert tributary_reactions(beam)[0, 0, 0] * bays == pytest.approx(0.5)
    assert beam.reactions[0, 0, 0] * bays == pytest.approx({3: 0.375, 4: 0.4, 5: 0.393}[supports], abs=5e-4)


def test_two_supports_carry_by_statics_alone() -> None:
    beam = point_loads([0.0, 4.0], [-1.0, 1.0, 3.0, 5.0])
    for reactions in (spring_reactions(beam, 0.3), stiff_beam_reactions(beam)):
        np.testing.assert_allclose(reactions, beam.reactions, atol=1e-12)


def test_tributary_loads_go_to_the_neighbours_and_overhangs_to_the_end() -> None:
    """By hand: supports at 0, 2 and 6 m; points at -1, 0, 0.5, 5 and 7 m."""
    found = tributary_reactions(point_loads([0.0, 2.0, 6.0], [-1.0, 0.0, 0.5, 5.0, 7.0]))[0]
    np.testing.assert_allclose(found, [[1, 1, 0.75, 0, 0], [0, 0, 0.25, 0.25, 0], [0, 0, 0, 0.75, 1]])
    even = tributary_reactions(even_load([0.0, 2.0, 6.0], -0.5, 6.0))[0, :, 0]
    np.testing.assert_allclose(even * 6.5, [1.5, 3.0, 2.0])


SUPPORTS = st.lists(st.floats(0.3, 4.0), min_size=2, max_size=8).map(lambda spans: np.cumsum([0.0, *spans]).tolist())


@given(SUPPORTS, st.floats(-0.5, 1.5), st.floats(1e-4, 10.0))
@settings(max_examples=60, derandomize=True)
def test_every_way_is_in_equilibrium(supports: list[float], place: float, softness: float) -> None:
    """Forces; and moments, except that an overhang's tributary load turns nothing."""
    position = place * supports[-1]
    beam = point_loads(supports, [position])
    for reactions in (stiff_beam_reactions(beam), spring_reactions(beam, softness)):
        assert reactions.sum() == pytest.approx(1.0)
        assert reactions[0, :, 0] @ np.array(supports) == pytest.approx(position, abs=1e-6)
    assert tributary_reactions(beam).sum() == pytest.approx(1.0)


@given(SUPPORTS, st.floats(-0.5, 1.5))
@settings(max_examples=30, derandomize=True)
def test_springs_lie_between_rigid_supports_and_a_stiff_beam(supports: list[float], place: float) -> None:
    beam = point_loads(supports, [place * supports[-1]])
    np.testing.assert_allclose(spring_reactions(beam, 1e-12), beam.reactions, atol=1e-6)
    np.testing.assert_allclose(spring_reactions(beam, 1e9), stiff_beam_reactions(beam), atol=1e-5)
