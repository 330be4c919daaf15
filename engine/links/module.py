"""The module: pressure normal to it against its maker's rating."""

from __future__ import annotations

from engine.links.check import Asked, Check, Place, resistances, two_way, worst
from engine.load_path.demands import Demands


def asked_of_modules(demands: Demands) -> Asked:
    """Each module's own pressure (M, C), weight and snow included, up and down."""
    module = demands.job.module
    up, down = (resistances(rating.mode(), demands.combinations) for rating in (module.rating_up, module.rating_down))
    return two_way(demands.module_pressure, up, down)


def check_module(demands: Demands) -> Check:
    """The module that is pressed most."""
    field = demands.field

    def place(module: int) -> Place:
        name = f"module in row {field.row[module] + 1}, column {field.column[module] + 1}"
        return Place(name, float(field.outlines.left[module]), float(field.outlines.low[module]))

    return worst("module", "module", "pressure", asked_of_modules(demands), demands.combinations, place)
