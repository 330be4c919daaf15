"""The fixed point: where a floating panel is held against sliding."""

from __future__ import annotations

import numpy as np

from engine.checks.check import Asked, Check, Place, resistances, worst
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout
from engine.roof import FixedPoint
from engine.strength import shear_strength


def asked_of_panels(fixed: FixedPoint, demands: Demands) -> Asked:
    """Everything that slides on one panel collects there, down the slope or up it (R, C)."""
    return Asked(np.abs(demands.panel_in_plane), resistances(shear_strength(fixed.in_plane), demands.combinations))


def check_fixed_point(job: Job, field: Field, layout: Layout, demands: Demands) -> Check:
    """The panel that slides hardest."""
    most = float(np.abs(demands.panel_in_plane).max())
    if not job.roof.floats:
        return Check("fixed_point", "fixed point", "force", most, note="none: the panel's own screws share it, see there")
    if job.roof.fixed_point is None:
        return Check("fixed_point", "fixed point", "force", most, note="not checked: no strength against sliding is stated")
    ribs = job.roof.ribs(job.building)

    def place(row: int) -> Place:
        return Place(f"panel at {job.roof.rib_word} {demands.rib[row] + 1}", float(ribs[demands.rib[row]]))

    asked = asked_of_panels(job.roof.fixed_point, demands)
    return worst("fixed_point", "fixed point", "force", asked, demands.combinations, place)
