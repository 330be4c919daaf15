"""The fixed point: where a floating panel is anchored against sliding."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import CalculationStep
from engine.links.check import Check, Location, governing_check
from engine.links.link import Link
from engine.links.ratios import DemandOverResistance, resistances
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import pounds, products_of, sum_step, utilisation_step
from engine.links.unchecked import ALONG, ROOF_MAKER, Unchecked
from engine.load_path.demands import Demands
from engine.project.roof import FixedPoint
from engine.strength import shear_strength

TITLE = "panel anchorage"


def panel_ratios(fixed: FixedPoint, demands: Demands) -> DemandOverResistance:
    """Along-slope load of every panel, toward the eave or the ridge, over its fixed point's strength, shape (R, C)."""
    strength = resistances(shear_strength(fixed.in_plane), demands.combinations)
    return DemandOverResistance(np.abs(demands.panel_in_plane), strength)


def check_fixed_point(demands: Demands) -> Check:
    """The panel with the largest along-slope load."""
    roof, largest = demands.job.roof, float(np.abs(demands.panel_in_plane).max())
    if not roof.floats:
        return Check("fixed_point", TITLE, "force", note="no fixed point: the panel screws share this load")
    if roof.fixed_point is None:
        document = f"{demands.job.words.against('load')} of one panel's fixed point, along the slope"
        missing = Unchecked("fixed_point", TITLE, ALONG, "no strength given", ROOF_MAKER, document)
        return Check("fixed_point", TITLE, "force", largest, unchecked=(missing,) if largest else ())
    ribs = demands.roof.ribs

    def place(row: int) -> Location:
        return Location(f"panel at {roof.rib_word} {demands.rib[row] + 1}", float(ribs[demands.rib[row]]))

    ratios = panel_ratios(roof.fixed_point, demands)
    return governing_check("fixed_point", TITLE, "force", ratios, demands.combinations, place)


def explain_fixed_point(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the along-slope load of the controlling panel: its attachments, its own weight, the snow beside modules.

    The attachment with the largest load is explained from the loads on.
    """
    job, demands, attachments = trail.job, trail.demands, trail.layout.attachments
    if job.roof.fixed_point is None:
        return []
    (row,), number = panel_ratios(job.roof.fixed_point, demands).governing
    combination, total = demands.combinations[number], pounds(demands.panel_in_plane[row, number])
    on_rib = np.flatnonzero(attachments.rib == demands.rib[row])
    bypasses = job.hardware.bypasses_sheet
    along = np.zeros(0) if bypasses else demands.attachment_in_plane[on_rib, number]
    steps = trail.along_slope_force(int(on_rib[np.argmax(np.abs(along))]), number) if len(along) else []
    loads = [*along, float(demands.roof.sheet_and_snow_sliding[demands.rib[row], number])]
    products = products_of("n", [1.0] * len(loads), "", "V", loads)
    snow = "the snow beside modules and snow retention" if job.roof.snow_retention else "the snow beside modules"
    meaning = f"along-slope load of the panel, from its attachments, the sheet and {snow} (to eave positive)"
    mode = shear_strength(job.roof.fixed_point.in_plane).governing(combination)
    terms = {"V": total, "Ra": pounds(mode.resistance(combination))}
    utilisation = utilisation_step("fixed_point", check.ratio, "max(V, -V) / Ra", terms)
    return [
        *steps,
        sum_step("V", meaning, total, products),
        *mode.steps,
        mode.resistance_step(combination),
        utilisation,
    ]


LINK = Link(
    "fixed_point",
    title=lambda job: TITLE,
    help=lambda job: "the fixed point that keeps a floating panel from sliding down the slope",
    check=check_fixed_point,
    explain=explain_fixed_point,
    strengths=lambda job, check: ("roof.fixed_point.in_plane",),
    search_rank=2,
)
