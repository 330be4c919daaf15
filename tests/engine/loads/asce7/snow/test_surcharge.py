"""The integral of a surcharge over parts of a roof, by hand and against fine sums; and which of several counts."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.common.calculation import CalculationStep
from engine.loads.asce7 import snow
from engine.loads.asce7.references import clause
from engine.mounting.layout import Rectangles
from engine.units import FOOT
from support import assert_told

SOURCE = clause("ASCE 7-16", "§7.7.1")
DRIFT = snow.Profile(20.0, 0.0, 10.0, SOURCE)
"""20 psf at the step, 0 at 10 ft."""


def laid(profile: snow.Profile = DRIFT, *, along: bool = False, outward: int = 1, face: float = 0.0, gap: float = 0.0):
    return snow.Surcharge(profile, along, outward, face, (0.0, 50.0), gap)


def plan(*sides: float) -> Rectangles:
    """One rectangle: left, low, right, high [ft]."""
    return Rectangles(*(np.array([side]) for side in sides))


@pytest.mark.parametrize(
    ("sides", "mean"),
    [
        ((0, 0, 2, 10), 10.0),  # all of the triangle
        ((0, 0, 2, 5), 15.0),
        ((0, 5, 2, 10), 5.0),
        ((0, 0, 2, 20), 5.0),  # half of it beyond the drift
        ((0, 9, 2, 11), 0.5),  # 1 ft at a mean of 1 psf, over 2 ft
        ((0, 10, 2, 12), 0.0),
        ((49, 0, 51, 10), 5.0),  # half of it beyond the step's end
        ((0, -5, 2, 5), 7.5),  # half of it behind the step
    ],
)
def test_the_mean_over_a_part_is_its_integral(sides: tuple[float, ...], mean: float) -> None:
    assert laid().mean(plan(*sides))[0] == pytest.approx(mean)
    assert snow.mean_of_all([laid()], plan(*sides))[0] == pytest.approx(mean)


def test_four_directions_are_mirror_images() -> None:
    mirrored = {
        (False, -1): (3, 40 - 7, 5, 40 - 2),
        (True, 1): (2, 3, 7, 5),
        (True, -1): (40 - 7, 3, 40 - 2, 5),
    }
    expected = laid().mean(plan(3, 2, 5, 7))[0]
    for (along, outward), sides in mirrored.items():
        there = laid(along=along, outward=outward, face=0.0 if outward > 0 else 40.0)
        assert there.mean(plan(*sides))[0] == pytest.approx(expected)


def test_over_a_gap_the_near_part_falls_beside_the_roof() -> None:
    """A gap of 4 ft: 12 psf at the roof's edge, 0 at 6 ft."""
    beyond = laid(gap=4.0)
    assert beyond.largest(plan(0, 0, 2, 1))[0] == pytest.approx(12.0)
    assert beyond.mean(plan(0, 0, 2, 6))[0] == pytest.approx(6.0)
    assert not laid(gap=10.0).covers(plan(0, 0, 2, 1))[0]


@given(st.floats(-5, 15), st.floats(0.1, 12), st.floats(0, 5))
@settings(max_examples=60, derandomize=True)
def test_the_mean_agrees_with_a_fine_sum(low: float, depth: float, gap: float) -> None:
    fine = low + depth * (np.arange(20_000) + 0.5) / 20_000
    pressure = np.where((fine >= 0) & (fine + gap <= 10), 20 - 2 * (fine + gap), 0.0)
    found = laid(gap=gap).mean(plan(0, low, 2, low + depth))[0]
    assert found == pytest.approx(pressure.mean(), abs=0.005)


def test_of_several_in_one_direction_the_larger_counts() -> None:
    near, far = laid(face=6.0), laid()
    assert snow.mean_of_all([near, far], plan(0, 6, 2, 8))[0] == pytest.approx(18.0)
    assert snow.mean_of_all([far, near], plan(0, 2, 2, 4))[0] == pytest.approx(14.0)


def test_where_two_directions_meet_no_more_counts_than_the_largest_pressure() -> None:
    """Steps 6 ft apart: the mean of the larger at each place is 17 psf; counted is the largest, 20, not the sum 28.

    Far apart the sum is smaller: 2 + 2 psf between 8 and 10 ft of steps 18 ft apart, where the larger has 2 psf.
    """
    close = [laid(), laid(outward=-1, face=6.0)]
    assert snow.mean_of_all(close, plan(0, 0, 2, 6))[0] == pytest.approx(20.0)
    apart = [laid(), laid(outward=-1, face=18.0)]
    assert snow.mean_of_all(apart, plan(0, 8, 2, 10))[0] == pytest.approx(4.0)


@given(st.floats(0, 20), st.floats(0.5, 8), st.floats(0, 20))
@settings(max_examples=60, derandomize=True)
def test_the_mean_is_never_less_than_that_of_the_larger_at_each_point(low: float, depth: float, face: float) -> None:
    both = [laid(), laid(outward=-1, face=face)]
    edges = low + depth * np.arange(501) / 500
    strips = Rectangles(np.zeros(500), edges[:-1], np.full(500, 2.0), edges[1:])
    exact = np.maximum(both[0].mean(strips), both[1].mean(strips)).mean()
    whole = plan(0, low, 2, low + depth)
    assert snow.mean_of_all(both, whole)[0] >= exact - 1e-9
    assert snow.largest_of_all(both, whole)[0] >= exact - 1e-9


def test_lengths_up_the_slope_are_measured_on_plan() -> None:
    at = snow.plan_of(Rectangles(*(np.array([value * FOOT]) for value in (1.0, 10.0, 3.0, 20.0))), 60.0)
    assert (at.left[0], at.right[0]) == pytest.approx((1.0, 3.0))
    assert (at.low[0], at.high[0]) == pytest.approx((5.0, 10.0))


@pytest.mark.parametrize("partly", [None, True, False])
def test_steps_can_be_evaluated_again(partly: bool | None) -> None:
    surcharges = (laid(), laid(along=True))
    chosen = None if partly is None else np.array([partly])
    steps = list[CalculationStep]()
    found = snow.with_surcharge("ASCE 7-16", np.array([15.0]), surcharges, plan(1, 1, 3, 4), chosen, steps.append)
    assert_told(steps)
    assert steps[-1].result.value == pytest.approx(found[0])
    assert found[0] == pytest.approx(15.0 + 18.0)  # at the near side in both directions; 15 + 16 psf would be more


def test_a_partly_covered_part_takes_the_largest_pressure() -> None:
    at = Rectangles(*(np.array(side, dtype=np.float64) for side in ([0, 0], [2, 2], [2, 2], [7, 7])))
    found = snow.with_surcharge("ASCE 7-16", np.zeros(2), (laid(),), at, np.array([True, False]))
    assert found.tolist() == pytest.approx([16.0, 11.0])
