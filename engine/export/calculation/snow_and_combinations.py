"""Snow, weight and load combinations in the calculation."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from engine.common.calculation import CalculationStep
from engine.common.combination import Combination
from engine.comparison.compare import Column, Comparison
from engine.export.calculation.shown_once import ShownOnce
from engine.export.document import Block, Grid, Heading, Words
from engine.export.stamp import Stamp
from engine.loads.interface import Loads
from engine.units import System, both, text, unit

GOVERNS = "\u00a0▲"


def blocks(comparison: Comparison, stamp: Stamp, once: ShownOnce) -> Iterator[Block]:
    """Snow cases, weights, then every combination with what it does to each method."""
    laid = [column for column in comparison.columns if column.design]
    if not laid:
        return
    system, words = comparison.scenario.standard.system, comparison.scenario.job.words
    yield Heading("Snow cases", 2)
    yield from _snow(laid, once, system)
    yield Heading("Weight of modules and hardware", 2)
    rows = tuple(_weight(each, system) for each in laid)
    yield Grid(("method", "modules and hardware", "on the roof they cover"), rows, numeric=(1, 2))
    checked = [column for column in laid if column.candidate]
    if checked:
        yield Heading("Combinations", 2)
        yield Words(
            f"Every combination, with the largest {words.of('uplift')} and {words.of('down load')} of one attachment "
            f"in it [{unit('force', stamp.system)}], and the components that it controls.{GOVERNS} marks what governs "
            "a method; that combination is in bold type.",
            quiet=True,
        )
        yield _combinations(checked, stamp.system)


def _snow(laid: list[Column], once: ShownOnce, system: System) -> Iterator[Block]:
    rows = dict[tuple[str, ...], list[str]]()
    for column in laid:
        assert column.design
        loads = column.design.loads
        for case in loads.snow_cases:
            yield from once.block(_snow_steps(loads, case))
            rows.setdefault(_snow_row(loads, case, system), []).append(column.title)
    if not rows:
        yield Words("No snow load.")
        return
    headings = ("case", "largest on modules", "largest on the roof alone", "methods")
    yield Words("Pressure on the horizontal projection, before any factor of a combination.", quiet=True)
    yield Grid(headings, tuple((*row, ", ".join(titles)) for row, titles in rows.items()), numeric=(1, 2))


def _snow_steps(loads: Loads, case: str) -> list[CalculationStep]:
    """Steps to the snow of a case on the module that has most of it."""
    steps, every = list[CalculationStep](), np.arange(len(loads.zone))
    loads.snow(case, every[[int(loads.snow(case, every).argmax())]], steps.append)
    return steps


def _snow_row(loads: Loads, case: str, system: System) -> tuple[str, ...]:
    on_modules = loads.snow(case, np.arange(len(loads.zone))).max()
    on_roof = loads.snow_on_roof(case, loads.roof_zones().places).max()
    return case, both(float(on_modules), "pressure", system), both(float(on_roof), "pressure", system)


def _weight(column: Column, system: System) -> tuple[str, ...]:
    assert column.design
    bill = column.design.bill
    return (
        column.title,
        both(bill.mass, "mass", system),
        both(bill.pressure_on(column.design.field), "pressure", system),
    )


def _combinations(checked: list[Column], system: System) -> Grid:
    """One row a combination; methods share the combinations of their standard, and may have further ones."""
    every: dict[str, Combination] = {}
    for column in checked:
        assert column.design
        every |= {each.name: each for each in column.design.loads.combinations}
    rows = [_combination_row(each, checked, system) for each in every.values()]
    governing = {column.controlling.combination for column in checked if column.controlling}
    return Grid(
        ("combination", *(column.title for column in checked), "controls"),
        tuple(rows),
        marked=tuple(number for number, name in enumerate(every) if name in governing),
        widths=(0, *(0 for _ in checked), 1),
    )


def _combination_row(combination: Combination, checked: list[Column], system: System) -> tuple[str, ...]:
    cells = [_largest(column, combination.name, system) for column in checked]
    controls = [found for column in checked if (found := _controlled(column, combination.name))]
    return combination.name, *cells, "; ".join(controls)


def _largest(column: Column, name: str, system: System) -> str:
    assert column.candidate
    demands = column.candidate.demands
    number = next((number for number, each in enumerate(demands.combinations) if each.name == name), None)
    if number is None:
        return "–"
    normal = demands.attachment_normal[:, number]
    sizes = (max(-float(normal.min()), 0.0), max(float(normal.max()), 0.0))
    return ", ".join(text(size, "force", system, with_unit=False) for size in sizes)


def _controlled(column: Column, name: str) -> str:
    """The components of a method that a combination controls: "rails: clip 0.95 ▲, seam bending 0.79"."""
    found = [
        f"{check.title} {check.utilisation:.2f}{GOVERNS if check is column.controlling else ''}"
        for check in column.checks.values()
        if check.combination == name and check.utilisation is not None
    ]
    return f"{column.title}: {', '.join(found)}" if found else ""
