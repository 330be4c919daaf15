"""The module: pressure normal to it against its maker's rating."""

from __future__ import annotations

from engine.links.check import Check, DemandOverResistance, Location, by_direction, governing_check, resistances
from engine.load_path.demands import Demands


def module_ratios(demands: Demands) -> DemandOverResistance:
    """Each module's own pressure (M, C), weight and snow included, up and down."""
    module = demands.job.module
    up, down = (resistances(rating.mode(), demands.combinations) for rating in (module.rating_up, module.rating_down))
    return by_direction(demands.module_pressure, up, down)


def check_module(demands: Demands) -> Check:
    """The module that is pressed most."""
    field = demands.field

    def place(module: int) -> Location:
        name = f"module in row {field.row[module] + 1}, column {field.column[module] + 1}"
        return Location(name, float(field.outlines.left[module]), float(field.outlines.low[module]))

    return governing_check("module", "module", "pressure", module_ratios(demands), demands.combinations, place)
