"""Tables of a building of several slopes: each method by slope and in total, and the attachments of all slopes."""

from __future__ import annotations

from collections.abc import Iterator

import pandas as pd

from engine.comparison.building_comparison import SUMMED, BuildingComparison, Total
from engine.comparison.compare import Column
from engine.comparison.figures import figure_named, value_of
from engine.export.bill_table import ALL_SLOPES
from engine.export.table import Cell, Record, measure, schedule_table, table_of
from engine.units import System


def totals_table(building: BuildingComparison, system: System = "us") -> pd.DataFrame:
    """One row a method and slope, then one for all slopes; last the best method of each slope."""
    mix = building.best_mix
    totals = [*building.totals, *([mix] if mix else [])]
    records = [row for total in totals for row in _rows(total, system)]
    keys = ("method", "slope", "used", "verdict", "controlling_component", "utilisation")
    return table_of(records, (*keys, *(key for name in SUMMED for key in _measure(name, None, system))))


def _rows(total: Total, system: System) -> Iterator[Record]:
    for slope, column in zip(total.slopes, total.columns, strict=True):
        figures = {name: value_of(column, name) for name in SUMMED}
        yield {"method": total.title, "slope": slope, "used": column.title, **_verdict(column), **_all(figures, system)}
    decisive = total.decisive
    whole = _verdict(decisive[1]) if decisive else {}
    figures = {name: total.total(name) for name in SUMMED}
    verdict = {"verdict": str(total.status)}
    yield {"method": total.title, "slope": ALL_SLOPES, **whole, **verdict, **_all(figures, system)}


def _verdict(column: Column) -> Record:
    check = column.decisive
    return {
        "verdict": str(column.status),
        "controlling_component": check.title if check else None,
        "utilisation": check.ratio if check else None,
    }


def _all(figures: Record, system: System) -> dict[str, Cell]:
    return {key: cell for name, value in figures.items() for key, cell in _measure(name, value, system).items()}


def _measure(name: str, value: Cell, system: System) -> Record:
    """A figure under its key; a mass in the units shown, under the id with its unit."""
    if not name.endswith("_kg"):
        return {name: value}
    mass = float(value) if isinstance(value, int | float) else None
    return measure(name.removesuffix("_kg"), figure_named(name).dimension, mass, system)


def building_schedule_table(building: BuildingComparison) -> pd.DataFrame:
    """One row a slope, method and attachment; numbers are those of the slope's own schedule."""
    tables = [
        schedule_table(comparison).assign(slope=comparison.scenario.slope).astype(object)
        for comparison in building.slopes
        if any(column.design for column in comparison.columns)
    ]
    together = pd.concat(tables, ignore_index=True).infer_objects() if tables else pd.DataFrame(columns=["slope"])
    return together[["slope", *together.columns.drop("slope")]]
