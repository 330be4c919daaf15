"""Wind in the calculation: site, zones, and pressures by zone and effective area, on the modules and on the roof."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from engine.common.arrays import Floats
from engine.common.calculation import CalculationStep
from engine.comparison.compare import Comparison
from engine.design.design import Design
from engine.export.calculation.shown_once import ShownOnce
from engine.export.document import Block, Grid, Heading, Words
from engine.export.stamp import Stamp
from engine.loads.interface import Loads
from engine.mounting.layout import Rectangles
from engine.units import FOOT, System, text

AREAS: dict[System, tuple[float, ...]] = {"us": (5, 10, 20, 50, 100, 500), "si": (0.5, 1, 2, 5, 10, 50)}
"""Effective wind areas of the tables, in ft² and m²."""

WORKED = 2
"""Number of the area whose pressure is worked out step by step: that of one module, nearly."""

READING: dict[System, str] = {
    "us": "psf, in brackets kPa; before any factor of a combination. Worked out for the first zone at 20 ft2; values "
    "between the areas follow the same equations.",
    "si": "kPa, in brackets psf; before any factor of a combination. Worked out for the first zone at 2 m2; values "
    "between the areas follow the same equations.",
}

Row = tuple[str, ...]


def blocks(comparison: Comparison, stamp: Stamp, once: ShownOnce) -> Iterator[Block]:
    """Zones, then pressures on modules and on the roof alone."""
    designs = [column.design for column in comparison.columns if column.design]
    if not designs:
        yield Words("No method could be laid out: there are no loads.")
        return
    yield Heading("Zones of the roof", 2)
    for design in designs:
        yield from once.block(design.loads.roof_zones().widths)
    yield Heading("Pressure on the modules, by zone and effective area", 2)
    yield Words(READING[stamp.system], quiet=True)
    for design in designs:
        yield from once.block(_worked(design.loads, stamp.system))
    yield _grid("mounting", _on_modules(comparison, stamp.system), stamp.system)
    yield Heading("Pressure on the roof without the array, by zone and effective area", 2)
    yield from once.block(_worked_on_roof(designs[0].loads, stamp.system))
    yield _grid("", tuple(_on_roof(designs[0].loads, stamp.system)), stamp.system)


def _grid(first: str, rows: tuple[Row, ...], system: System) -> Grid:
    unit = {"us": "ft2", "si": "m2"}[system]
    headings = (*([first] if first else []), "case", "zone", *(f"{area:g} {unit}" for area in AREAS[system]))
    return Grid(headings, rows, numeric=tuple(range(len(headings) - len(AREAS[system]), len(headings))))


def _areas(system: System) -> Floats:
    return np.array(AREAS[system]) * (FOOT**2 if system == "us" else 1.0)


def _worked(loads: Loads, system: System) -> list[CalculationStep]:
    """Steps to each wind case on the first module, at one area."""
    steps = list[CalculationStep]()
    if not loads.outside:
        for case in loads.wind_cases:
            loads.wind(case, np.zeros(1, dtype=np.int64), _areas(system)[[WORKED]], steps.append)
    return steps


def _on_modules(comparison: Comparison, system: System) -> tuple[Row, ...]:
    """One row a wind case and kind of module; methods with the same wind share their rows."""
    sharing: dict[tuple[Row, ...], list[str]] = {}
    for column in comparison.columns:
        if column.design and not column.design.loads.outside:
            sharing.setdefault(tuple(_of_design(column.design, system)), []).append(column.title)
    return tuple((", ".join(titles), *row) for rows, titles in sharing.items() for row in rows)


def _of_design(design: Design, system: System) -> Iterator[Row]:
    loads, areas = design.loads, _areas(system)
    _, first = np.unique(loads.kind, return_index=True)
    for case in loads.wind_cases:
        rows = dict.fromkeys(
            (
                case,
                loads.zone_names[loads.zone[module]] + (", exposed" if loads.exposed[module] else ""),
                *_cells(loads.wind(case, np.full(len(areas), module), areas), system),
            )
            for module in first
        )
        yield from rows


def _on_roof(loads: Loads, system: System) -> Iterator[Row]:
    """One row a wind case and zone, with the largest pressure of its places."""
    zones, areas = loads.roof_zones(), _areas(system)
    for case in loads.wind_cases:
        for number, name in enumerate(zones.names):
            own = zones.places.subset(zones.zone == number)
            if len(own):
                found = [loads.cladding_pressure(case, own, area=np.full(len(own), area)) for area in areas]
                largest = [float(pressures[np.abs(pressures).argmax()]) for pressures in found]
                yield (case, name, *_cells(np.array(largest), system))


def _worked_on_roof(loads: Loads, system: System) -> list[CalculationStep]:
    """Steps to each wind case on the first zone of the roof, at one area."""
    steps, zones = list[CalculationStep](), loads.roof_zones()
    first: Rectangles = zones.places.subset(np.arange(len(zones.places)) == 0)
    for case in loads.wind_cases:
        loads.cladding_pressure(case, first, steps.append, _areas(system)[[WORKED]])
    return steps


def _cells(pressures: Floats, system: System) -> tuple[str, ...]:
    other: System = "si" if system == "us" else "us"
    return tuple(
        f"{text(value, 'pressure', system, with_unit=False)} ({text(value, 'pressure', other, with_unit=False)})"
        for value in pressures.tolist()
    )
