"""A made-up load standard: factored loads against design resistances. It is nobody's.

One pressure everywhere, half as much again in a strip at the eave; partial factors on both sides.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from dataclasses import field as dataclass_field
from typing import Annotated, ClassVar

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import Recorder, Reference, silent
from engine.common.combination import Combination
from engine.common.errors import Problem
from engine.common.vocabulary import DESIGN_VALUES, Vocabulary
from engine.loads.interface import DEAD_LOAD_ONLY, ExceededLimit, Remark, RoofZones, WeightCase
from engine.mounting.layout import Field, Rectangles
from engine.project.job import Job
from engine.schema import Choice, InputTable, Quantity, input_field
from engine.units import System

EAVE_STRIP = 3.0
STEEPEST = 30.0


class FactoredSite(InputTable):
    standard: Annotated[str, Choice(("Made-up 1",))] = input_field(description="the load standard")
    gust: Annotated[float, Quantity("pressure", "0 kPa", "20 kPa")] = input_field(description="the pressure of a gust")
    snow: Annotated[float, Quantity("pressure", "0 kPa", "20 kPa")] = input_field(
        "0 kPa", description="snow on the flat"
    )


@dataclass(frozen=True, eq=False)
class FactoredLoads:
    gust: float
    snow_load: float
    length: float
    slope_length: float
    zone: Ints
    exposed: Bools
    outside: tuple[ExceededLimit, ...] = ()
    unproven: str = ""
    remarks: tuple[Remark, ...] = ()
    zone_names: tuple[str, ...] = ("field", "eave")
    weight_cases: Mapping[str, WeightCase] = dataclass_field(default_factory=lambda: DEAD_LOAD_ONLY)
    wind_cases: tuple[str, ...] = ("gust up", "gust down")
    snow_cases: tuple[str, ...] = ("snow",)
    combinations: tuple[Combination, ...] = (
        Combination("1.35D + 1.5S", {"D": 1.35, "snow": 1.5}, "snow", 1.25),
        Combination("1.35D + 1.5W down", {"D": 1.35, "gust down": 1.5}, "wind", 1.25),
        Combination("1.0D + 1.5W up", {"D": 1.0, "gust up": 1.5}, "wind", 1.25),
    )

    @property
    def kind(self) -> Ints:
        return self.zone

    def wind(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        return np.where(self.zone[module] == 1, 1.5, 1.0) * self.gust * (-1 if case == "gust up" else 0.5)

    def snow(self, case: str, module: Ints, record: Recorder = silent) -> Floats:
        return np.full(len(module), self.snow_load)

    def snow_on_roof(self, case: str, places: Rectangles, record: Recorder = silent) -> Floats:
        return np.full(len(places), self.snow_load)

    def snow_beside_modules(self, case: str, places: Rectangles, partly: Bools, record: Recorder = silent) -> Floats:
        return self.snow_on_roof(case, places)

    def cladding_pressure(
        self, case: str, places: Rectangles, record: Recorder = silent, area: Floats | None = None
    ) -> Floats:
        return np.where(places.low < EAVE_STRIP, 1.5, 1.0) * self.gust * (-1 if case == "gust up" else 0.5)

    def internal_pressure(self, case: str) -> float:
        return -0.1 * self.gust if case == "gust up" else 0.0

    def pressure_below_panel(self, case: str, places: Rectangles, area: Floats, record: Recorder = silent) -> Floats:
        return np.full(len(places), self.internal_pressure(case))

    def roof_zones(self) -> RoofZones:
        low, high = np.array([0.0, EAVE_STRIP]), np.array([EAVE_STRIP, self.slope_length])
        return RoofZones(Rectangles(np.zeros(2), low, np.full(2, self.length), high), np.array([1, 0]), self.zone_names)


class Factored:
    title = "Made-up 1"
    basis = "factored loads, design resistances"

    words: ClassVar[Vocabulary] = DESIGN_VALUES
    system: ClassVar[System] = "si"
    not_covered: tuple[str, ...] = ()
    unverified: tuple[Reference, ...] = ()

    def level(self, case: str) -> str:
        return "characteristic"

    def __init__(self, site: FactoredSite) -> None:
        self.site = site

    @classmethod
    def site_model(cls) -> type[InputTable]:
        return FactoredSite

    def summary(self, job: Job) -> tuple[tuple[str, float, str], ...]:
        return (("gust", self.site.gust, "pressure"),)

    def unsupported(self, job: Job) -> Iterator[Problem]:
        if job.building.slope > STEEPEST:
            yield Problem(
                "building.slope", f"{job.building.slope:.1f} deg given; Made-up 1 speaks of slopes to {STEEPEST:g} deg"
            )

    def loads(self, job: Job, field: Field) -> FactoredLoads:
        low = field.outlines.low
        length, slope_length = job.building.length, job.building.slope_length
        return FactoredLoads(
            self.site.gust,
            self.site.snow,
            length,
            slope_length,
            (low < EAVE_STRIP).astype(np.int64),
            np.ones(len(low), dtype=bool),
        )
