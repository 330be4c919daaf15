"""Long tables for data tools: one row an observation, stable ids in place of words, one kind of value a column.

Methods, components, parts and figures have the ids that they have in JSON; an attachment is known by method and number.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial

import pandas as pd

from engine.comparison.compare import Comparison
from engine.comparison.figure import Value
from engine.comparison.figures import figures
from engine.comparison.reactions import reactions
from engine.export import table as tables
from engine.export.bill_table import bill_table, parts_only
from engine.export.csv import written
from engine.export.reactions_table import SIGNS
from engine.export.stamp import Stamp
from engine.export.table import Cell, Record, table_of
from engine.studies.spacing import study
from engine.units import System, number, unit

FILE = "data_{}.csv"
"""Name of a table's file."""

NORMAL_WORD = "normal"
"""Direction of a reaction normal to the roof."""

Make = Callable[[Comparison, System], pd.DataFrame]


def data_files(comparison: Comparison, stamp: Stamp) -> Mapping[str, Callable[[], str]]:
    """Name of each table's file → the function that makes it."""
    return {FILE.format(name): partial(_file, comparison, stamp, make) for name, make in _TABLES.items()}


def _file(comparison: Comparison, stamp: Stamp, make: Make) -> str:
    signs = [("signs", SIGNS)] if make in (_attachment_reactions, _line_loads) else []
    cautions = [("caution", words) for words in comparison.cautions]
    return written(make(comparison, stamp.system), [*stamp.of(comparison), *signs, *cautions])


def _figures(comparison: Comparison, system: System) -> pd.DataFrame:
    """One row a method and figure: a number with its unit, or words."""
    records = [
        {
            "method": column.id,
            "figure": figure.key,
            "label": figure.label(comparison.scenario.job),
            **_value(figure.value(column), figure.dimension, system),
        }
        for column in comparison.columns
        for figure in figures()
    ]
    return table_of(records, ("method", "figure", "label", "value", "unit", "words"))


def _value(value: Value, dimension: str, system: System) -> dict[str, Cell]:
    if isinstance(value, float | int):
        return {"value": number(value, dimension, system), "unit": unit(dimension, system)}
    return {"words": value, "unit": unit(dimension, system) if dimension else ""}


def _links(comparison: Comparison, system: System) -> pd.DataFrame:
    return _with_ids(comparison, tables.links_table(comparison, system))


def _bill(comparison: Comparison, system: System) -> pd.DataFrame:
    return _with_ids(comparison, parts_only(bill_table(comparison, system)))


def _flags(comparison: Comparison, system: System) -> pd.DataFrame:
    return _with_ids(comparison, tables.flags_table(comparison))


def _attachments(comparison: Comparison, system: System) -> pd.DataFrame:
    """One row a method and attachment, without the columns that repeat the method's own figures."""
    table = _with_ids(comparison, tables.schedule_table(comparison))
    of_method = [name for name in table if str(name).startswith(("method_", "roof_alone_"))]
    return table.drop(columns=of_method).rename(columns={"number": "attachment"})


def _attachment_reactions(comparison: Comparison, system: System) -> pd.DataFrame:
    """One row a method, load case, direction and attachment."""
    columns = ("method", "case", "direction", "level", "attachment", "reaction", "unit")
    return table_of(list(_reaction_rows(comparison, system)), columns)


def _reaction_rows(comparison: Comparison, system: System) -> Iterator[Record]:
    level = comparison.scenario.standard.level
    for column in comparison.columns:
        found = reactions(column.candidate.demands).attachments if column.candidate else {}
        for (case, direction), forces in found.items():
            load: dict[str, Cell] = {"method": column.id, "case": case, "level": level(case)}
            load["direction"] = direction or NORMAL_WORD
            for attachment, force in enumerate(forces.tolist(), 1):
                yield load | _reaction("attachment", attachment, force, "force", system)


def _line_loads(comparison: Comparison, system: System) -> pd.DataFrame:
    """One row a method, origin of the load, load case and purlin; all normal to the roof."""
    columns = ("method", "load_from", "case", "level", "purlin", "reaction", "unit")
    return table_of(list(_line_load_rows(comparison, system)), columns)


def _line_load_rows(comparison: Comparison, system: System) -> Iterator[Record]:
    level = comparison.scenario.standard.level
    for column in comparison.columns:
        found = reactions(column.candidate.demands).purlins if column.candidate else None
        of_origin = {"attachments": found.from_attachments, "roof surface": found.from_surface} if found else {}
        for origin, cases in of_origin.items():
            for case, loads in cases.items():
                load: dict[str, Cell] = {"method": column.id, "load_from": origin, "case": case, "level": level(case)}
                for purlin, size in enumerate(loads.tolist(), 1):
                    yield load | _reaction("purlin", purlin, size, "line load", system)


def _reaction(item: str, item_number: int, size: float, dimension: str, system: System) -> dict[str, Cell]:
    return {item: item_number, "reaction": number(size, dimension, system), "unit": unit(dimension, system)}


def _studies(comparison: Comparison, system: System) -> pd.DataFrame:
    """One row a method, spacing and component."""
    studied = study(comparison.scenario, tuple(column.id for column in comparison.columns))
    links = {check.title: check.link for each in studied for row in each.rows for check in row.checks.values()}
    return _renamed(tables.studies_table(studied, system), {each.title: each.id for each in studied}, links)


def _with_ids(comparison: Comparison, table: pd.DataFrame) -> pd.DataFrame:
    """A table in which methods, components and parts have their ids."""
    links = {check.title: check.link for column in comparison.columns for check in column.checks.values()}
    laid_out = [column.design.bill.items for column in comparison.columns if column.design]
    parts = {item.name: item.part for items in laid_out for item in items} | {tables.MODULES: "module"}
    return _renamed(table, {column.title: column.id for column in comparison.columns}, links, parts)


def _renamed(
    table: pd.DataFrame, methods: Mapping[str, str], links: Mapping[str, str], parts: Mapping[str, str] | None = None
) -> pd.DataFrame:
    ids = {"method": methods, "link": links, "controlling_component": links, "part": parts or {}}
    return table.assign(**{name: [ids[name].get(cell, cell) for cell in table[name]] for name in ids if name in table})


_TABLES: Mapping[str, Make] = {
    "figures": _figures,
    "links": _links,
    "bill": _bill,
    "flags": _flags,
    "attachments": _attachments,
    "reactions": _attachment_reactions,
    "line_loads": _line_loads,
    "studies": _studies,
}
