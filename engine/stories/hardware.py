"""Weight, money and labour: the bill, line by line."""

from __future__ import annotations

from collections.abc import Callable

from engine.bill.take_off import BillLine
from engine.common.calculation import SCENARIO, STATICS, CalculationStep, Term
from engine.links.trail_terms import named
from engine.stories.told import Tell, Told, given, step
from engine.units import GRAVITY


def _sum(
    told: Told, symbol: str, meaning: str, total: Term, of: Callable[[BillLine], Term], first: dict[str, Term]
) -> CalculationStep:
    """A total over the lines of the bill."""
    lines = first | {named(item.name): of(item) for item in told.design.bill.items}
    return step(symbol, meaning, total, " + ".join(lines), lines)


def _mass(told: Told) -> tuple[CalculationStep, ...]:
    bill = told.design.bill
    modules = {"modules": told.term(bill.module_mass, "mass")}
    total = told.term(bill.mass, "mass")
    return (_sum(told, "m", "mass of modules and hardware", total, lambda item: told.term(item.mass, "mass"), modules),)


def _dead_load(told: Told) -> tuple[CalculationStep, ...]:
    field, weight = told.design.field, told.design.bill.mass * GRAVITY
    terms = {"W": told.term(weight, "force"), "A": told.term(field.covered, "area")}
    pressure = told.term(told.design.bill.pressure_on(field), "pressure")
    meaning = "weight of modules and hardware over the area the modules cover"
    return (step("p", meaning, pressure, "W / A", terms, STATICS), *_mass(told))


def _line_load(told: Told) -> tuple[CalculationStep, ...]:
    spacing, pressure = (
        told.comparison.scenario.job.roof.support_spacing,
        told.design.bill.pressure_on(told.design.field),
    )
    terms = {"p": told.term(pressure, "pressure"), "s": told.term(spacing, "length")}
    load = told.term(pressure * spacing, "line load")
    return (
        step("w", "added weight along each row of supports, at their spacing s", load, "p * s", terms, STATICS),
        *_dead_load(told),
    )


def _penetrations(told: Told) -> tuple[CalculationStep, ...]:
    hardware, attachments = told.comparison.scenario.job.hardware, len(told.design.layout.attachments)
    if not hardware.pierces:
        return (given("holes", f"a {hardware.bracket} grips the roof and pierces nothing", Term(0), SCENARIO),)
    terms = {"n": Term(attachments), "screws": Term(hardware.screws_per_attachment)}
    return (
        step(
            "holes",
            "screws through the sheet, of every attachment",
            Term(told.column.penetrations or 0),
            "n * screws",
            terms,
        ),
    )


def _price(told: Told) -> tuple[CalculationStep, ...]:
    bill = told.design.bill
    total = _sum(
        told,
        "hardware",
        "price of the hardware",
        told.money(bill.hardware_cost),
        lambda item: told.money(item.price),
        {},
    )
    return (total, *(_line(told, item) for item in bill.items))


def _line(told: Told, item: BillLine) -> CalculationStep:
    terms = {"quantity": Term(item.quantity, item.unit), "price": told.money(item.unit_price)}
    return step(
        named(item.name),
        f"{item.name}, at the scenario's price",
        told.money(item.price),
        "quantity * price",
        terms,
        SCENARIO,
    )


def _hours(told: Told) -> tuple[CalculationStep, ...]:
    bill = told.design.bill
    modules = {"modules": Term(bill.module_hours, "h")}
    meaning = "labour: minutes a piece as the scenario states them, modules included"
    return (_sum(told, "labour", meaning, Term(bill.hours, "h"), lambda item: Term(item.hours, "h"), modules),)


def _total(told: Told) -> tuple[CalculationStep, ...]:
    bill, rate = told.design.bill, told.comparison.scenario.job.hardware.labour_rate
    terms = {"hardware": told.money(bill.hardware_cost), "labour": Term(bill.hours, "h"), "rate": told.money(rate)}
    total = told.money(bill.total_cost(rate))
    return (
        step("total", "hardware and labour, at the rate an hour", total, "hardware + labour * rate", terms),
        *_hours(told),
        *_price(told),
    )


def _per_watt(told: Told) -> tuple[CalculationStep, ...]:
    if told.column.total_cost is None or told.column.cost_per_watt is None:
        return ()
    terms = {"total": told.money(told.column.total_cost), "power": Term(told.design.bill.power, "W")}
    return (
        step(
            "per_watt",
            "total over the modules' rated power",
            told.money(told.column.cost_per_watt),
            "total / power",
            terms,
        ),
        *_total(told),
    )


STORIES: dict[str, Tell] = {
    "mass_kg": _mass,
    "dead_load_pa": _dead_load,
    "support_line_load_n_per_m": _line_load,
    "penetrations": _penetrations,
    "hardware_cost": _price,
    "labour_hours": _hours,
    "total_cost": _total,
    "cost_per_watt": _per_watt,
}
