"""The module: pressure normal to it against its maker's rating."""

from __future__ import annotations

from engine.checks.check import Check, Place, resistances, two_way, worst
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout


def check_module(job: Job, field: Field, layout: Layout, demands: Demands) -> Check:
    """Each module's own pressure, weight and snow included, up and down."""
    up, down = (resistances(rating.mode(), demands.combinations) for rating in (job.module.rating_up, job.module.rating_down))
    outlines = field.outlines

    def place(module: int) -> Place:
        name = f"module in row {field.row[module] + 1}, column {field.column[module] + 1}"
        return Place(name, float(outlines.left[module]), float(outlines.low[module]))

    return worst("module", "module", "pressure", two_way(demands.module_pressure, up, down), demands.combinations, place)
