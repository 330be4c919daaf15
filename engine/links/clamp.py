"""The module clamp: uplift of a module's edge off what carries it."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import CalculationStep, Term
from engine.links.check import Check, Location, governing_check
from engine.links.link import Link
from engine.links.ratios import DemandOverResistance, resistances
from engine.links.trail import CalculationTrail, recorded_forces
from engine.links.trail_terms import (
    case_symbol,
    combination_step,
    pounds,
    products_of,
    sum_step,
    utilisation_step,
    value_step,
)
from engine.load_path.demands import Demands
from engine.load_path.transfer import ClampLoads, effective_area
from engine.strength import strength
from engine.units import FOOT


def clamp_ratios(demands: Demands) -> DemandOverResistance:
    """Uplift over allowable of every clamp, shape (K, C); a clamp between two modules carries its part of both."""
    allowable = resistances(strength(demands.job.hardware.clamp_uplift), demands.combinations)
    return DemandOverResistance(np.maximum(-demands.clamp_force, 0.0), allowable)


def check_clamp(demands: Demands) -> Check:
    """The clamp with the largest utilisation."""

    def place(clamp: int) -> Location:
        return Location("clamp", *map(float, demands.clamp_position[clamp]))

    return governing_check("clamp", "module clamp", "force", clamp_ratios(demands), demands.combinations, place)


def explain_clamp(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the controlling clamp's uplift and its utilisation."""
    demands = trail.demands
    (clamp,), number = clamp_ratios(demands).governing
    combination = demands.combinations[number]
    if trail.layout.member.clamped:
        steps, force = _force_on_line_clamp(trail, clamp, number), "K"
    else:
        steps, force = trail.module_hook_force(clamp, number), "N"
    mode = strength(trail.job.hardware.clamp_uplift).governing(combination)
    terms = {force: pounds(demands.clamp_force[clamp, number]), "Ra": pounds(mode.resistance(combination))}
    utilisation = utilisation_step("clamp", check.ratio, f"max(-{force}, 0) / Ra", terms)
    return [*steps, *mode.steps, mode.resistance_step(combination), utilisation]


def _force_on_line_clamp(trail: CalculationTrail, clamp: int, number: int) -> list[CalculationStep]:
    """Steps to the force on a clamp that sits on a rail or rack beam."""
    demands, field = trail.demands, trail.demands.field
    (module, share, couple), tilt = ClampLoads.of_lines(trail.layout).of_clamp(clamp), np.radians(field.attitude.tilt)
    area = float(effective_area(share.sum() * field.area))
    combination, steps, cases = demands.combinations[number], list[CalculationStep](), {}
    steps.append(value_step("A_k", "effective wind area of the clamp", area / FOOT**2, "ft2"))
    for case in combination.factors:
        largest = int(np.argmax(share))
        normal, in_plane = recorded_forces(demands.forces_on_clamps, case, module, area, largest, steps)
        off_module = normal * np.cos(tilt) - in_plane * np.sin(tilt)
        turning = np.flatnonzero(couple * in_plane)
        products = products_of("c", share, "", "P", off_module)
        products += products_of("c", couple[turning], "", "P", in_plane[turning])
        cases[case] = sum(product.value for product in products)
        meaning = f"{case}: force on the clamp, by share and force normal to the modules it holds"
        steps.append(sum_step(case_symbol("K", case), meaning, Term(cases[case], "lb"), products))
    total = pounds(demands.clamp_force[clamp, number])
    return [*steps, combination_step("K", "force on the clamp (down positive)", total, combination, cases)]


LINK = Link(
    "clamp",
    title=lambda job: "module clamp",
    help=lambda job: "the clamp that holds a module's edge, in uplift",
    check=check_clamp,
    explain=explain_clamp,
    strengths=lambda job, check: ("hardware.clamp_uplift",),
)
