"""The totals of a building of several slopes as plain text."""

from __future__ import annotations

from engine.comparison.building_comparison import BuildingComparison
from engine.export.stamp import Stamp
from tui.render.building import building_parts
from tui.render.plain_text import plain_text


def totals_text(building: BuildingComparison, stamp: Stamp, width: int) -> str:
    """The answer for the whole building and its totals by method, in lines of `width`."""
    return plain_text(*building_parts(building, stamp.system, width), width=width)
