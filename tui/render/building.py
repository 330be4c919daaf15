"""A building of several slopes: the answer, and the totals by method beside the best mix."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import RenderableType

from engine.comparison.building_comparison import BuildingComparison, Total
from engine.comparison.figures import figure_named
from engine.comparison.figures.verdict import verdict_word
from engine.units import System, text
from tui.render.plain_text import side_by_side

SHOWN = ("modules", "attachments", "attachments_minimum", "mass_kg", "hardware_cost", "labour_hours", "total_cost")


def building_parts(building: BuildingComparison, system: System, width: int) -> Iterator[RenderableType]:
    """The answer for the building, and its totals side by side."""
    mix, job = building.best_mix, building.slopes[0].scenario.job
    yield building.title
    yield building.answer
    yield ""
    totals = [*building.totals, *([mix] if mix else [])]
    labels = ["WHOLE BUILDING", "verdict", "controlling component", "on slope", *building.names]
    labels += [figure_named(key).label(job) for key in SHOWN]
    yield from side_by_side(labels, [_cells(total, system, is_mix=total is mix) for total in totals], width)


def _cells(total: Total, system: System, *, is_mix: bool) -> list[str]:
    decisive = total.decisive
    check = decisive[1].decisive if decisive else None
    within = "" if total.holds_within_tolerance or not total.status.nothing_over else ", not within tolerance"
    cells = [total.title, f"{total.status.word}{within}"]
    cells += [f"{check.title} {check.ratio:.2f}" if check else "–", decisive[0] if decisive else "–"]
    cells += [f"{f'{column.title}: ' if is_mix else ''}{verdict_word(column)}" for column in total.columns]
    for key in SHOWN:
        value, dimension = total.total(key), figure_named(key).dimension
        cells.append("–" if value is None else text(value, dimension, system))
    return cells
