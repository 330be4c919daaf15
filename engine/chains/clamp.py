"""The clamp: what lifts the modules it holds, case by case."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import CalculationStep, Term
from engine.links import Check
from engine.links.clamp import clamp_ratios
from engine.links.trail import Road, told
from engine.links.trail_terms import combined, given, of_case, pounds, products_of, sum_of, used
from engine.load_path.transfer import ClampLoads, effective_area
from engine.strength import strength
from engine.units import FOOT


def clamp(road: Road, check: Check) -> list[CalculationStep]:
    """The worst clamp."""
    demands = road.demands
    ratios = clamp_ratios(demands)
    (which,), number = ratios.governing
    combination = demands.combinations[number]
    if road.layout.member.clamped:
        steps, force = _on_a_line(road, which, number), "K"
    else:
        steps, force = road.force_on_hook(which, number), "N"
    mode = strength(road.job.hardware.clamp_uplift).governing(combination)
    terms = {force: pounds(demands.clamp_force[which, number]), "Ra": pounds(mode.resistance(combination))}
    return [
        *steps,
        *mode.steps,
        mode.resistance_step(combination),
        used("clamp", check.used, f"max(-{force}, 0) / Ra", terms),
    ]


def _on_a_line(road: Road, which: int, number: int) -> list[CalculationStep]:
    (module, share, couple), tilt = (
        ClampLoads.of_layout(road.layout).of_clamp(which),
        np.radians(road.design.field.attitude.tilt),
    )
    area = float(effective_area(share.sum() * road.design.field.area))
    combination, steps, cases = road.demands.combinations[number], list[CalculationStep](), {}
    steps.append(given("A_k", "effective wind area of the clamp", area / FOOT**2, "ft2"))
    for case in combination.factors:
        normal, in_plane = told(road.demands.forces_on_clamps, case, module, area, int(np.argmax(share)), steps)
        off = normal * np.cos(tilt) - in_plane * np.sin(tilt)
        turning = np.flatnonzero(couple * in_plane)
        products = products_of("c", share, "", "P", off) + products_of("c", couple[turning], "", "P", in_plane[turning])
        cases[case] = sum(product.size for product in products)
        meaning = f"{case}: on the clamp, by share and force normal to the modules it holds"
        steps.append(sum_of(of_case("K", case), meaning, Term(cases[case], "lb"), products))
    total = pounds(road.demands.clamp_force[which, number])
    return [*steps, combined("K", "force on the clamp (down positive)", total, combination, cases)]
