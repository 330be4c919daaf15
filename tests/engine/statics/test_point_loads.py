"""Purlins as continuous beams: an independent worked example, equilibrium, and the signs of a bay's own loads."""

from __future__ import annotations

import numpy as np
import pytest

from engine.statics.point_loads import PointLoadedBeams

BAY, STEP = 25.0, 0.25
FRAMES = np.arange(6) * BAY
X = np.arange(STEP / 2, 5 * BAY, STEP)
BEFORE, AFTER = 20.5 * 5, 26.68 * 5
"""D + S on a purlin 5 ft wide [lb/ft]."""


def example(*bays: int) -> PointLoadedBeams:
    """Five bays of 25 ft; the array stands in some of them, from 1. Forces of 3 in of purlin each, ft and lb."""
    load = np.where(np.isin(np.floor(X / BAY) + 1, bays), AFTER, BEFORE)
    return PointLoadedBeams(FRAMES, X, (load * STEP)[None, :, None])


def midspan(beams: PointLoadedBeams, bay: int) -> float:
    return float(np.interp((bay - 0.5) * BAY, beams.stations, beams.moments[0, :, 0]))


def support(beams: PointLoadedBeams, number: int) -> float:
    return float(-beams.moments[0, beams.over_support, 0][number])


def test_moments_of_the_worked_example() -> None:
    """Physics 9 D, lb ft, from 20.5 to 26.68 psf, 5 ft apart: midspan of bay 3, first and second inner support."""
    bare, everywhere, bay_3 = example(), example(1, 2, 3, 4, 5), example(3)
    assert midspan(bare, 3) == pytest.approx(2950, rel=2e-3)
    assert midspan(everywhere, 3) == pytest.approx(3840, rel=2e-3)
    assert midspan(bay_3, 3) == pytest.approx(4348, rel=2e-3)
    assert midspan(bay_3, 3) / midspan(bare, 3) == pytest.approx(1.47, abs=5e-3)
    assert support(bare, 1) == pytest.approx(6743, rel=2e-3)
    assert support(everywhere, 1) == pytest.approx(8776, rel=2e-3)
    assert support(bay_3, 1) == pytest.approx(6489, rel=2e-3)
    assert support(bare, 2) == pytest.approx(5058, rel=2e-3)
    assert support(bay_3, 2) == pytest.approx(6074, rel=2e-3)


def test_reactions_and_moments_of_two_spans_under_point_forces() -> None:
    """P at midspan of both of two spans l: .3125 1.375 .3125 P, -.1875 P l over the middle (AISC Manual, Table 3-22)."""
    beams = PointLoadedBeams(np.array([0.0, 10.0, 20.0]), np.array([5.0, 15.0]), np.full((1, 2, 1), 8.0))
    assert beams.reactions[0, :, 0] / 8 == pytest.approx([0.3125, 1.375, 0.3125])
    assert beams.moments[0, :, 0] / 80 == pytest.approx([0, 0.15625, -0.1875, 0.15625, 0], abs=1e-12)
    assert beams.in_simple_spans[0, :, 0] / 80 == pytest.approx([0, 0.25, 0, 0.25, 0], abs=1e-12)


def test_beams_are_in_equilibrium_whatever_acts() -> None:
    """Forces, and moments about the left end; forces beyond the outer supports included."""
    random = np.random.default_rng(4)
    x, supports = np.sort(random.uniform(-1, 41, 30)), np.array([0.0, 9.0, 21.0, 40.0])
    beams = PointLoadedBeams(supports, x, random.normal(0, 100, (4, 30, 6)))
    np.testing.assert_allclose(beams.reactions.sum(axis=1), beams.forces.sum(axis=1), atol=1e-9)
    np.testing.assert_allclose(supports @ beams.reactions, x @ beams.forces, atol=1e-8)
    np.testing.assert_allclose(beams.moments[:, -1], 0, atol=1e-8)
    at = beams.stations[beams.between]
    expected = beams.unit.moments(at[None])[0] @ beams.forces
    np.testing.assert_allclose(beams.moments[:, beams.between], expected, atol=1e-8)


def test_loads_of_a_bay_have_the_sign_of_its_simple_span() -> None:
    """Down in the first bay, up in the second, nothing in the third, where the moment is carried over alone."""
    beams = PointLoadedBeams(
        np.array([0.0, 10, 20, 30]), np.array([0.0, 5, 15, 25]), np.array([3.0, 9, -9, 0])[None, :, None]
    )
    inside = beams.in_simple_spans[0, beams.between, 0]
    assert inside == pytest.approx([22.5, -22.5, 0])
    assert beams.bay[beams.between].tolist() == [0, 1, 2]
    assert beams.between.sum() == 3
