"""The bills of all methods side by side, as rows: pieces, bars to cut, price, labour, mass."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from engine.bill.take_off import Bill, BillLine
from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Figure, Value, words
from engine.comparison.figures import value_of
from engine.project.hardware import Hardware
from engine.units import System, text

TOTALS = "totals"


def bill_rows(comparison: Comparison, system: System) -> tuple[Figure, ...]:
    """The rows in reading order, totals first; lengths in row names are in the units of `system`."""
    currency, hardware = comparison.scenario.job.currency, comparison.scenario.job.hardware
    spares = _by_part("spares", comparison, system, "count", lambda line: line.spares, "bought in addition")
    return (
        *_totals(currency, hardware.labour_rate),
        *_by_part("pieces", comparison, system, "count", lambda line: line.quantity, "bars in stock lengths"),
        *(spares if hardware.spares else ()),
        *_bars(comparison, system),
        *_by_part(f"price, {currency}", comparison, system, "money", lambda line: line.price, "pieces x unit price"),
        *_by_part("labour", comparison, system, "time", lambda line: line.hours, "to install"),
        _row("labour", "modules", "time", _from_bill(lambda bill: bill.module_hours), "to set"),
        *_by_part("mass", comparison, system, "mass", lambda line: line.mass, "bars by the length used"),
        _row("mass", "modules", "mass", _from_bill(lambda bill: bill.module_mass), "as their maker states"),
    )


def _row(group: str, label: str, dimension: str, value: Callable[[Column], Value], help_: str) -> Figure:
    """A row of the bill; it has no name in JSON and no explanation of its own."""
    return Figure("", group, words(label), words(help_), dimension, value, in_json=False)


def _totals(currency: str, rate: float) -> Iterator[Figure]:
    def figure(key: str) -> Callable[[Column], Value]:
        return lambda column: value_of(column, key)

    labour_cost = _from_bill(lambda bill: bill.hours * rate)
    per_watt = "total over the modules' rated power"
    yield _row(TOTALS, f"total, {currency}", "money", figure("total_cost"), "hardware and labour, without the modules")
    yield _row(TOTALS, f"hardware, {currency}", "money", figure("hardware_cost"), "all pieces and bars")
    yield _row(TOTALS, f"labour, {currency}", "money", labour_cost, "at the labour rate")
    yield _row(TOTALS, "labour", "time", figure("labour_hours"), "setting the modules included")
    yield _row(TOTALS, f"{currency} per watt", "unit price", figure("cost_per_watt"), per_watt)
    yield _row(TOTALS, "mass", "mass", figure("mass_kg"), "modules and hardware")


def _from_bill(value: Callable[[Bill], float]) -> Callable[[Column], Value]:
    """A value of a method's bill; None where it has none."""
    return lambda column: value(column.design.bill) if column.design else None


def _lines(column: Column) -> tuple[BillLine, ...]:
    return column.design.bill.items if column.design else ()


def _by_part(
    group: str, comparison: Comparison, system: System, dimension: str, value: Callable[[BillLine], float], help_: str
) -> Iterator[Figure]:
    """One row a part, in the order in which the methods name them."""
    names = dict.fromkeys((line.part, line.name_and_number) for column in comparison.columns for line in _lines(column))
    for part, name in names:

        def total(column: Column, part: str = part) -> Value:
            found = [value(line) for line in _lines(column) if line.part == part]
            return sum(found) if found else None

        section = comparison.scenario.job.hardware.section(part)
        label = f"{name} of {text(section.stock_length, 'length', system)}" if section and group == "pieces" else name
        yield _row(group, label, dimension, total, help_)


def _bars(comparison: Comparison, system: System) -> Iterator[Figure]:
    """Numbers of bars by length, longest first, and the offcut of the stock that they are cut from."""
    lines = [line for column in comparison.columns for line in _lines(column) if line.lengths]
    help_ = "bars of this length; those longer than stock are spliced"
    for length in sorted({round(length, 6) for line in lines for length in line.lengths}, reverse=True):

        def count(column: Column, length: float = length) -> Value:
            return Counter(round(each, 6) for line in _lines(column) for each in line.lengths)[length] or None

        yield _row("bars to cut", text(length, "length", system), "count", count, help_)
    if lines:
        yield _row("bars to cut", "offcut", "length", _offcut, "remainder of the stock lengths")


def _offcut(column: Column) -> Value:
    offcuts = [line.offcut for line in _lines(column) if line.lengths]
    return sum(offcuts) if offcuts else None


def cheapest(comparison: Comparison) -> Column | None:
    """The cheapest of the methods with the best verdict, of those that have a bill."""
    priced = [column for column in comparison.columns if column.design]
    return min(priced, key=lambda column: (column.status.rank, column.total_cost or 0.0), default=None)


def price_source(comparison: Comparison) -> str:
    """The source of the prices, in one sentence."""
    if _prices(comparison.scenario.job.hardware) == _prices(Hardware()):
        return "Prices, minutes and labour rate are invented: put in your own."
    return "Prices, minutes and labour rate that the scenario does not state are invented."


def _prices(hardware: Hardware) -> tuple[object, ...]:
    """Everything that sets prices and minutes."""
    rail, rack = hardware.rail, hardware.rack_beam
    sections = (rail.price, rail.minutes, rack.price, rack.minutes)
    return (hardware.parts, *sections, hardware.module_minutes, hardware.labour_rate)
