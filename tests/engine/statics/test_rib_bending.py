"""Bending of ribs: exact extremes, against a handbook's two-span beam and against influence lines at many stations."""

from __future__ import annotations

import numpy as np
import pytest

from engine.statics.continuous_beam import UnitCouples, UnitForces, solve_beams
from engine.statics.rib_bending import LoadedRibs, RibActions
from engine.statics.rib_supports import RibGroup


def on_fastenings(y: list[float], top: float) -> RibGroup:
    """A group of one rib; each fastening holds the panel half-way to its neighbours."""
    at = np.array(y)
    middles = (at[:-1] + at[1:]) / 2
    low, high = np.concatenate([[0.0], middles]), np.concatenate([middles, [top]])
    return RibGroup(np.array([0]), np.arange(len(y)), at, low, high)


@pytest.mark.parametrize("way", [1.0, -1.0], ids=["pressed", "lifted"])
def test_two_equal_spans_agree_with_a_handbook(way):
    # Steel Construction Manual, beam tables, two equal spans under an even load: 9 w L²/128 at 3 L/8, w L²/8 over the
    # middle support (from memory; both follow from the three-moment equation by hand).
    group, span, load = on_fastenings([0.0, 2.0, 4.0], 4.0), 2.0, 500.0 * way
    surface_force = (load * (group.high - group.low))[None, :, None]
    rib_moments = LoadedRibs(group.ribs, group.y, (group,), RibActions.surface_only(surface_force)).rib_moments
    extremes = rib_moments.extremes[0, :, 0] * way
    assert extremes.min() == pytest.approx(-abs(load) * span**2 / 8)
    assert extremes.max() == pytest.approx(9 * abs(load) * span**2 / 128)
    assert rib_moments.position(0, int(np.argmax(extremes)), 0) in (
        pytest.approx(3 * span / 8),
        pytest.approx(2 * span - 3 * span / 8),
    )


def test_extremes_bound_the_moments_everywhere():
    random = np.random.default_rng(6)
    group = on_fastenings([0.3, 1.5, 2.9, 4.1, 5.4], 5.8)
    y = np.array([0.1, 0.9, 2.2, 3.1, 5.0, 5.7])
    normal_forces, couples = random.normal(0, 900, (1, 6, 4)), random.normal(0, 60, (1, 6, 4))
    surface_force = random.normal(0, 800, (1, 5, 4))
    ribs = LoadedRibs(group.ribs, group.y, (group,), RibActions(y, normal_forces, couples, surface_force))
    brought, rib_moments = ribs.reactions, ribs.rib_moments

    supports, within = group.y[None], rib_moments.y[(rib_moments.y >= group.y[0]) & (rib_moments.y <= group.y[-1])]
    everywhere = np.union1d(np.linspace(group.y[0], group.y[-1], 20_001), within)[
        None
    ]  # a peak is missed by less than w (0.3 mm)² / 8
    spread = solve_beams(supports, UnitForces(group.low[None], group.high[None]))
    pressed, turned = (
        solve_beams(supports, loads(y))
        for loads in (lambda y: UnitForces(y[None], y[None]), lambda y: UnitCouples(y[None]))
    )
    pressed_there, turned_there, spread_there = (each.moments(everywhere)[0] for each in (pressed, turned, spread))
    moments = pressed_there @ normal_forces[0] + turned_there @ couples[0] + spread_there @ surface_force[0]
    assert brought[0] == pytest.approx(pressed.reactions[0] @ normal_forces[0] + turned.reactions[0] @ couples[0])
    for number in range(4):
        extremes = rib_moments.extremes[0, :, number]
        assert extremes.max() == pytest.approx(moments[:, number].max(), abs=1e-4)
        assert extremes.min() == pytest.approx(moments[:, number].min(), abs=1e-4)
        item = int(np.argmax(extremes))
        here = float(np.interp(rib_moments.position(0, item, number), everywhere[0], moments[:, number]))
        assert here == pytest.approx(extremes[item], abs=1e-4)


def test_overhangs_bend_the_rib_over_its_outer_fastenings():
    """w c²/2 over each, by hand: 400 N/m, 0.5 m below the lower fastening and 1 m above the upper one."""
    group = on_fastenings([0.5, 2.0], 3.0)
    rib_moments = LoadedRibs(
        group.ribs, group.y, (group,), RibActions.surface_only(400 * (group.high - group.low)[None, :, None])
    ).rib_moments
    moments = dict(zip(rib_moments.y.tolist(), rib_moments.moment[0, :, 0].tolist(), strict=True))
    assert moments[0.5] == pytest.approx(-400 * 0.5**2 / 2)
    assert moments[2.0] == pytest.approx(-400 * 1.0**2 / 2)
    assert moments[0.0] == moments[3.0] == 0.0


def test_moments_between_two_positions_are_unchanged():
    group = on_fastenings([0.0, 1.0, 2.0, 3.0], 3.0)
    rib_moments = LoadedRibs(
        group.ribs, group.y, (group,), RibActions.surface_only(np.array([[[500.0], [-900.0], [700.0], [300.0]]]))
    ).rib_moments
    np.testing.assert_allclose(rib_moments.positions[: len(rib_moments.y)], rib_moments.y)
    np.testing.assert_allclose(
        rib_moments.positions[len(rib_moments.y) :], rib_moments.y[:-1] + np.diff(rib_moments.y) / 2
    )
    stretch = rib_moments.between(1.0, 2.0)
    kept = (rib_moments.y >= 1.0) & (rib_moments.y <= 2.0)
    assert stretch.y == pytest.approx(rib_moments.y[kept])
    assert stretch.moment == pytest.approx(rib_moments.moment[:, kept])
    assert stretch.extremes.shape == (1, 2 * kept.sum() - 1, 1)
