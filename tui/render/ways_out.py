"""Ways out of methods that are over, as text for the command line and the app."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rich.console import RenderableType

from engine.common.sentences import capitalized
from engine.comparison.compare import Column
from engine.studies.ways_out import NOTHING_HELPS, WaysOut
from engine.units import System, text
from tui.render.plain_text import indented

NOTHING_OVER = "No method is over here."


def ways_out_parts(found: Sequence[WaysOut], system: System) -> Iterator[RenderableType]:
    """A heading a method, and under it each way with its number and its result."""
    if not found:
        yield NOTHING_OVER
    number = 0
    for each in found:
        yield heading(each.column, system)
        if not each.ways:
            yield indented(NOTHING_HELPS)
        for way in each.ways:
            number += 1
            yield indented(f"{number}. {capitalized(way.text)}.")
            yield indented(f"   → {way.result(each.column, system)}")
        yield ""


def heading(column: Column, system: System) -> str:
    """The method and what is over: "RAILS: clip 371 lb of 350 lb"."""
    check, within = column.decisive, column.within_tolerance
    if within is not None and within.component:
        return f"{column.title.upper()}: {within.component} {within.utilisation:.2f} if set out inaccurately"
    if check is None or column.design is None:
        return column.title.upper()
    if check.demand is None or check.resistance is None:
        return f"{column.title.upper()}: {check.title} {check.ratio:.2f} of {column.design.job.words.resistance}"
    demand, resistance = (text(each, check.dimension, system) for each in (check.demand, check.resistance))
    return f"{column.title.upper()}: {check.title} {demand} of {resistance}"
