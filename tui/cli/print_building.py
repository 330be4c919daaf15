"""A building of several slopes as plain text: its totals, then the comparison of every slope."""

from __future__ import annotations

from engine.comparison.building_comparison import BuildingComparison
from engine.export.stamp import Stamp
from tui.cli.print_comparison import comparison_text
from tui.render.building import building_parts
from tui.render.plain_text import plain_text


def building_text(building: BuildingComparison, stamp: Stamp, width: int) -> str:
    """The whole building, then each slope, in lines of `width`."""
    totals = plain_text(*building_parts(building, stamp.system, width), "", width=width)
    return totals + "\n".join(comparison_text(slope, stamp, width) for slope in building.slopes)
