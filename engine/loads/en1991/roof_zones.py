"""Zones F to J of a slope in four winds, EN 1991-1-4 figures 7.6 to 7.8, on the plan.

A strip e/10 deep lies along the windward edge: F at its two ends, e/4 long, and G between; e = min(b, 2 h), b across
the wind. A part of the roof takes the worst coefficient of all zones that it touches, over all winds. Suction and
pressure are not mixed on one slope: each has its own entries.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import CalculationStep, Term
from engine.common.tolerances import MILLIMETRE, SAME_LENGTH
from engine.loads.en1991 import coefficients as tables
from engine.loads.en1991.coefficients import Coefficient, Table, coefficient
from engine.loads.en1991.peak_velocity_pressure import height_of_roof, is_flat
from engine.loads.en1991.references import WIND, clause
from engine.loads.interface import RoofZones
from engine.mounting.layout import Rectangles
from engine.project.building import Building

EAVE, HIGH, LEFT, RIGHT = (
    "wind on the eave",
    "wind on the other long side",
    "wind on the left rake",
    "wind on the right rake",
)


@dataclass(frozen=True)
class Zone:
    """One zone in one wind: its coefficient, and its rectangle on the plan from eave and left rake [m]."""

    name: str
    wind: str
    coefficient: Coefficient
    x: tuple[float, float]
    y: tuple[float, float]


@dataclass(frozen=True)
class _Wind:
    """One wind on the plan: `d` along it and `b` across it [m]; `e` as in the figures."""

    name: str
    building: Building

    @property
    def along_x(self) -> bool:
        return self.name in (LEFT, RIGHT)

    @property
    def d(self) -> float:
        return self.building.length if self.along_x else self.building.width

    @property
    def b(self) -> float:
        return self.building.width if self.along_x else self.building.length

    @property
    def e(self) -> float:
        return min(self.b, 2 * height_of_roof(self.building))

    def place(self, along: tuple[float, float], across: tuple[float, float]) -> tuple[tuple[float, float], ...]:
        """X and y of a rectangle given along the wind, from the windward edge, and across it, clipped to the slope."""
        start, end = min(along[0], self.d), min(along[1], self.d)
        if self.name in (HIGH, RIGHT):
            start, end = self.d - end, self.d - start
        x, y = ((start, end), across) if self.along_x else (across, (start, end))
        run = self.building.run
        return x, (min(y[0], run), min(y[1], run))


def zones_of(building: Building) -> tuple[Zone, ...]:
    """Every zone of the slope with the array, in every wind, suction and pressure; empty ones left out."""
    shape = _flat if is_flat(building) else _duopitch if building.has_ridge else _monopitch
    return tuple(zone for zone in shape(building) if _length(zone.x) > MILLIMETRE and _length(zone.y) > MILLIMETRE)


def _length(ends: tuple[float, float]) -> float:
    return ends[1] - ends[0]


def _flat(building: Building) -> Iterator[Zone]:
    parapet = building.parapet_height / height_of_roof(building)
    for name in (EAVE, HIGH, LEFT, RIGHT):
        wind = _Wind(name, building)
        for table in (tables.FLAT, tables.FLAT_DOWN):
            yield from _of(wind, "flat", table, parapet, [*_corners("F", "F", wind), *_behind(wind)])


def _monopitch(building: Building) -> Iterator[Zone]:
    for table in (tables.WINDWARD, tables.WINDWARD_DOWN):
        yield from _across_ridge(_Wind(EAVE, building), "monopitch", table)
    yield from _across_ridge(_Wind(HIGH, building), "monopitch", tables.HIGH_EAVE)
    for name in (LEFT, RIGHT):
        wind = _Wind(name, building)
        strips = [*_corners("Flow", "Fup", wind), *_behind(wind)]
        yield from _of(wind, "monopitch", tables.MONOPITCH_ALONG, building.slope, strips)


def _duopitch(building: Building) -> Iterator[Zone]:
    for table in (tables.WINDWARD, tables.WINDWARD_DOWN):
        yield from _across_ridge(_Wind(EAVE, building), "duopitch", table)
    lee = _Wind(HIGH, building)
    ridge, across = lee.d / 2, (0.0, lee.b)
    strips = [("J", (ridge, ridge + lee.e / 10), across), ("I", (ridge + lee.e / 10, lee.d), across)]
    for table in (tables.LEEWARD, tables.LEEWARD_DOWN):
        yield from _of(lee, "duopitch", table, building.slope, strips)
    for name in (LEFT, RIGHT):
        wind = _Wind(name, building)
        yield from _of(wind, "duopitch", tables.DUOPITCH_ALONG, building.slope, [*_gable_end(wind), *_behind(wind)])


Strip = tuple[str, tuple[float, float], tuple[float, float]]
"""Name of a zone, its extent along the wind and across it [m]."""


def _corners(low: str, high: str, wind: _Wind) -> Iterator[Strip]:
    """The windward strip: F at both ends, here by their names, and G between."""
    depth, end = (0.0, wind.e / 10), wind.e / 4
    yield low, depth, (0.0, end)
    yield high, depth, (wind.b - end, wind.b)
    yield "G", depth, (end, wind.b - end)


def _gable_end(wind: _Wind) -> Iterator[Strip]:
    """The windward strip of one of two slopes: F at the eave, G to the ridge."""
    depth, end = (0.0, wind.e / 10), wind.e / 4
    yield "F", depth, (0.0, end)
    yield "G", depth, (end, wind.b)


def _behind(wind: _Wind) -> Iterator[Strip]:
    """Behind the windward strip: H to e/2, I beyond."""
    yield "H", (wind.e / 10, wind.e / 2), (0.0, wind.b)
    yield "I", (wind.e / 2, wind.d), (0.0, wind.b)


def _across_ridge(wind: _Wind, roof: str, table: Table) -> Iterator[Zone]:
    """Wind on a long side: the windward strip, and H to the end of the slope."""
    strips = [*_corners("F", "F", wind), ("H", (wind.e / 10, wind.d), (0.0, wind.b))]
    yield from _of(wind, roof, table, wind.building.slope, strips)


def _of(wind: _Wind, roof: str, table: Table, value: float, strips: list[Strip]) -> Iterator[Zone]:
    """The zones of strips that have a row in a table."""
    for name, along, across in strips:
        if name in table:
            x, y = wind.place(along, across)
            yield Zone(name, wind.name, coefficient(roof, table[name], value), x, y)


@dataclass(frozen=True, eq=False)
class SlopeZones:
    """All zones of a slope, as arrays over the k entries of `zones`."""

    building: Building
    zones: tuple[Zone, ...]

    @classmethod
    def of(cls, building: Building) -> SlopeZones:
        """The zones of a building's slope."""
        return cls(building, zones_of(building))

    @cached_property
    def names(self) -> tuple[str, ...]:
        """Names of the zones, smallest suction on small areas first."""
        worst: dict[str, float] = {}
        for zone in self.zones:
            worst[zone.name] = min(zone.coefficient.pair[1], worst.get(zone.name, 0.0))
        return tuple(sorted(worst, key=lambda name: (-worst[name], name)))

    @cached_property
    def _bounds(self) -> Floats:
        """X from and to, y from and to of every entry (4, k) [m]."""
        return np.array([(*zone.x, *zone.y) for zone in self.zones]).T

    @cached_property
    def _pairs(self) -> Floats:
        """cpe,10 and cpe,1 of every entry (2, k)."""
        return np.array([zone.coefficient.pair for zone in self.zones]).T

    def touched(self, places: Rectangles) -> Bools:
        """True for each entry that a rectangle touches (n, k); a place on a border touches both sides."""
        cosine = np.cos(np.radians(self.building.slope))
        x_from, x_to, y_from, y_to = self._bounds
        return _overlap(places.left, places.right, x_from, x_to) & _overlap(
            places.low * cosine, places.high * cosine, y_from, y_to
        )

    def coefficients(self, area: Floats) -> Floats:
        """Cpe of every entry at each loaded area (n,) [m²], 7.2.1: cpe,1 to 1 m², cpe,10 from 10 m² (n, k)."""
        ten, one = self._pairs
        decades = np.clip(np.log10(area), 0.0, 1.0)[:, None]
        values: Floats = one - (one - ten) * decades
        return values

    def labels(self, touched: Bools) -> Ints:
        """The zone of each part for labels, the last of `names` that it touches (n,)."""
        number = np.array([self.names.index(zone.name) for zone in self.zones])
        last: Ints = np.where(touched, number, 0).max(axis=1)
        return last

    def regions(self) -> RoofZones:
        """Rectangles that cover the slope, cut at every border of a zone, each with its worst zone."""
        cosine = float(np.cos(np.radians(self.building.slope)))
        x_from, x_to, y_from, y_to = self._bounds
        x, y = _cuts(x_from, x_to), _cuts(y_from, y_to) / cosine
        left, low = (np.ravel(sides) for sides in np.meshgrid(x[:-1], y[:-1], indexing="ij"))
        right, high = (np.ravel(sides) for sides in np.meshgrid(x[1:], y[1:], indexing="ij"))
        places = Rectangles(left, low, right, high)
        widths = (*_width_steps(_Wind(EAVE, self.building)), *_width_steps(_Wind(LEFT, self.building)))
        return RoofZones(places, self.labels(self.touched(places)), self.names, widths)


