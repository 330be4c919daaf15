"""The module: pressure normal to it against its maker's rating."""

from __future__ import annotations

from engine.checks.check import Asked, Check, Place, resistances, two_way, worst
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout


def asked_of_modules(job: Job, demands: Demands) -> Asked:
    """Each module's own pressure (M, C), weight and snow included, up and down."""
    up, down = (resistances(rating.mode(), demands.combinations) for rating in (job.module.rating_up, job.module.rating_down))
    return two_way(demands.module_pressure, up, down)


def check_module(job: Job, field: Field, layout: Layout, demands: Demands) -> Check:
    """The module that is pressed most."""
    outlines = field.outlines

    def place(module: int) -> Place:
        name = f"module in row {field.row[module] + 1}, column {field.column[module] + 1}"
        return Place(name, float(outlines.left[module]), float(outlines.low[module]))

    return worst("module", "module", "pressure", asked_of_modules(job, demands), demands.combinations, place)
