"""The travel of a floating panel over its clips by heat, against the free travel of a clip.

The clips are taken to stand in the middle of their travel at the mean temperature, so that the whole range of the panel
is held against the whole travel of a clip. The array changes neither; a clamp too near a clip locks it, which
`hardware.clip_clearance` checks.
"""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Floats
from engine.common.calculation import SCENARIO, CalculationStep, Term
from engine.common.combination import Combination
from engine.links.check import Check, Location, governing_check
from engine.links.link import Link, never
from engine.links.ratios import DemandOverResistance
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import utilisation_step, value_step
from engine.load_path.demands import Demands
from engine.project.heat import EXPANSION, FAHRENHEIT, HANDBOOK, lengthening
from engine.units import FOOT, INCH, both

KEY, TITLE = "panel_travel", "panel travel"
HEAT = (Combination("heat", {}, "permanent"),)


def free_lengths(demands: Demands) -> Floats:
    """Length of each rib's panel from its fixed point to its farthest clip (Q,) [m].

    Where the place of the fixed point is not stated, it is taken at one end, which is safe.
    """
    roof = demands.job.roof
    middle = roof.fixed_point is not None and roof.fixed_point.at == "middle"
    lengths = np.array([demands.fastening_y[fastened].max(initial=0.0) for fastened in demands.roof.is_fastened])
    return lengths / 2 if middle else lengths


def check_panel_travel(demands: Demands) -> Check:
    """The longest panel under the array's slope."""
    roof = demands.job.roof
    if not roof.floats:
        return Check(KEY, TITLE, "small length", note="no travel: the panel screws hold the sheet")
    lengths = free_lengths(demands)
    travel = lengthening(EXPANSION[roof.panel.material], 1.0, roof.temperature_range) * lengths
    if roof.fastening.travel is None:
        largest = float(travel.max())
        words = both(largest, "small length", demands.job.system)
        note = f"the panels move {words} by heat; no free travel of the clips is stated"
        return Check(KEY, TITLE, "small length", largest, note=note)
    ratios = DemandOverResistance(travel[:, None], np.array([roof.fastening.travel]))

    def place(rib: int) -> Location:
        return Location(f"panel at {roof.rib_word} {rib + 1}", float(demands.roof.ribs[rib]))

    return governing_check(KEY, TITLE, "small length", ratios, HEAT, place)


def explain_panel_travel(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the travel of the longest panel and its utilisation."""
    roof = trail.job.roof
    if check.demand is None or check.resistance is None:
        return []
    expansion, degrees = EXPANSION[roof.panel.material] * FAHRENHEIT, roof.temperature_range / FAHRENHEIT
    length = float(free_lengths(trail.demands).max())
    steps = [
        value_step("alpha", f"expansion of {roof.panel.material}", expansion, "1/F", HANDBOOK),
        value_step("L", "length of the panel from its fixed point to its farthest clip", length / FOOT, "ft"),
        value_step("dT", "range of the panel's temperature", degrees, "F", SCENARIO),
    ]
    terms = {step.symbol: step.result for step in steps}
    travel = Term(check.demand / INCH, "in")
    meaning = "travel of the panel over its farthest clip"
    steps.append(CalculationStep("t", meaning, travel, "12 * alpha * L * dT", terms, steps[0].reference))
    free = {"t": travel, "f": Term(check.resistance / INCH, "in")}
    return [*steps, utilisation_step(KEY, check.ratio, "t / f", free)]


LINK = Link(
    KEY,
    title=lambda job: TITLE,
    help=lambda job: "the panel's movement over its clips by heat, against the free travel of a clip",
    check=check_panel_travel,
    explain=explain_panel_travel,
    depends_on_layout=never,
)
