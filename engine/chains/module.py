"""The module: the pressure normal to it, case by case, against its maker's rating."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import CalculationStep, Term
from engine.links import Check
from engine.links.module import module_ratios
from engine.links.trail import Road
from engine.links.trail_terms import combined, given, of_case, used
from engine.units import PSF


def module(road: Road, check: Check) -> list[CalculationStep]:
    """The worst module's own pressure."""
    job, demands, loads = road.job, road.demands, road.design.loads
    ratios = module_ratios(demands)
    (which,), number = ratios.governing
    combination, area = demands.combinations[number], road.design.field.area
    here, steps, pressures = np.array([which]), list[CalculationStep](), {}
    for case in combination.factors:
        if case in loads.wind_cases:
            loads.wind(case, here, np.array([area]), steps.append)
        elif case in loads.snow_cases:
            loads.snow(case, here, steps.append)
        pressures[case] = float(demands.forces_on_clamps.pressure(case)[which]) / PSF
        steps.append(
            given(of_case("p", case), f"{case}: pressure normal to the module, at its own area", pressures[case], "psf")
        )
    pressure = float(demands.module_pressure[which, number])
    steps.append(
        combined(
            "p", "pressure normal to the module (down positive)", Term(pressure / PSF, "psf"), combination, pressures
        )
    )
    mode = (job.module.rating_up if pressure < 0 else job.module.rating_down).mode()
    steps.append(mode.resistance_step(combination))
    terms = {"p": Term(pressure / PSF, "psf"), "Ra": Term(mode.resistance(combination) / PSF, "psf")}
    return [*steps, used("module", check.used, "max(p, -p) / Ra", terms)]