def _width_steps(wind: _Wind) -> Iterator[CalculationStep]:
    """Steps to e and the widths of the zones in one wind, figures 7.6 to 7.8 [m]."""
    terms = {"b": Term(wind.b, "m"), "h": Term(height_of_roof(wind.building), "m")}
    name, source = wind.name.replace("the left rake", "a rake"), clause(WIND, "figures 7.6 to 7.8")
    yield CalculationStep("e", f"{name}: size that sets the zones", Term(wind.e, "m"), "min(b, 2 * h)", terms, source)
    for part, meaning in ((10, "depth of F, G and J"), (4, "length of F"), (2, "end of H")):
        size, e = Term(wind.e / part, "m"), {"e": Term(wind.e, "m")}
        yield CalculationStep("b", f"{name}: {meaning}", size, f"e / {part}", e, source)


def _overlap(start: Floats, end: Floats, first: Floats, last: Floats) -> Bools:
    """True where stretches (n,) and entries (k,) overlap by more than rounding (n, k)."""
    least = np.minimum(SAME_LENGTH, (end - start) / 2)[:, None]
    overlap: Bools = (start[:, None] <= last - least) & (end[:, None] >= first + least)
    return overlap


def _cuts(*borders: Floats) -> Floats:
    """Borders in order [m]; those within a millimetre are one."""
    cuts = np.unique(np.concatenate(borders))
    return cuts[np.diff(cuts, prepend=-1.0) > MILLIMETRE]
