"""The bills as tables: parts with subtotals by group and a total, the bars cut from stock, and methods side by side."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

import pandas as pd

from engine.bill.cutting import DECIMALS, RULE
from engine.bill.groups import GROUPS, MODULES, OTHER_PARTS, group_of
from engine.bill.take_off import Bill, BillLine, joined
from engine.comparison.bill_figures import cheapest, price_source
from engine.comparison.building_comparison import BuildingComparison
from engine.comparison.compare import Column, Comparison
from engine.comparison.setting_out import setting_out
from engine.export.sheet import Tape
from engine.export.table import Cell, Record, measure, table_of, whole, with_unit
from engine.project.job import Job
from engine.units import System

PART, SUBTOTAL, TOTAL = "part", "subtotal", "total"
"""Levels of a row: filter by one of them before adding up."""

ALL_SLOPES = "all slopes"
"""Name of the whole building in the column of slopes."""

SUMMED = ("price", "labour_h", "labour_price", "total_price")
PART_COLUMNS = ("method", "part", "part_number", "quantity", "unit")


def bill_notes(comparison: Comparison) -> tuple[tuple[str, str], ...]:
    """Statements about the bills: what they cover, who set the prices, how bars are cut."""
    spares = comparison.scenario.job.hardware.spares
    return (
        ("bill", "add up the rows of one level only; total_price is price and labour, without the modules' own price"),
        ("spares", f"{spares:g} % of each part, rounded up; in the price, not in mass and labour"),
        ("prices", price_source(comparison)),
        ("cutting", RULE),
    )


def bill_table(comparison: Comparison, system: System = "us") -> pd.DataFrame:
    """One row a method and part, then a subtotal a group and the total; modules have labour but no price.

    `price` and `total_price` include spares, mass and labour do not.
    """
    return table_of(_rows(comparison.scenario.job, _bills(comparison), system), _columns(system))


def building_bill_table(building: BuildingComparison, system: System = "us") -> pd.DataFrame:
    """The bills of every slope in turn, its name in the first column, then those of all slopes.

    A method that was refused on a slope has no bill of all slopes. Spares and cuts are those of each slope.
    """
    job = building.slopes[0].scenario.job
    of_slopes = {comparison.scenario.slope: _bills(comparison) for comparison in building.slopes}
    designs = {total.title: [column.design for column in total.columns if column.design] for total in building.totals}
    whole = {
        title: joined([design.bill for design in own])
        for title, own in designs.items()
        if len(own) == len(building.slopes)
    }
    records = [
        {"slope": slope, **row}
        for slope, bills in (*of_slopes.items(), (ALL_SLOPES, whole))
        for row in _rows(job, bills, system)
    ]
    return table_of(records, ("slope", *_columns(system)))


def _bills(comparison: Comparison) -> dict[str, Bill]:
    """Title of each method that was laid out → its bill."""
    return {column.title: column.design.bill for column in comparison.columns if column.design}


def _columns(system: System) -> tuple[str, ...]:
    lengths = with_unit("stock_length", "offcut", system=system)
    (mass,) = with_unit("mass", dimension="mass", system=system)
    order = ("method", "level", "group", "part_id", "part", "part_number", "quantity", "unit", "spares", "to_order")
    return (*order, *lengths, mass, "unit_price", *SUMMED)


def _rows(job: Job, bills: Mapping[str, Bill], system: System) -> list[Record]:
    return [{"method": title, **row} for title, bill in bills.items() for row in _bill(job, bill, system)]


def parts_only(bill: pd.DataFrame) -> pd.DataFrame:
    """The rows of parts alone, with quantity, mass, price and labour."""
    (mass,) = (column for column in bill.columns if column.startswith("mass_"))
    return bill.loc[bill["level"] == PART, [*PART_COLUMNS, mass, "unit_price", "price", "labour_h"]]


def _bill(job: Job, bill: Bill, system: System) -> Iterator[Record]:
    """Rows of one bill, group by group."""
    rate, mass = job.hardware.labour_rate, with_unit("mass", dimension="mass", system=system)
    rows = [*(_line(item, rate, system) for item in bill.items), _modules(job, bill, system)]
    for group in (*GROUPS, OTHER_PARTS, MODULES):
        own = [row for row in rows if row["group"] == group]
        if own:
            yield from own
            yield {"level": SUBTOTAL, "group": group, "part": f"subtotal, {group}", **_sums(own, (*mass, *SUMMED))}
    yield {"level": TOTAL, "part": "total", **_sums(rows, (*mass, *SUMMED))}


def _line(item: BillLine, rate: float, system: System) -> Record:
    is_bar = item.stock_length is not None
    return {
        "level": PART,
        "group": group_of(item.part),
        "part_id": item.part,
        "part": item.name,
        "part_number": item.part_number,
        "quantity": whole(item.quantity),
        "unit": item.unit,
        "spares": item.spares,
        "to_order": whole(item.ordered),
        **measure("stock_length", "length", item.stock_length, system),
        **measure("offcut", "length", item.offcut if is_bar else None, system),
        **measure("mass", "mass", item.mass, system),
        "unit_price": item.unit_price,
        "price": item.price,
        "labour_h": item.hours,
        "labour_price": item.hours * rate,
        "total_price": item.price + item.hours * rate,
    }


def _modules(job: Job, bill: Bill, system: System) -> Record:
    price = bill.module_hours * job.hardware.labour_rate
    return {
        "level": PART,
        "group": MODULES,
        "part_id": "module",
        "part": "modules (not priced)",
        "quantity": bill.modules,
        "unit": "pieces",
        **measure("mass", "mass", bill.module_mass, system),
        "spares": 0,
        "to_order": bill.modules,
        "labour_h": bill.module_hours,
        "labour_price": price,
        "total_price": price,
    }


def _sums(rows: Sequence[Record], columns: Sequence[str]) -> Record:
    return {column: sum(float(row.get(column) or 0.0) for row in rows) for column in columns}


def cut_list_table(comparison: Comparison, system: System = "us") -> pd.DataFrame:
    """One row a method, part and length of bar: how many, how long together."""
    length, total = with_unit("length", "total_length", system=system)
    records = [
        {
            "method": column.title,
            "part_id": item.part,
            "part": item.name,
            "part_number": item.part_number,
            "bars": count,
            **measure("length", "length", bar, system),
            **measure("total_length", "length", count * bar, system),
        }
        for column in comparison.columns
        for item in _bars(column)
        for bar, count in sorted(Counter(round(bar, DECIMALS) for bar in item.lengths).items(), reverse=True)
    ]
    return table_of(records, ("method", "part_id", "part", "part_number", "bars", length, total))


def cutting_table(comparison: Comparison, system: System = "us") -> pd.DataFrame:
    """One row a method, part and kind of cut: how many stock lengths are cut into which pieces.

    `pieces` are in feet and inches, or in millimetres.
    """
    lengths = with_unit("stock_length", "rest", system=system)
    records = [
        {
            "method": column.title,
            "part_id": cut.part,
            "part": cut.name,
            "part_number": cut.part_number,
            "stock_lengths": count,
            **measure("stock_length", "length", cut.stock_length, system),
            "pieces": Tape(system).pieces(pieces)[0],
            **measure("rest", "length", cut.stock_length - sum(pieces), system),
        }
        for column in comparison.columns
        if column.design
        for cut in setting_out(column.design).cut_bars
        for count, pieces in cut.stock_pieces
    ]
    names = ("method", "part_id", "part", "part_number")
    return table_of(records, (*names, "stock_lengths", lengths[0], "pieces", lengths[1]))


def _bars(column: Column) -> list[BillLine]:
    return [item for item in column.design.bill.items if item.lengths] if column.design else []


def differences_table(comparison: Comparison) -> pd.DataFrame:
    """One row a part, subtotal and total; by method what to order, its price with labour, and the difference.

    The difference is from the cheapest method of those with the best verdict; a method without the part has 0.
    """
    job, base = comparison.scenario.job, cheapest(comparison)
    bills = {column.id: _by_key(job, column.design.bill) for column in comparison.columns if column.design}
    keys = sorted(dict.fromkeys(key for bill in bills.values() for key in bill), key=_reading_order)
    records = [
        {"level": key[0], "group": key[1], "part": key[2], **_side_by_side(bills, base.id if base else "", key)}
        for key in keys
    ]
    by_method = [f"{id_}_{name}" for id_ in bills for name in ("to_order", "total_price", "difference")]
    return table_of(records, ("level", "group", "part", *by_method))


Key = tuple[str, Cell, Cell]


def _by_key(job: Job, bill: Bill) -> dict[Key, Record]:
    """Level, group and part → the row of a bill."""
    return {(str(row["level"]), row.get("group"), row["part"]): row for row in _bill(job, bill, "us")}


def _reading_order(key: Key) -> tuple[int, bool]:
    """Groups in the order of a bill, each subtotal after its parts, the total last."""
    level, group, _ = key
    groups = (*GROUPS, OTHER_PARTS, MODULES)
    return (groups.index(group) if isinstance(group, str) else len(groups)), level != PART


def _side_by_side(bills: Mapping[str, Mapping[Key, Record]], base: str, key: Key) -> Record:
    prices = {id_: float(bill.get(key, {}).get("total_price") or 0.0) for id_, bill in bills.items()}
    return {
        name: cell
        for id_, bill in bills.items()
        for name, cell in (
            (f"{id_}_to_order", bill.get(key, {}).get("to_order")),
            (f"{id_}_total_price", prices[id_]),
            (f"{id_}_difference", prices[id_] - prices[base]),
        )
    }
