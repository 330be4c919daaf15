"""The loads on one field and on the roof around it, by EN 1991."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import Recorder, silent
from engine.common.combination import Combination
from engine.loads.en1991.array_wind import ArrayWind
from engine.loads.en1991.cladding import DOWN, INTERNAL, UP, Cladding, pressure
from engine.loads.en1991.peak_velocity_pressure import peak_velocity_pressure, reference_height
from engine.loads.en1991.site import Site
from engine.loads.en1991.snow import snow_on_roof
from engine.loads.interface import DEAD_LOAD_ONLY, ExceededLimit, Remark, RoofZones, WeightCase
from engine.mounting.layout import Rectangles
from engine.project.building import Building


@dataclass(frozen=True, eq=False)
class En1991Loads:
    """The loads on one field; see `engine.loads.interface.Loads`."""

    site: Site
    building: Building
    cladding: Cladding
    array_wind: ArrayWind
    modules: Rectangles
    snow_angle: float
    remarks: tuple[Remark, ...]
    snow_cases: tuple[str, ...]
    combinations: tuple[Combination, ...]
    wind_cases: tuple[str, ...] = (UP, DOWN)
    weight_cases: Mapping[str, WeightCase] = field(default_factory=lambda: DEAD_LOAD_ONLY)

    @property
    def outside(self) -> tuple[ExceededLimit, ...]:
        """Reasons why there is no wind on the modules."""
        return self.array_wind.outside

    @property
    def unproven(self) -> str:
        """Why the wind on the modules is not proven, in a few words; empty if it is."""
        return self.array_wind.unproven

    @property
    def zone_names(self) -> tuple[str, ...]:
        """Names of the zones, smallest suction first."""
        return self.cladding.zones.names

    @cached_property
    def _touched(self) -> Bools:
        return self.cladding.zones.touched(self.modules)

    @cached_property
    def zone(self) -> Ints:
        """Zone of each module for labels."""
        return self.cladding.zones.labels(self._touched)

    @cached_property
    def exposed(self) -> Bools:
        """False for each module: coefficients by zone do not depend on the edges of the array."""
        return np.zeros(len(self.modules), dtype=bool)

    @cached_property
    def kind(self) -> Ints:
        """A number for each set of zones that modules touch (M,)."""
        kind: Ints = self._touched @ (1 << np.arange(self._touched.shape[1]))
        return kind

    @cached_property
    def peak_pressure(self) -> float:
        """Qp [Pa]."""
        return peak_velocity_pressure(self.site, reference_height(self.building))

    def _record_peak_pressure(self, record: Recorder) -> None:
        if record is not silent:
            peak_velocity_pressure(self.site, reference_height(self.building), record)

    def wind(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """Pressure of "W up" or "W down" normal to modules [Pa]; areas [m²].

        Raises:
            ValueError: there are no coefficients for the field, see `outside`.
        """
        coefficient = self.array_wind.coefficient(case, module, area, record)
        self._record_peak_pressure(record)
        return pressure(self.peak_pressure, coefficient, record)

    def snow(self, case: str, module: Ints, record: Recorder = silent) -> Floats:
        """Snow on the given modules [Pa of horizontal projection]."""
        return np.full(len(module), snow_on_roof(self.site, self.snow_angle, record))

    def snow_on_roof(self, case: str, places: Rectangles, record: Recorder = silent) -> Floats:
        """Snow on rectangles of the roof alone [Pa of horizontal projection]."""
        return np.full(len(places), snow_on_roof(self.site, self.building.slope, record))

    def snow_beside_modules(self, case: str, places: Rectangles, partly: Bools, record: Recorder = silent) -> Floats:
        """The same with the array in place: drifts at modules are not computed."""
        return self.snow_on_roof(case, places, record)

    def cladding_pressure(
        self, case: str, places: Rectangles, record: Recorder = silent, area: Floats | None = None
    ) -> Floats:
        """External and internal pressure on rectangles of roof, at their own area unless one is given [m²] [Pa]."""
        own_area = (places.right - places.left) * (places.high - places.low)
        coefficient = self.cladding.net(case, places, own_area if area is None else area, record)
        self._record_peak_pressure(record)
        return pressure(self.peak_pressure, coefficient, record)

    def internal_pressure(self, case: str) -> float:
        """Internal pressure [Pa]: upward in "W up", downward in "W down"."""
        return self.peak_pressure * INTERNAL[case]

    def pressure_below_panel(self, case: str, places: Rectangles, area: Floats, record: Recorder = silent) -> Floats:
        """Pressure on the panel from below (n,) [Pa]: from indoors."""
        return np.full(len(places), self.internal_pressure(case))

    def roof_zones(self) -> RoofZones:
        """Zones of the slope, the worst of all winds."""
        return self.cladding.zones.regions()
