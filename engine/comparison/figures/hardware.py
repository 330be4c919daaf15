"""Weight of the array, and holes in the roof."""

from __future__ import annotations

from engine.bill.take_off import Bill, penetrations
from engine.common.calculation import SCENARIO, STATICS, Term
from engine.comparison.compare import Column
from engine.comparison.figure import NOT_IN_TABLE, Figure, FigureContext, Steps, Value, step, value_step, words
from engine.links.trail_terms import identifier
from engine.units import GRAVITY

GROUP = "hardware"


def _bill(column: Column) -> Bill | None:
    return column.design.bill if column.design else None


def _mass(column: Column) -> Value:
    bill = _bill(column)
    return bill.mass if bill else None


def _power(column: Column) -> Value:
    bill = _bill(column)
    return bill.power if bill else None


def _dead_load(column: Column) -> Value:
    return column.design.bill.pressure_on(column.design.field) if column.design else None


def _line_load(column: Column) -> Value:
    if column.design is None:
        return None
    return column.design.bill.pressure_on(column.design.field) * column.design.job.roof.support_spacing


def _penetrations(column: Column) -> Value:
    return penetrations(column.design.job, column.design.layout) if column.design else None


def _explain_mass(context: FigureContext) -> Steps:
    bill = context.design.bill
    terms = {"modules": context.term(bill.module_mass, "mass")}
    terms |= {identifier(line.name): context.term(line.mass, "mass") for line in bill.items}
    total = context.term(bill.mass, "mass")
    return (step("m", "mass of modules and hardware", total, " + ".join(terms), terms),)


def _explain_dead_load(context: FigureContext) -> Steps:
    bill, field = context.design.bill, context.design.field
    terms = {"W": context.term(bill.mass * GRAVITY, "force"), "A": context.term(field.covered, "area")}
    pressure = context.term(bill.pressure_on(field), "pressure")
    meaning = "weight of modules and hardware over the area that the modules cover"
    return (step("p", meaning, pressure, "W / A", terms, STATICS), *_explain_mass(context))


def _explain_line_load(context: FigureContext) -> Steps:
    spacing, pressure = context.job.roof.support_spacing, context.design.bill.pressure_on(context.design.field)
    terms = {"p": context.term(pressure, "pressure"), "s": context.term(spacing, "length")}
    load = context.term(pressure * spacing, "line load")
    meaning = "added line load on a purlin, or row of fastenings, at their spacing s"
    return (step("w", meaning, load, "p * s", terms, STATICS), *_explain_dead_load(context))


def _explain_penetrations(context: FigureContext) -> Steps:
    hardware, count = context.job.hardware, len(context.design.layout.attachments)
    if not hardware.pierces:
        meaning = f"a {hardware.bracket} grips the roof and makes no hole"
        return (value_step("holes", meaning, Term(0), SCENARIO),)
    terms = {"n": Term(count), "screws": Term(hardware.screws_per_attachment)}
    total = Term(penetrations(context.job, context.design.layout))
    return (step("holes", "screws through the sheet, of every attachment", total, "n * screws", terms),)


FIGURES = (
    Figure(
        "mass_kg",
        GROUP,
        words("mass"),
        words("modules and hardware"),
        "mass",
        value=_mass,
        explain=_explain_mass,
        better="less",
    ),
    Figure(
        "dead_load_pa",
        GROUP,
        words("added weight"),
        words("mass over the area that the modules cover"),
        "pressure",
        value=_dead_load,
        explain=_explain_dead_load,
        better="less",
    ),
    Figure(
        "support_line_load_n_per_m",
        GROUP,
        words("added line load on a purlin"),
        words("added weight along each purlin or row of fastenings"),
        "line load",
        value=_line_load,
        explain=_explain_line_load,
        better="less",
    ),
    Figure(
        "penetrations",
        GROUP,
        words("roof penetrations"),
        words("screws through the sheet; each is sealed"),
        "count",
        value=_penetrations,
        explain=_explain_penetrations,
        better="less",
    ),
    Figure("power_w", NOT_IN_TABLE, words("power"), words("rated power of the modules"), "power", value=_power),
)
