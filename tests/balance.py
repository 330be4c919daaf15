"""What must hold of every comparison, whatever the job: balance of forces and moments, superposition, the count rule.

Statics is the outside check here: whatever the road does, what goes in must come out.
"""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison import Column, Comparison
from engine.influence import solve
from engine.module_forces import ModuleForces
from engine.roof_state import factors
from engine.units import GRAVITY


def followed(comparison: Comparison) -> list[Column]:
    return [column for column in comparison.columns if column.design and column.design.attempt]


def shares_balance_module_by_module(comparison: Comparison) -> None:
    """Forces and moments about both axes of every module's unit forces."""
    for column in followed(comparison):
        design = column.design
        assert design
        layout, field = design.layout, design.field
        influence, points = solve(layout).influence, layout.points
        one = np.ones(field.modules)
        arm = field.attitude.middle - points.height
        x, y = points.x[influence.point], points.y[influence.point]
        middle_x = (field.outlines.left + field.outlines.right) / 2
        middle_y = (field.outlines.low + field.outlines.high) / 2

        def per_module(values: np.ndarray, influence: object = influence, field: object = field) -> np.ndarray:
            return np.bincount(influence.module, values, field.modules)  # type: ignore[attr-defined]

        np.testing.assert_allclose(per_module(influence.share), one, atol=1e-9)
        np.testing.assert_allclose(per_module(influence.share * x), middle_x, atol=1e-7)
        np.testing.assert_allclose(per_module(influence.share * y), middle_y, atol=1e-7)
        np.testing.assert_allclose(per_module(influence.in_plane), one, atol=1e-9)
        np.testing.assert_allclose(per_module(influence.couple), 0 * one, atol=1e-9)
        # a unit force down the slope, `arm` above the points, turns by arm: the couple's forces turn it back
        np.testing.assert_allclose(per_module(influence.couple * y), -arm * one, atol=1e-7)


def points_together_carry_what_the_modules_give(comparison: Comparison) -> None:
    """The whole field, case by case, at each point's own effective area."""
    for column in followed(comparison):
        design = column.design
        assert design
        assert design.attempt
        layout, field, demands = design.layout, design.field, design.attempt.demands
        weight = design.bill.mass * GRAVITY / field.modules
        forces = ModuleForces(field, design.loads, comparison.scenario.job.building.slope, weight)
        influence = solve(layout).influence
        for case in ("D", *design.loads.snow_cases):
            normal, in_plane = forces.of(case, np.arange(field.modules), np.ones(field.modules))
            points_normal, points_in_plane = demands.point_cases[case]
            assert points_normal.sum() == pytest.approx(normal.sum(), rel=1e-9)
            assert points_in_plane.sum() == pytest.approx(in_plane.sum(), rel=1e-9, abs=1e-9)
        for case in design.loads.wind_cases:
            normal, in_plane = forces.of(case, influence.module, demands.point_area[influence.point])
            given = (influence.share * normal + influence.couple * in_plane).sum()
            assert demands.point_cases[case][0].sum() == pytest.approx(given, rel=1e-9)


def fastenings_carry_what_the_points_bring(comparison: Comparison) -> None:
    """Forces and moments along every rib, in every combination."""
    job = comparison.scenario.job
    for column in followed(comparison):
        design = column.design
        assert design
        assert design.attempt
        demands, points = design.attempt.demands, design.layout.points
        normal = np.minimum(demands.point_normal, 0.0) if job.roof.solid_deck else demands.point_normal
        for row, rib in enumerate(demands.rib):
            here = points.rib == rib
            brought = demands.fastening_points[row]
            np.testing.assert_allclose(brought.sum(axis=0), normal[here].sum(axis=0), rtol=1e-9, atol=1e-6)
            turned = (points.y[here, None] * normal[here] - points.height * demands.point_in_plane[here]).sum(axis=0)
            np.testing.assert_allclose((demands.fastening_y[:, None] * brought).sum(axis=0), turned, rtol=1e-9, atol=1e-6)


def the_count_rule_is_a_floor(comparison: Comparison) -> None:
    """Minimum = 2 x (modules + runs) (common practice, no source)."""
    for column in followed(comparison):
        assert column.design
        assert column.minimum == 2 * (column.modules + column.runs)  # type: ignore[operator]
        if column.design.method.spacing.rule == "fewest":
            assert column.attachments is not None
            assert column.attachments >= column.minimum  # type: ignore[operator]


def combinations_are_sums_of_cases(comparison: Comparison) -> None:
    """Superposition: each point's force in a combination is the sum of its cases' forces by their factors."""
    for column in followed(comparison):
        assert column.design
        assert column.design.attempt
        demands = column.design.attempt.demands
        for part, combined in ((0, demands.point_normal), (1, demands.point_in_plane)):
            by_case = sum(forces[part][:, None] * factors(demands.combinations, case) for case, forces in demands.point_cases.items())
            np.testing.assert_allclose(combined, by_case, rtol=1e-9, atol=1e-6)


EVERYTHING = (
    shares_balance_module_by_module,
    points_together_carry_what_the_modules_give,
    fastenings_carry_what_the_points_bring,
    combinations_are_sums_of_cases,
    the_count_rule_is_a_floor,
)
