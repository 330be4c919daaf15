"""Reactions for the building's engineer as a table: unfactored, one column a load case and direction, its level named.

A column's id is load case, direction where it is not normal to the roof, and level: "S_service_reaction",
"D_along_slope_service_reaction", "W_up_strength_reaction".
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import pandas as pd

from engine.common.arrays import Floats
from engine.comparison.compare import Column, Comparison
from engine.comparison.reactions import NORMAL, PurlinReactions, Reactions, reactions
from engine.export.table import Cell, measure, table_of
from engine.loads.interface import LoadStandard
from engine.mounting.layout import Attachments
from engine.units import System, number, unit

ATTACHMENT, FROM_ATTACHMENTS = "attachment", "purlin, from the attachments"
FROM_SURFACE = "purlin, from wind and snow on the roof itself"

SIGNS = (
    "unfactored; normal to the roof positive toward it, along the slope positive toward the eave; purlins: mean over "
    "the array's extent, without the roof's own weight"
)
"""Statement about the figures, for files that have a place for it."""

Record = Mapping[str, Cell]


def reactions_table(comparison: Comparison, system: System = "us") -> pd.DataFrame:
    """One row a method and attachment, then one a purlin and kind of load; methods that were not checked have none."""
    tables = [
        method_reactions_table(comparison, column, system).assign(method=column.title).astype(object)
        for column in comparison.columns
        if column.candidate
    ]
    together = pd.concat(tables, ignore_index=True).infer_objects() if tables else pd.DataFrame(columns=["method"])
    return together[["method", *together.columns.drop("method")]]


def method_reactions_table(comparison: Comparison, column: Column, system: System = "us") -> pd.DataFrame:
    """The rows of one method that was checked."""
    if column.candidate is None:
        return pd.DataFrame()
    demands, standard = column.candidate.demands, comparison.scenario.standard
    found = reactions(demands)
    records = list(_attachments(found, demands.layout.attachments, standard, system))
    if found.purlins:
        records += _purlins(found.purlins, standard, system)
    columns = [*records[0], *(name for name in records[-1] if name not in records[0])]
    return table_of(records, columns)


def _attachments(
    found: Reactions, attachments: Attachments, standard: LoadStandard, system: System
) -> Iterator[Record]:
    for index in range(len(attachments)):
        yield {
            "item": ATTACHMENT,
            "number": index + 1,
            "rib": int(attachments.rib[index]) + 1,
            **_place(float(attachments.x[index]), None, float(attachments.y[index]), system),
            "purlin": None if found.purlin is None else int(found.purlin[index]),
            "unit": unit("force", system),
            **{
                _id(standard, case, direction): number(float(force[index]), "force", system)
                for (case, direction), force in found.attachments.items()
            },
        }


def _purlins(found: PurlinReactions, standard: LoadStandard, system: System) -> Iterator[Record]:
    for item, loads in ((FROM_ATTACHMENTS, found.from_attachments), (FROM_SURFACE, found.from_surface)):
        for line, y in enumerate(found.y.tolist()):
            yield {
                "item": item,
                "number": line + 1,
                **_place(found.start, found.end, y, system),
                "purlin": line + 1,
                "unit": unit("line load", system),
                **_line_loads(loads, line, standard, system),
            }


def _line_loads(loads: Mapping[str, Floats], line: int, standard: LoadStandard, system: System) -> Record:
    return {_id(standard, case, NORMAL): number(float(load[line]), "line load", system) for case, load in loads.items()}


def _place(start: float, end: float | None, y: float, system: System) -> Record:
    return {
        **measure("from_rake", "length", start, system),
        **measure("to", "length", end, system),
        **measure("from_eave", "length", y, system),
    }


def _id(standard: LoadStandard, case: str, direction: str) -> str:
    words = " ".join(filter(None, (case, direction, standard.level(case), "reaction")))
    return words.replace(" ", "_")
