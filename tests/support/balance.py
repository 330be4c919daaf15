"""What must hold of every comparison, whatever the job: balance of forces and moments, superposition, the count rule.

Statics is the outside check here: whatever the road does, what goes in must come out.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest

from engine.comparison.compare import Column, Comparison
from engine.comparison.figures import value_of
from engine.design.design import Design
from engine.load_path.demands import Demands
from engine.load_path.module_forces import ModuleForces
from engine.load_path.roof_loads import factors
from engine.mounting.influence import SolvedLines
from engine.units import GRAVITY


def followed(comparison: Comparison) -> list[Column]:
    """The columns that the loads were followed in."""
    return [column for column in comparison.columns if column.design and column.design.candidate]


def traced(comparison: Comparison) -> Iterator[tuple[Design, Demands]]:
    """Their designs, and what these ask of every link."""
    for column in followed(comparison):
        assert column.design
        assert column.design.candidate
        yield column.design, column.design.candidate.demands


def forces_of(comparison: Comparison, design: Design, mass: float | None = None) -> ModuleForces:
    """What each module gives, with its part of all hardware's weight or of so much [kg]."""
    weight = (design.bill.mass if mass is None else mass) * GRAVITY / design.field.modules
    return ModuleForces(design.field, design.loads, comparison.scenario.job.building.slope, weight)


def steady(design: Design, forces: ModuleForces) -> Iterator[tuple[str, np.ndarray, np.ndarray]]:
    """Weight and snow, which no effective wind area changes: case, every module's forces normal to the roof and down the slope."""
    every = np.arange(design.field.modules)
    for case in (*design.loads.weight_cases, *design.loads.snow_cases):
        yield case, *forces.of(case, every, np.ones(len(every)))


def without(cases: tuple[str, ...], demands: Demands) -> np.ndarray:
    """The combinations that have none of these cases."""
    return np.array([not any(combination.factors.get(case) for case in cases) for combination in demands.combinations])


def middles(design: Design) -> tuple[np.ndarray, np.ndarray]:
    """Where every module's middle is, along the eave and up the slope [m]."""
    at = design.field.outlines
    return (at.left + at.right) / 2, (at.low + at.high) / 2


def shares_balance_module_by_module(comparison: Comparison) -> None:
    """Forces and moments about all axes of every module's unit forces."""
    for design, _ in traced(comparison):
        influence, attachments, modules = (
            SolvedLines(design.layout).influence,
            design.layout.attachments,
            design.field.modules,
        )
        one, (middle_x, middle_y) = np.ones(modules), middles(design)
        arm = design.field.attitude.middle - attachments.height
        x, y = attachments.x[influence.attachment], attachments.y[influence.attachment]
        share, in_plane, couple = influence.share, influence.in_plane, influence.couple
        for entries, given in (
            (share, one),
            (share * x, middle_x),
            (share * y, middle_y),
            (in_plane, one),
            (in_plane * x, middle_x),
            (couple, 0 * one),
            (couple * x, 0 * one),
            (
                couple * y,
                -arm * one,
            ),  # a unit force down the slope, `arm` above the points: the couple's forces turn it back
        ):
            np.testing.assert_allclose(np.bincount(influence.module, entries, modules), given, atol=1e-7)


def points_together_carry_what_the_modules_give(comparison: Comparison) -> None:
    """The whole field, case by case: forces, and moments about both axes; wind at each point's own effective area."""
    for design, demands in traced(comparison):
        forces, attachments, influence = (
            forces_of(comparison, design),
            design.layout.attachments,
            SolvedLines(design.layout).influence,
        )
        (x, y), arm = middles(design), design.field.attitude.middle - attachments.height
        for case, normal, in_plane in steady(design, forces):
            carried, along = demands.attachment_cases[case]
            for received, given in (
                (carried.sum(), normal.sum()),
                (along.sum(), in_plane.sum()),
                (carried @ attachments.x, normal @ x),
                (carried @ attachments.y, normal @ y - arm * in_plane.sum()),
            ):
                assert received == pytest.approx(given, rel=1e-9, abs=1e-6)
        for case in design.loads.wind_cases:
            normal, in_plane = forces.of(case, influence.module, demands.attachment_area[influence.attachment])
            given = (influence.share * normal + influence.couple * in_plane).sum()
            assert demands.attachment_cases[case][0].sum() == pytest.approx(given, rel=1e-9)
            assert demands.attachment_cases[case][1].sum() == pytest.approx(
                (influence.in_plane * in_plane).sum(), rel=1e-9, abs=1e-9
            )


def weight_and_snow_pull_straight_down(comparison: Comparison) -> None:
    """What all points get of them is upright, and of the weight it is what the bill weighs."""
    slope = np.radians(comparison.scenario.job.building.slope)
    for design, demands in traced(comparison):
        for case in ("D", *design.loads.snow_cases):
            normal, in_plane = (part.sum() for part in demands.attachment_cases[case])
            down = normal * np.cos(slope) + in_plane * np.sin(slope)
            assert normal * np.sin(slope) - in_plane * np.cos(slope) == pytest.approx(0.0, abs=1e-9 * max(1.0, down))
            if case == "D":
                assert down == pytest.approx(design.bill.mass * GRAVITY, rel=1e-9)


