"""The fixed point: where a floating panel is held against sliding."""

from __future__ import annotations

import numpy as np

from engine.checks.check import Asked, Check, Place, resistances, worst
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout
from engine.strength import shear_strength


def check_fixed_point(job: Job, field: Field, layout: Layout, demands: Demands) -> Check:
    """Everything that slides on one panel collects there, down the slope or up it."""
    demand = np.abs(demands.panel_in_plane)
    if not job.roof.floats:
        return Check("fixed_point", "fixed point", "force", float(demand.max()), note="none: the panel's own screws share it, see there")
    if job.roof.fixed_point is None:
        note = "not checked: no strength against sliding is stated"
        return Check("fixed_point", "fixed point", "force", float(demand.max()), note=note)
    can = resistances(shear_strength(job.roof.fixed_point.in_plane), demands.combinations)
    ribs = job.roof.ribs(job.building)

    def place(row: int) -> Place:
        return Place(f"panel at {job.roof.rib_word} {demands.rib[row] + 1}", float(ribs[demands.rib[row]]))

    asked = Asked(demand, np.broadcast_to(can, demand.shape))
    return worst("fixed_point", "fixed point", "force", asked, demands.combinations, place)
