"""Explanation of the pressure normal to a module, which its rating and the overhang of its frame both need."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import CalculationStep, Term
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import case_symbol, combination_step, value_step
from engine.units import PSF


def pressure_steps(trail: CalculationTrail, module: int, number: int) -> list[CalculationStep]:
    """Steps to the pressure normal to a module in a combination, by their numbers; the last one is the pressure."""
    demands, loads = trail.demands, trail.demands.loads
    combination, area = demands.combinations[number], np.array([demands.field.area])
    here, steps, pressures = np.array([module]), list[CalculationStep](), {}
    for case in combination.factors:
        if case in loads.wind_cases:
            loads.wind(case, here, area, steps.append)
        elif case in loads.snow_cases:
            loads.snow(case, here, steps.append)
        pressures[case] = float(demands.forces_on_clamps.pressure(case)[module]) / PSF
        meaning = f"{case}: pressure normal to the module, at its own area"
        steps.append(value_step(case_symbol("p", case), meaning, pressures[case], "psf"))
    pressure = Term(float(demands.module_pressure[module, number]) / PSF, "psf")
    meaning = "pressure normal to the module (down positive)"
    return [*steps, combination_step("p", meaning, pressure, combination, pressures)]
