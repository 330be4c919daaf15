"""Checks that must hold for every comparison: equilibrium, superposition and the minimum by rule of practice.

The loads applied to the modules must leave the load path at every link: statics is the independent check.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest

from engine.comparison.compare import Column, Comparison
from engine.comparison.figures import value_of
from engine.design.design import Design
from engine.load_path import transfer
from engine.load_path.bare_roof import factors
from engine.load_path.demands import Demands
from engine.load_path.module_forces import ModuleForces
from engine.mounting.influence import SolvedLines
from engine.units import GRAVITY


def checked_columns(comparison: Comparison) -> list[Column]:
    """The columns of methods that were checked."""
    return [column for column in comparison.columns if column.design and column.design.candidate]


def checked_designs(comparison: Comparison) -> Iterator[tuple[Design, Demands]]:
    """The designs that were checked, with the loads on their links."""
    for column in checked_columns(comparison):
        assert column.design
        assert column.design.candidate
        yield column.design, column.design.candidate.demands


def forces_of(comparison: Comparison, design: Design, mass: float | None = None) -> ModuleForces:
    """Forces of the modules, with all hardware, or with a total `mass` of modules and hardware [kg]."""
    weight = (design.bill.mass if mass is None else mass) * GRAVITY / design.field.modules
    return ModuleForces(design.field, design.loads, comparison.scenario.job.building.slope, weight)


def weight_and_snow(design: Design, forces: ModuleForces) -> Iterator[tuple[str, np.ndarray, np.ndarray]]:
    """Case, and forces of all modules normal to the roof and down the slope, for cases without effective wind areas."""
    every = np.arange(design.field.modules)
    for case in (*design.loads.weight_cases, *design.loads.snow_cases):
        yield case, *forces.of(case, every, np.ones(len(every)))


def combinations_without(cases: tuple[str, ...], demands: Demands) -> np.ndarray:
    """True for the combinations that contain none of these cases (C,)."""
    return np.array([not any(combination.factors.get(case) for case in cases) for combination in demands.combinations])


def middles(design: Design) -> tuple[np.ndarray, np.ndarray]:
    """Middles of all modules, along the eave and up the slope, (M,) each [m]."""
    at = design.field.outlines
    return (at.left + at.right) / 2, (at.low + at.high) / 2


def shares_of_every_module_are_in_equilibrium(comparison: Comparison) -> None:
    """Forces and moments about all axes, for unit forces on every module."""
    for design, _ in checked_designs(comparison):
        influence, attachments = SolvedLines(design.layout).influence, design.layout.attachments
        modules = design.field.modules
        one, (middle_x, middle_y) = np.ones(modules), middles(design)
        arm = design.field.attitude.middle - attachments.height
        x, y = attachments.x[influence.attachment], attachments.y[influence.attachment]
        share, in_plane, couple = influence.share, influence.in_plane, influence.couple
        for entries, applied in (
            (share, one),
            (share * x, middle_x),
            (share * y, middle_y),
            (in_plane, one),
            (in_plane * x, middle_x),
            (couple, 0 * one),
            (couple * x, 0 * one),
            # A unit force down the slope acts `arm` above the attachments: the couple's forces balance its moment.
            (couple * y, -arm * one),
        ):
            np.testing.assert_allclose(np.bincount(influence.module, entries, modules), applied, atol=1e-7)


def attachments_together_carry_the_forces_of_the_modules(comparison: Comparison) -> None:
    """Forces, and moments about both axes, of the whole field in each case.

    Wind acts at each attachment's effective area.
    """
    for design, demands in checked_designs(comparison):
        forces, attachments = forces_of(comparison, design), design.layout.attachments
        influence = SolvedLines(design.layout).influence
        (x, y), arm = middles(design), design.field.attitude.middle - attachments.height
        for case, normal, in_plane in weight_and_snow(design, forces):
            carried, along = demands.attachment_cases[case]
            for received, applied in (
                (carried.sum(), normal.sum()),
                (along.sum(), in_plane.sum()),
                (carried @ attachments.x, normal @ x),
                (carried @ attachments.y, normal @ y - arm * in_plane.sum()),
            ):
                assert received == pytest.approx(applied, rel=1e-9, abs=1e-6)
        for case in design.loads.wind_cases:
            normal, in_plane = forces.of(case, influence.module, demands.attachment_area[influence.attachment])
            to_roof = (influence.share * normal + influence.couple * in_plane).sum()
            along_slope = (influence.in_plane * in_plane).sum()
            assert demands.attachment_cases[case][0].sum() == pytest.approx(to_roof, rel=1e-9)
            assert demands.attachment_cases[case][1].sum() == pytest.approx(along_slope, rel=1e-9, abs=1e-9)


def weight_and_snow_act_vertically(comparison: Comparison) -> None:
    """Their sum over all attachments is vertical, and that of the weight equals the weight of the bill."""
    slope = np.radians(comparison.scenario.job.building.slope)
    for design, demands in checked_designs(comparison):
        for case in ("D", *design.loads.snow_cases):
            normal, in_plane = (part.sum() for part in demands.attachment_cases[case])
            down = normal * np.cos(slope) + in_plane * np.sin(slope)
            assert normal * np.sin(slope) - in_plane * np.cos(slope) == pytest.approx(0.0, abs=1e-9 * max(1.0, down))
            if case == "D":
                assert down == pytest.approx(design.bill.mass * GRAVITY, rel=1e-9)


def clamps_by_beams(demands: Demands) -> np.ndarray:
    """Forces of the clamps in equilibrium (K, C): on hooks those of continuous beams, not the largest near the ends."""
    return demands.clamp_force if demands.layout.member.clamped else demands.on_hooks.normal_by_beams


def fastening_by_beams(demands: Demands) -> np.ndarray:
    """Load on each fastening (R, F, C) [N], with lines as continuous beams to their very ends."""
    ribs = transfer.loaded_ribs(
        demands.job, demands.roof, demands.layout, demands.on_attachments.normal_by_beams, demands.attachment_in_plane
    )
    return ribs.reactions + demands.fastening_from_surface


def clamps_together_hold_the_modules(comparison: Comparison) -> None:
    """Forces normal to the modules, and moments of flush modules, in every combination without wind.

    Wind is left out because it acts at each clamp's own effective area. No hardware lies above the clamps.
    """
    for design, demands in checked_designs(comparison):
        alone = forces_of(comparison, design, comparison.scenario.job.module.mass * design.field.modules)
        tilt = np.radians(design.field.attitude.tilt)
        applied = sum(
            (normal * np.cos(tilt) - in_plane * np.sin(tilt)).sum() * factors(demands.combinations, case)
            for case, normal, in_plane in weight_and_snow(design, alone)
        )
        calm = combinations_without(design.loads.wind_cases, demands)
        held = clamps_by_beams(demands)
        carried = held[:, calm].sum(axis=0) * design.layout.member.bars
        np.testing.assert_allclose(carried, applied[calm], rtol=1e-9, atol=1e-6)
        # Up the slope a clamp shared by two modules has the position of one module's edge: no moment balance there.
        if not design.field.attitude.tilt and not design.layout.member.runs_up_slope:
            (_, y), arm = middles(design), design.field.attitude.middle - design.layout.attachments.height
            moment = sum(
                (normal @ y - arm * in_plane.sum()) * factors(demands.combinations, case)
                for case, normal, in_plane in weight_and_snow(design, alone)
            )
            of_clamps = demands.clamp_position[:, 1] @ held[:, calm]
            np.testing.assert_allclose(of_clamps, moment[calm], rtol=1e-9, atol=1e-6)


def fastenings_carry_the_forces_of_attachments(comparison: Comparison) -> None:
    """Forces and moments along every rib in every combination; attachments on the structure do not load ribs."""
    job = comparison.scenario.job
    for design, demands in checked_designs(comparison):
        attachments = design.layout.attachments
        normal, in_plane = demands.attachment_normal, demands.attachment_in_plane
        if job.roof.solid_deck:
            normal = np.minimum(normal, 0.0)
        if job.hardware.bypasses_sheet:
            normal, in_plane = 0 * normal, 0 * in_plane
        for rib, reactions in zip(demands.rib, demands.fastening_from_attachments, strict=True):
            on_rib = attachments.rib == rib
            np.testing.assert_allclose(reactions.sum(axis=0), normal[on_rib].sum(axis=0), rtol=1e-9, atol=1e-6)
            moment = attachments.y[on_rib] @ normal[on_rib] - attachments.height * in_plane[on_rib].sum(axis=0)
            np.testing.assert_allclose(demands.fastening_y @ reactions, moment, rtol=1e-9, atol=1e-6)


def members_carry_the_forces_of_attachments_and_of_the_roof(comparison: Comparison) -> None:
    """Forces, and moments about their start: attachments, and the surface of purlins, come to the members in full."""
    roof = comparison.scenario.job.roof
    for _, demands in checked_designs(comparison):
        members, at = demands.roof_members, demands.layout.attachments
        assert (members is None) == (roof.solid_deck and roof.stated_member is None)
        if members is None:
            continue
        # Only where spans are stated, wind acts at other areas here than on attachments and fastenings.
        windless = combinations_without(demands.loads.wind_cases if members.supports is not None else (), demands)
        given, normal = members.from_attachments.sum(axis=0), demands.attachment_normal
        given, normal = given[..., windless], normal[..., windless]
        np.testing.assert_allclose(given.sum(axis=0), normal.sum(axis=0), rtol=1e-9, atol=1e-6)
        along = at.y if members.up_slope else at.x
        np.testing.assert_allclose(members.along @ given, along @ normal, rtol=1e-6, atol=1e-5)
        if roof.solid_deck:
            continue  # walls carry the surface beyond the outermost members of a deck
        dead = members.from_surface - demands.roof.surface_force.swapaxes(0, 1)
        bare = members.without_array - demands.roof.without_array.swapaxes(0, 1)
        np.testing.assert_allclose(dead[..., windless], bare[..., windless], rtol=1e-9, atol=1e-6)


def panel_anchorages_carry_along_slope_loads(comparison: Comparison) -> None:
    """Sum over panels of forces from attachments and the sheets' own weight, in every combination without snow.

    Snow is left out because it also slides beside the modules.
    """
    job = comparison.scenario.job
    slope = np.radians(job.building.slope)
    for design, demands in checked_designs(comparison):
        weight = job.roof.panel.weight * demands.roof.area[demands.rib].sum()
        sheets = weight * sum(
            (part.downward * np.sin(slope) + part.toward_eave * np.cos(slope)) * factors(demands.combinations, case)
            for case, part in design.loads.weight_cases.items()
        )
        applied = demands.attachment_in_plane.sum(axis=0) * (not job.hardware.bypasses_sheet) + sheets
        snowless = combinations_without(design.loads.snow_cases, demands)
        carried = demands.panel_in_plane.sum(axis=0)
        np.testing.assert_allclose(carried[snowless], applied[snowless], rtol=1e-9, atol=1e-6)


def combinations_are_sums_of_cases(comparison: Comparison) -> None:
    """Superposition: the force on an attachment in a combination is the sum of its cases' forces by their factors."""
    for _, demands in checked_designs(comparison):
        for part, combined in enumerate((demands.on_attachments.normal_by_beams, demands.attachment_in_plane)):
            by_case = sum(
                np.outer(forces[part], factors(demands.combinations, case))
                for case, forces in demands.attachment_cases.items()
            )
            np.testing.assert_allclose(combined, by_case, rtol=1e-9, atol=1e-6)


