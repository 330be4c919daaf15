"""The subjects of a comparison as tables: its figures, links, bills, inputs, flags."""

from __future__ import annotations

from collections.abc import Iterator

from engine.comparison.attachment_schedule import schedule
from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Figure
from engine.comparison.figures import table_figures
from engine.export.attachments import attachment_table
from engine.export.table import Cell, Heading, Subject, figure, measured, unit_and_figures
from engine.links import Check
from engine.scenario.listing import inputs_of
from engine.units import System, number, unit


def figures(comparison: Comparison, system: System) -> Subject:
    """The comparison itself: one row a figure, one column a method."""
    headings = (
        Heading("group"),
        Heading("figure"),
        Heading("unit"),
        *(Heading(column.title, 2) for column in comparison.columns),
    )
    return Subject("comparison", headings, [list(_figure(each, comparison, system)) for each in table_figures()])


def _figure(row: Figure, comparison: Comparison, system: System) -> Iterator[Cell]:
    yield from (row.group, row.label(comparison.scenario.job), unit(row.dimension, system) if row.dimension else "")
    for column in comparison.columns:
        value = row.table_value(column)
        yield number(value, row.dimension, system) if isinstance(value, float) else value


def links(comparison: Comparison, system: System) -> Subject:
    """Every link of every method."""
    by_method = [(column.title, links_of(column, system)) for column in comparison.columns]
    found = [[title, *row] for title, subject in by_method for row in subject.rows]
    return Subject("links", (Heading("method"), *_link_headings(system)), found)


def links_of(column: Column, system: System) -> Subject:
    """Every link of one method."""
    return Subject("links", _link_headings(system), [list(_link(check, system)) for check in column.checks.values()])


def _link_headings(system: System) -> tuple[Heading, ...]:
    measures = Heading("demand", 2), Heading("resistance", 2), Heading("utilisation", 2)
    places = measured("from rake", "length", system), measured("from eave", "length", system)
    ending = (Heading("verdict"), Heading("combination"), Heading("where"), *places, Heading("note"))
    return (Heading("link"), Heading("unit"), *measures, *ending)


def _link(check: Check, system: System) -> Iterator[Cell]:
    yield check.title
    yield from unit_and_figures(check.dimension, system, check.demand, check.resistance)
    yield check.utilisation
    yield "not checked" if check.utilisation is None else "holds" if check.holds else "over"
    yield from (check.combination or None, check.place.name or None)
    yield from (figure(place, "length", system) for place in (check.place.x, check.place.y))
    yield check.note or None


def bill(comparison: Comparison, system: System) -> Subject:
    """What every method is built of."""
    currency = comparison.scenario.job.currency
    money = Heading(f"unit price [{currency}]", 2), Heading(f"price [{currency}]", 2)
    headings = (
        *map(Heading, ("method", "part")),
        Heading("quantity", 0),
        Heading("unit"),
        measured("mass", "mass", system),
        *money,
    )
    found: list[list[Cell]] = []
    for column in comparison.columns:
        for item in column.design.bill.items if column.design else ():
            mass = figure(item.mass, "mass", system)
            found.append(
                [column.title, item.name, item.quantity, item.unit, mass, item.unit_price, item.price, item.hours]
            )
        if column.design:
            modules = column.design.bill
            mass = figure(modules.module_mass, "mass", system)
            found.append(
                [
                    column.title,
                    "modules (not priced)",
                    column.design.field.modules,
                    "pieces",
                    mass,
                    None,
                    None,
                    modules.module_hours,
                ]
            )
    return Subject("bill", (*headings, measured("labour", "time", system)), found)


def every_attachment(comparison: Comparison) -> Subject:
    """The attachments of all methods, one below the other."""
    job = comparison.scenario.job
    laid = [(column, column.design) for column in comparison.columns if column.design]
    found = {column.title: attachment_table(column, schedule(design), job.roof.rib_word) for column, design in laid}
    headings = next((subject.headings for subject in found.values()), ())
    rows = [[title, *row] for title, subject in found.items() for row in subject.rows]
    return Subject("attachments", (Heading("method"), *headings), rows)


def inputs(comparison: Comparison, system: System) -> Subject:
    """Every input: as written, and as a bare number in the unit shown."""
    titles = ("input", "as written", "value", "unit", "from", "meaning")
    found: list[list[Cell]] = []
    for row in inputs_of(comparison.scenario):
        value = row.value if row.value is None or not row.dimension else number(row.value, row.dimension, system)
        shown = unit(row.dimension, system) if row.dimension else ""
        found.append([row.path, row.written, value, shown, "file" if row.stated else "default", row.help])
    return Subject("inputs", tuple(map(Heading, titles)), found)


def flags(comparison: Comparison) -> Subject:
    """What must not be missed, method by method."""
    found: list[list[Cell]] = [
        [column.title, flag.severity, flag.code, flag.text] for column in comparison.columns for flag in column.flags
    ]
    return Subject("flags", tuple(map(Heading, ("method", "severity", "code", "text"))), found)
