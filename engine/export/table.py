"""Tables that leave loadpath, as pandas DataFrames: for files, and for a notebook.

    from engine.export.table import comparison_table

Column ids are stable; a measure's id ends in its unit ("from_rake_ft"). Values are unrounded, counts are integers,
unknown values are missing. In the comparison a column holds text, integers and measures, one kind a row.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import pandas as pd

from engine.common.arrays import Floats
from engine.comparison.alternatives import RankedMethod, ranked
from engine.comparison.attachment_schedule import Schedule, schedule
from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Figure
from engine.comparison.figures import table_figures, value_of
from engine.comparison.figures.utilisation import of_resistance, why_no_ratio
from engine.links import Check
from engine.scenario.listing import ListedInput, inputs_of
from engine.studies.spacing import SpacingStudy
from engine.units import System, number, unit

Cell = float | int | str | None
Record = Mapping[str, Cell]

SYSTEMS: tuple[System, System] = ("us", "si")

MODULES = "modules (not priced)"
"""The modules among the parts of a bill."""

LINK_COLUMNS = ("link", "unit", "demand", "resistance", "utilisation", "verdict", "parts", "combination", "where")


def comparison_table(comparison: Comparison, system: System = "us") -> pd.DataFrame:
    """One row a figure with its group and unit, one column a method, named by its id."""
    methods = [column.id for column in comparison.columns]
    return table_of(
        [_figure(each, comparison, system) for each in table_figures()], ("group", "figure", "unit", *methods)
    )


def _figure(figure: Figure, comparison: Comparison, system: System) -> Record:
    values = {column.id: figure.table_value(column) for column in comparison.columns}
    return {
        "group": figure.group,
        "figure": figure.label(comparison.scenario.job),
        "unit": unit(figure.dimension, system) if figure.dimension else "",
        **{
            id_: number(value, figure.dimension, system) if isinstance(value, float) else value
            for id_, value in values.items()
        },
    }


def alternatives_table(comparison: Comparison) -> pd.DataFrame:
    """One row a method of the scenario as stated and of each alternative, the best first."""
    return table_of(
        [_ranked(each) for each in ranked(comparison)],
        (
            "rank", "alternative", "method", "verdict", "controlling_component", "utilisation", "modules",
            "attachments", "total_price", "price_per_watt",
        ),
    )  # fmt: skip


def _ranked(each: RankedMethod) -> Record:
    column, controlling = each.column, each.column.controlling
    return {
        "rank": each.rank,
        "alternative": each.alternative,
        "method": column.title,
        "verdict": str(column.status),
        "controlling_component": controlling.title if controlling else None,
        "utilisation": controlling.utilisation if controlling else None,
        "modules": value_of(column, "modules"),
        "attachments": value_of(column, "attachments"),
        "total_price": value_of(column, "total_cost"),
        "price_per_watt": value_of(column, "cost_per_watt"),
    }


def links_table(comparison: Comparison, system: System = "us") -> pd.DataFrame:
    """One row a method and component: demand, resistance, utilisation, verdict, combination and place."""
    records = [
        {"method": column.title, **_link(column, check, system)}
        for column in comparison.columns
        for check in column.checks.values()
    ]
    return table_of(records, ("method", *LINK_COLUMNS, *with_unit("from_rake", "from_eave", system=system), "note"))


def _parts(check: Check, system: System) -> str:
    """Loads that act together, each of its resistance: "uplift 180 of 600 lb + along-slope load 88 of 350 lb"."""
    return " + ".join(f"{part.name} {of_resistance(part, check.dimension, system)}" for part in check.parts)


def _link(column: Column, check: Check, system: System) -> Record:
    return {
        "link": check.title,
        "unit": unit(check.dimension, system),
        "demand": _number(check.demand, check.dimension, system),
        "resistance": _number(check.resistance, check.dimension, system),
        "utilisation": check.utilisation,
        "parts": _parts(check, system) or None,
        "verdict": why_no_ratio(column, check) if check.utilisation is None else "holds" if check.holds else "over",
        "combination": check.combination or None,
        "where": check.place.name or None,
        **measure("from_rake", "length", check.place.x, system),
        **measure("from_eave", "length", check.place.y, system),
        "note": check.note or None,
    }


def schedule_table(comparison: Comparison) -> pd.DataFrame:
    """One row a method and attachment, in walking order; distances and forces in both unit systems."""
    tables = [
        attachments_table(column, schedule(column.design)).assign(method=column.title).astype(object)
        for column in comparison.columns
        if column.design
    ]
    # Joined as objects: pandas 2 warns of a column that is empty in one table and filled in another.
    together = pd.concat(tables, ignore_index=True).infer_objects() if tables else pd.DataFrame(columns=["method"])
    return together[["method", *together.columns.drop("method")]]


def attachments_table(column: Column, attachments: Schedule) -> pd.DataFrame:
    """One row an attachment of one method.

    The verdict and controlling component of the whole method are on every row: an attachment may hold although
    the method does not.
    """
    count, utilisation, controlling = len(attachments), attachments.utilisation, column.controlling
    values: dict[str, Sequence[Cell]] = {
        "number": range(1, count + 1),
        "row": attachments.row.tolist(),
        "rib": attachments.rib.tolist(),
        **_in_both_systems("from_rake", "length", attachments.x),
        **_in_both_systems("from_eave", "length", attachments.y),
        "wind_zone": attachments.zone,
        **_in_both_systems("uplift", "force", attachments.up, count),
        **_in_both_systems("down_load", "force", attachments.down, count),
        "controlling_component": [title or None for title in attachments.governing],
        "utilisation": [None] * count if utilisation is None else utilisation.tolist(),
        "verdict": attachments.verdicts,
        "method_verdict": [column.status] * count,
        "method_controlling_component": [controlling.title if controlling else None] * count,
        "method_utilisation": [controlling.utilisation if controlling else None] * count,
        "roof_alone_utilisation": [value_of(column, "bare_roof_utilisation")] * count,
    }
    return pd.DataFrame(values, dtype=object).infer_objects()


def studies_table(studies: Sequence[SpacingStudy], system: System = "us") -> pd.DataFrame:
    """One row a method, spacing and component: span, attachments, loads, price, utilisation."""
    records = [
        {
            "method": study.title,
            "spacing": row.label,
            **measure("longest_span", "length", row.span, system),
            "attachments": row.attachments,
            **measure("uplift", "force", row.attachment_up, system),
            **measure("down_load", "force", row.attachment_down_load, system),
            "hardware_cost": row.hardware_cost,
            "link": check.title,
            "utilisation": check.utilisation,
        }
        for study in studies
        for row in study.rows
        for check in row.checks.values()
    ]
    return pd.DataFrame(records, dtype=object).infer_objects()


def inputs_table(comparison: Comparison, system: System = "us") -> pd.DataFrame:
    """One row an input: as written, as a bare number with its unit, where it comes from, and its meaning."""
    return table_of(
        [_input(row, system) for row in inputs_of(comparison.scenario)],
        ("input", "as_written", "value", "unit", "from", "meaning"),
    )


def _input(row: ListedInput, system: System) -> Record:
    return {
        "input": row.path,
        "as_written": row.written,
        "value": _number(row.value, row.dimension, system) if row.dimension else row.value,
        "unit": unit(row.dimension, system) if row.dimension else "",
        "from": row.origin,
        "meaning": row.help,
    }


def flags_table(comparison: Comparison) -> pd.DataFrame:
    """One row a method and flag."""
    records = [
        {"method": column.title, "severity": flag.severity, "code": flag.code, "text": flag.text}
        for column in comparison.columns
        for flag in column.flags
    ]
    return table_of(records, ("method", "severity", "code", "text"))


def table_of(records: Sequence[Record], columns: Sequence[str]) -> pd.DataFrame:
    """Records under their columns; integers stay integers beside empty cells."""
    values = [[record.get(column) for column in columns] for record in records]
    table = pd.DataFrame(values, columns=list(columns), dtype=object)
    counts = [name for name in columns if table[name].hasnans and any(isinstance(cell, int) for cell in table[name])]
    return table.infer_objects().assign(**{name: table[name] for name in counts})


def _number(value: float | None, dimension: str, system: System) -> float | None:
    return None if value is None else number(float(value), dimension, system)


def whole(quantity: float) -> float | int:
    """A count as an integer."""
    return int(quantity) if float(quantity).is_integer() else quantity


def with_unit(*names: str, dimension: str = "length", system: System) -> tuple[str, ...]:
    """The ids of columns of one dimension."""
    return tuple(f"{name}_{unit(dimension, system)}" for name in names)


def measure(name: str, dimension: str, value: float | None, system: System) -> Record:
    """One value under the id that its dimension gives."""
    return {f"{name}_{unit(dimension, system)}": _number(value, dimension, system)}


def _in_both_systems(
    name: str, dimension: str, values: Floats | None, count: int = 0
) -> dict[str, Sequence[float | None]]:
    """A measure in both systems, a column each; empty where nothing was checked."""
    return {
        f"{name}_{unit(dimension, system)}": [None] * count
        if values is None
        else [_number(value, dimension, system) for value in values]
        for system in SYSTEMS
    }
