"""The methods' bills side by side as rows: pieces, bars to cut, price, labour, mass."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from engine.bill.take_off import BillLine
from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Row, Value
from engine.project.hardware import Hardware
from engine.units import System, text


def bill_rows(comparison: Comparison, system: System) -> tuple[Row, ...]:
    """The rows in reading order, totals first; `system` is for the lengths that rows are named by."""
    currency, rate = comparison.scenario.job.currency, comparison.scenario.job.hardware.labour_rate
    return (
        Row(
            "in all",
            f"total, {currency}",
            "money",
            lambda c: c.total_cost,
            "hardware and labour; modules are not in it",
        ),
        Row("in all", f"hardware, {currency}", "money", lambda c: c.hardware_cost, "all pieces and bars"),
        Row(
            "in all",
            f"labour, {currency}",
            "money",
            lambda c: None if c.labour_hours is None else c.labour_hours * rate,
            "at the labour rate",
        ),
        Row("in all", "labour", "time", lambda c: c.labour_hours, "setting the modules included"),
        Row(
            "in all",
            f"{currency} per watt",
            "unit price",
            lambda c: c.cost_per_watt,
            "total over the modules' rated power",
        ),
        Row("in all", "mass", "mass", lambda c: c.mass, "modules and hardware"),
        *_each("pieces", comparison, system, "count", lambda item: item.quantity, "bars in stock lengths"),
        *_bars(comparison, system),
        *_each(f"price, {currency}", comparison, system, "money", lambda item: item.price, "quantity x unit price"),
        *_each("labour", comparison, system, "time", lambda item: item.hours, "to install"),
        Row("labour", "modules", "time", _of_bill("module_hours"), "to set"),
        *_each("mass", comparison, system, "mass", lambda item: item.mass, "bars by the length that is used"),
        Row("mass", "modules", "mass", _of_bill("module_mass"), "as their maker states"),
    )


def cheapest(comparison: Comparison) -> Column | None:
    """The method that costs least in all, of those that hold; where none holds, of all that have a bill."""
    priced = [column for column in comparison.columns if column.total_cost is not None]
    holding = [column for column in priced if column.status == "holds"]
    return min(holding or priced, key=lambda column: column.total_cost or 0.0, default=None)


def of_prices(comparison: Comparison) -> str:
    """Where the prices come from: one sentence."""
    if _asked(comparison.scenario.job.hardware) == _asked(Hardware()):
        return "Prices, minutes and labour rate are invented: put in your own."
    return "Prices, minutes and labour rate that the scenario leaves out are invented."


def _asked(hardware: Hardware) -> tuple[object, ...]:
    """All that sets what a bill comes to, but for the pieces."""
    rail, rack = hardware.rail, hardware.rack_beam
    return (
        hardware.parts,
        rail.price,
        rail.minutes,
        rack.price,
        rack.minutes,
        hardware.module_minutes,
        hardware.labour_rate,
    )


def _of_bill(name: str) -> Callable[[Column], Value]:
    def value(column: Column) -> Value:
        return getattr(column.design.bill, name) if column.design else None

    return value


def _items(column: Column) -> tuple[BillLine, ...]:
    return column.design.bill.items if column.design else ()


def _each(
    group: str, comparison: Comparison, system: System, dimension: str, figure: Callable[[BillLine], float], help_: str
) -> Iterator[Row]:
    """One row a part, in the order in which methods name them."""
    names = dict.fromkeys((item.part, item.name) for column in comparison.columns for item in _items(column))
    for part, name in names:

        def value(column: Column, part: str = part) -> Value:
            found = [figure(item) for item in _items(column) if item.part == part]
            return sum(found) if found else None

        section = comparison.scenario.job.hardware.section(part)
        label = f"{name} of {text(section.stock_length, 'length', system)}" if section and group == "pieces" else name
        yield Row(group, label, dimension, value, help_)


def _bars(comparison: Comparison, system: System) -> Iterator[Row]:
    """How many bars of each length, longest first, and what remains of the stock they are cut from."""
    items = [item for column in comparison.columns for item in _items(column) if item.lengths]
    for length in sorted({round(length, 6) for item in items for length in item.lengths}, reverse=True):

        def count(column: Column, length: float = length) -> Value:
            return Counter(round(each, 6) for item in _items(column) for each in item.lengths)[length] or None

        yield Row(
            "bars to cut",
            text(length, "length", system),
            "count",
            count,
            "bars of this length; those longer than stock are spliced",
        )
    if items:
        yield Row("bars to cut", "left over", "length", _offcut, "of the stock lengths, after cutting")


def _offcut(column: Column) -> Value:
    left = [item.offcut for item in _items(column) if item.lengths]
    return sum(left) if left else None