def clamps_together_hold_the_modules(comparison: Comparison) -> None:
    """Normal to the modules, and turning flush ones, in every combination without wind (which each clamp takes at its own area).

    Nothing weighs with them: the hardware hangs below.
    """
    for design, demands in traced(comparison):
        alone = forces_of(comparison, design, comparison.scenario.job.module.mass * design.field.modules)
        tilt = np.radians(design.field.attitude.tilt)
        given = sum(
            (normal * np.cos(tilt) - in_plane * np.sin(tilt)).sum() * factors(demands.combinations, case)
            for case, normal, in_plane in steady(design, alone)
        )
        calm = without(design.loads.wind_cases, demands)
        np.testing.assert_allclose(
            demands.clamp_force[:, calm].sum(axis=0) * design.layout.member.bars, given[calm], rtol=1e-9, atol=1e-6
        )
        if (
            not design.field.attitude.tilt and not design.layout.member.up
        ):  # a shared clamp is told at one module's edge
            (_, y), arm = middles(design), design.field.attitude.middle - design.layout.attachments.height
            turning = sum(
                (normal @ y - arm * in_plane.sum()) * factors(demands.combinations, case)
                for case, normal, in_plane in steady(design, alone)
            )
            np.testing.assert_allclose(
                demands.clamp_position[:, 1] @ demands.clamp_force[:, calm], turning[calm], rtol=1e-9, atol=1e-6
            )


def fastenings_carry_what_the_points_bring(comparison: Comparison) -> None:
    """Forces and moments along every rib, in every combination; brackets on the structure bring a rib nothing."""
    job = comparison.scenario.job
    for design, demands in traced(comparison):
        attachments, normal, in_plane = (
            design.layout.attachments,
            demands.attachment_normal,
            demands.attachment_in_plane,
        )
        if job.roof.solid_deck:
            normal = np.minimum(normal, 0.0)
        if job.hardware.bracket == "structure":
            normal, in_plane = 0 * normal, 0 * in_plane
        for rib, brought in zip(demands.rib, demands.fastening_from_attachments, strict=True):
            here = attachments.rib == rib
            np.testing.assert_allclose(brought.sum(axis=0), normal[here].sum(axis=0), rtol=1e-9, atol=1e-6)
            turned = attachments.y[here] @ normal[here] - attachments.height * in_plane[here].sum(axis=0)
            np.testing.assert_allclose(demands.fastening_y @ brought, turned, rtol=1e-9, atol=1e-6)


def panels_slide_by_what_the_points_bring(comparison: Comparison) -> None:
    """What collects at fixed points, the sheets' own weight with it, in every combination without snow (which slides beside modules too)."""
    job = comparison.scenario.job
    slope = np.radians(job.building.slope)
    for design, demands in traced(comparison):
        sheets = (
            job.roof.panel.weight
            * demands.roof.area[demands.rib].sum()
            * sum(
                (part.downward * np.sin(slope) + part.toward_eave * np.cos(slope)) * factors(demands.combinations, case)
                for case, part in design.loads.weight_cases.items()
            )
        )
        brought = demands.attachment_in_plane.sum(axis=0) * (job.hardware.bracket != "structure") + sheets
        bare = without(design.loads.snow_cases, demands)
        np.testing.assert_allclose(demands.panel_in_plane.sum(axis=0)[bare], brought[bare], rtol=1e-9, atol=1e-6)


def combinations_are_sums_of_cases(comparison: Comparison) -> None:
    """Superposition: each point's force in a combination is the sum of its cases' forces by their factors."""
    for _, demands in traced(comparison):
        for part, combined in enumerate((demands.attachment_normal, demands.attachment_in_plane)):
            by_case = sum(
                np.outer(forces[part], factors(demands.combinations, case))
                for case, forces in demands.attachment_cases.items()
            )
            np.testing.assert_allclose(combined, by_case, rtol=1e-9, atol=1e-6)


def asked(demands: Demands, *, solid_deck: bool) -> list[np.ndarray]:
    """What links are asked to carry, as far as it is in proportion to the loads: a solid deck bears what presses down."""
    of_members = [part for member in demands.members for part in (member.strong, member.weak, member.deflection_ei)]
    of_roof = [] if solid_deck else [demands.fastening, demands.panel_in_plane]
    return [
        demands.module_pressure,
        demands.clamp_force,
        *of_members,
        demands.attachment_normal,
        demands.attachment_in_plane,
        *of_roof,
    ]


def combinations_that_cancel_cancel_in_every_link(comparison: Comparison) -> None:
    """Superposition all the way: (D + S) - D is S for every clamp, member and fastening, and so is whatever adds up to nothing."""
    for _, demands in traced(comparison):
        cases = np.stack([factors(demands.combinations, case) for case in demands.attachment_cases])
        _, sizes, ways = np.linalg.svd(cases)
        nothing = ways[np.count_nonzero(sizes > 1e-9) :].T
        for each in asked(demands, solid_deck=comparison.scenario.job.roof.solid_deck):
            np.testing.assert_allclose(each @ nothing, 0.0, atol=1e-9 * max(1.0, np.abs(each).max(initial=0)))


def the_count_rule_is_a_floor(comparison: Comparison) -> None:
    """Minimum = 2 x (modules + runs) (common practice, no source); what was asked for and falls short of it is flagged."""
    for column in followed(comparison):
        assert column.design
        assert value_of(column, "attachments") is not None
        assert value_of(column, "attachments_minimum") == 2 * (value_of(column, "modules") + value_of(column, "runs"))  # type: ignore[operator]
        short = value_of(column, "attachments") < value_of(column, "attachments_minimum")
        assert short == ("below_count_rule" in {flag.code for flag in column.flags})
        assert not (short and column.design.method.spacing.rule == "fewest")


EVERYTHING = (
    shares_balance_module_by_module,
    points_together_carry_what_the_modules_give,
    weight_and_snow_pull_straight_down,
    clamps_together_hold_the_modules,
    fastenings_carry_what_the_points_bring,
    panels_slide_by_what_the_points_bring,
    combinations_are_sums_of_cases,
    combinations_that_cancel_cancel_in_every_link,
    the_count_rule_is_a_floor,
)