def linear_demands(demands: Demands, *, solid_deck: bool) -> list[np.ndarray]:
    """Loads on links that are proportional to the loads on modules; on a solid deck those on ribs are not."""
    of_members = [part for member in demands.members for part in (member.strong, member.weak, member.deflection_ei)]
    # Near the ends of lines the largest of several ways counts, which is no sum: the beams alone are superposed.
    of_roof = [] if solid_deck else [fastening_by_beams(demands), demands.panel_in_plane]
    return [
        demands.module_pressure,
        clamps_by_beams(demands),
        *of_members,
        demands.on_attachments.normal_by_beams,
        demands.attachment_in_plane,
        *of_roof,
    ]


def combinations_that_cancel_do_so_in_every_link(comparison: Comparison) -> None:
    """Superposition in every link: sums of combinations whose load cases cancel, such as (D + S) - D - S, are zero."""
    for _, demands in checked_designs(comparison):
        cases = np.stack([factors(demands.combinations, case) for case in demands.attachment_cases])
        _, singular_values, directions = np.linalg.svd(cases)
        null_space = directions[np.count_nonzero(singular_values > 1e-9) :].T
        for each in linear_demands(demands, solid_deck=comparison.scenario.job.roof.solid_deck):
            np.testing.assert_allclose(each @ null_space, 0.0, atol=1e-9 * max(1.0, np.abs(each).max(initial=0)))


def the_minimum_by_rule_of_practice_is_kept(comparison: Comparison) -> None:
    """Minimum = 2 x (modules + runs) (common practice, no source); a stated spacing below it is flagged."""
    for column in checked_columns(comparison):
        assert column.design
        assert value_of(column, "attachments") is not None
        assert value_of(column, "attachments_minimum") == 2 * (value_of(column, "modules") + value_of(column, "runs"))  # type: ignore[operator]
        short = value_of(column, "attachments") < value_of(column, "attachments_minimum")
        assert short == ("below_count_rule" in {flag.code for flag in column.flags})
        assert not (short and column.design.method.spacing.rule == "fewest")


CHECKS = (
    shares_of_every_module_are_in_equilibrium,
    attachments_together_carry_the_forces_of_the_modules,
    weight_and_snow_act_vertically,
    clamps_together_hold_the_modules,
    fastenings_carry_the_forces_of_attachments,
    members_carry_the_forces_of_attachments_and_of_the_roof,
    panel_anchorages_carry_along_slope_loads,
    combinations_are_sums_of_cases,
    combinations_that_cancel_do_so_in_every_link,
    the_minimum_by_rule_of_practice_is_kept,
)
