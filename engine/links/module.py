"""The module: pressure normal to it against its maker's rating."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import CalculationStep, Term
from engine.links.check import Check, Location, governing_check
from engine.links.link import Link
from engine.links.ratios import DemandOverResistance, by_direction, resistances
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import case_symbol, combination_step, utilisation_step, value_step
from engine.load_path.demands import Demands
from engine.units import PSF


def module_ratios(demands: Demands) -> DemandOverResistance:
    """Pressure over rating of every module, up and down, weight and snow included, shape (M, C)."""
    module = demands.job.module
    up, down = (resistances(rating.mode(), demands.combinations) for rating in (module.rating_up, module.rating_down))
    return by_direction(demands.module_pressure, up, down)


def check_module(demands: Demands) -> Check:
    """The module with the largest utilisation."""
    field = demands.field

    def place(module: int) -> Location:
        name = f"module in row {field.row[module] + 1}, column {field.column[module] + 1}"
        return Location(name, float(field.outlines.left[module]), float(field.outlines.low[module]))

    return governing_check("module", "module", "pressure", module_ratios(demands), demands.combinations, place)


def explain_module(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the controlling module's pressure and its utilisation."""
    demands, loads = trail.demands, trail.demands.loads
    (module,), number = module_ratios(demands).governing
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
    steps.append(combination_step("p", meaning, pressure, combination, pressures))
    rating = demands.job.module.rating_up if pressure.value < 0 else demands.job.module.rating_down
    steps.append(rating.mode().resistance_step(combination))
    terms = {"p": pressure, "Ra": Term(rating.mode().resistance(combination) / PSF, "psf")}
    return [*steps, utilisation_step("module", check.ratio, "max(p, -p) / Ra", terms)]


LINK = Link(
    "module",
    title=lambda job: "module",
    help=lambda job: "the module, pressed or lifted, against its maker's rating",
    check=check_module,
    explain=explain_module,
    depends_on_layout=False,
)
