"""Money and labour, line by line of the bill."""

from __future__ import annotations

from engine.bill.take_off import Bill, BillLine
from engine.common.calculation import SCENARIO, CalculationStep, Term
from engine.comparison.compare import Column
from engine.comparison.figure import Figure, FigureContext, Steps, Value, step, words
from engine.design.placeholders import has_placeholder_prices
from engine.links.trail_terms import identifier

GROUP = "money"


def _bill(column: Column) -> Bill | None:
    return column.design.bill if column.design else None


def prices_are_stated(column: Column) -> bool:
    """True if no price in the method's bill is a placeholder."""
    return column.design is not None and not has_placeholder_prices(column.design)


def _hardware_cost(column: Column) -> Value:
    bill = _bill(column)
    return bill.hardware_cost if bill else None


def _labour(column: Column) -> Value:
    bill = _bill(column)
    return bill.hours if bill else None


def _per_watt(column: Column) -> float | None:
    bill, total = _bill(column), column.total_cost
    return total / bill.power if bill and bill.power and total is not None else None


def _explain_hardware(context: FigureContext) -> Steps:
    bill = context.design.bill
    terms = {identifier(line.name): context.money(line.price) for line in bill.items}
    total = context.money(bill.hardware_cost)
    first = step("hardware", "price of the hardware", total, " + ".join(terms), terms)
    return (first, *(_price_step(context, line) for line in bill.items))


def _price_step(context: FigureContext, line: BillLine) -> CalculationStep:
    terms = {"quantity": Term(line.ordered, line.unit), "price": context.money(line.unit_price)}
    spares = f", {line.spares} spares included" if line.spares else ""
    meaning = f"{line.name}{spares}, at the scenario's price"
    return step(identifier(line.name), meaning, context.money(line.price), "quantity * price", terms, SCENARIO)


def _explain_labour(context: FigureContext) -> Steps:
    bill = context.design.bill
    terms = {"modules": Term(bill.module_hours, "h")}
    terms |= {identifier(line.name): Term(line.hours, "h") for line in bill.items}
    meaning = "labour, at the scenario's minutes a piece, setting the modules included"
    return (step("labour", meaning, Term(bill.hours, "h"), " + ".join(terms), terms),)


def _explain_total(context: FigureContext) -> Steps:
    bill, rate = context.design.bill, context.job.hardware.labour_rate
    terms = {
        "hardware": context.money(bill.hardware_cost),
        "labour": Term(bill.hours, "h"),
        "rate": context.money(rate),
    }
    total = context.money(context.design.total_cost)
    first = step("total", "hardware and labour, at the rate an hour", total, "hardware + labour * rate", terms)
    return (first, *_explain_labour(context), *_explain_hardware(context))


def _explain_per_watt(context: FigureContext) -> Steps:
    total, per_watt = context.column.total_cost, _per_watt(context.column)
    if total is None or per_watt is None:
        return ()
    terms = {"total": context.money(total), "power": Term(context.design.bill.power, "W")}
    first = step("per_watt", "total over the modules' rated power", context.money(per_watt), "total / power", terms)
    return (first, *_explain_total(context))


FIGURES = (
    Figure(
        "hardware_cost",
        GROUP,
        lambda job: f"hardware, {job.currency}",
        words("at the prices of the scenario's hardware"),
        "money",
        value=_hardware_cost,
        explain=_explain_hardware,
        better="less",
        is_stated=prices_are_stated,
    ),
    Figure(
        "labour_hours",
        GROUP,
        words("labour"),
        words("hours to install modules and hardware"),
        "time",
        value=_labour,
        explain=_explain_labour,
        better="less",
    ),
    Figure(
        "total_cost",
        GROUP,
        lambda job: f"total, {job.currency}",
        words("hardware and labour, without the modules"),
        "money",
        value=lambda column: column.total_cost,
        explain=_explain_total,
        better="less",
        is_stated=prices_are_stated,
    ),
    Figure(
        "cost_per_watt",
        GROUP,
        lambda job: f"{job.currency} per watt",
        words("total over the modules' rated power"),
        "unit price",
        value=_per_watt,
        explain=_explain_per_watt,
        better="less",
        is_stated=prices_are_stated,
    ),
)
