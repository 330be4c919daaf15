"""The loads on one field and on the roof around it, by the clauses that apply to it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import CalculationStep, Recorder, Term, silent
from engine.common.combination import Combination
from engine.loads.asce7 import overhang, snow
from engine.loads.asce7.array_wind import ModuleWind
from engine.loads.asce7.gcp_figures import GcpFigure
from engine.loads.asce7.net_pressure import DOWN, UP, NetPressure
from engine.loads.asce7.references import clause
from engine.loads.asce7.roof_zones import regions, touched_zones, width_steps, zones
from engine.loads.asce7.snow import Surcharge, Surface
from engine.loads.asce7.velocity_pressure import GCPI
from engine.loads.interface import ExceededLimit, Remark, RoofZones, WeightCase
from engine.mounting.layout import Rectangles
from engine.project.building import Building
from engine.project.overhang import OPEN
from engine.units import FOOT, PSF

SQUARE_FOOT = FOOT**2
MIN_AREA = 1e-6
"""Smallest area at which a curve is read [m²]; all curves are constant there."""


@dataclass(frozen=True, eq=False)
class Asce7Loads:
    """The loads on one field; see `engine.loads.interface.Loads`."""

    building: Building
    cladding: GcpFigure
    net_pressure: NetPressure
    module_wind: ModuleWind
    on_modules: Surface
    on_roof: Surface
    modules: Rectangles
    surcharges: Mapping[str, tuple[Surcharge, ...]]
    remarks: tuple[Remark, ...]
    snow_cases: tuple[str, ...]
    combinations: tuple[Combination, ...]
    weight_cases: Mapping[str, WeightCase]
    wind_cases: tuple[str, ...] = (UP, DOWN)
    unproven: str = ""

    @property
    def outside(self) -> tuple[ExceededLimit, ...]:
        """Limits of the wind clause of the modules that the field exceeds."""
        return self.module_wind.outside

    @property
    def zone_names(self) -> tuple[str, ...]:
        """Names of the wind zones of the modules."""
        return self.module_wind.zone_names

    @property
    def zone(self) -> Ints:
        """Wind zone of each module."""
        return self.module_wind.zone

    @property
    def exposed(self) -> Bools:
        """True for each exposed module."""
        return self.module_wind.exposed

    @property
    def kind(self) -> Ints:
        """Number of each module's kind: its zones and its exposure."""
        return self.module_wind.kind

    def wind(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """Pressure of "W up" or "W down" normal to modules [Pa]; areas [m²].

        Raises:
            ValueError: the field is outside the clause, see `outside`.
        """
        if self.outside:
            raise ValueError(f"outside {self.outside[0]}")
        coefficient = self.module_wind.coefficient(case, module, area / SQUARE_FOOT, record)
        return self.net_pressure.pressure(case, coefficient, record) * PSF

    def snow(self, case: str, module: Ints, record: Recorder = silent) -> Floats:
        """Snow on the given modules [Pa of horizontal projection]."""
        chosen = self.modules.subset(module)
        return self._snow(case, self.on_modules, chosen, self.surcharges.get(case, ()), record)

    def snow_on_roof(self, case: str, places: Rectangles, record: Recorder = silent) -> Floats:
        """Snow on rectangles of the roof alone, with the roof's thermal factor [Pa of horizontal projection]."""
        surcharges = self.surcharges.get(case, ()) if snow.without_array(case) else ()
        return self._snow(case, self.on_roof, places, surcharges, record)

    def snow_beside_modules(self, case: str, places: Rectangles, partly: Bools, record: Recorder = silent) -> Floats:
        """Snow on the part of rectangles that modules leave free, with the array's own drifts [Pa of projection].

        Where a rectangle is partly covered its largest surcharge counts, as the free part may be next to the step.
        """
        return self._snow(case, self.on_roof, places, self.surcharges.get(case, ()), record, partly)

    def _snow(
        self,
        case: str,
        surface: Surface,
        places: Rectangles,
        surcharges: tuple[Surcharge, ...],
        record: Recorder,
        partly: Bools | None = None,
    ) -> Floats:
        """Snow on rectangles of a surface: that of the case, or balanced snow and surcharges (n,) [Pa]."""
        site, slope = self.net_pressure.site, self.building.slope
        to_ridge = (self.building.slope_length - places.high) * np.cos(np.radians(slope)) / FOOT
        if case not in self.surcharges:
            return snow.on_places(case, site, self.building, surface, to_ridge, record) * PSF
        balanced = snow.on_places(snow.BALANCED, site, self.building, surface, to_ridge, record)
        if not surcharges:
            return balanced * PSF
        return (
            snow.with_surcharge(site.standard, balanced, surcharges, snow.plan_of(places, slope), partly, record) * PSF
        )

    def cladding_pressure(
        self, case: str, places: Rectangles, record: Recorder = silent, area: Floats | None = None
    ) -> Floats:
        """Pressure GCp with GCpi, §30.3.2, on rectangles of roof, at their own area unless one is given [m²] [Pa]."""
        edition = self.net_pressure.site.standard
        own_area = (places.right - places.left) * (places.high - places.low)
        area = np.maximum(own_area if area is None else area, MIN_AREA) / SQUARE_FOOT
        touched = touched_zones(edition, self.building, places, self.cladding.zone_names)
        gcp, inside = self._gcp(case, places, touched, area, record), self._inside_coefficient(case)
        coefficient: Floats = gcp + inside
        if record is not silent:
            self._record_inside(inside, record)
            terms = {"GCp": Term(float(gcp[0])), "GCpi": Term(inside)}
            net = Term(float(coefficient[0]))
            record(
                CalculationStep(
                    "C",
                    "external and internal pressure together",
                    net,
                    "GCp + GCpi",
                    terms,
                    clause(edition, "Eq. 30.3-1"),
                )
            )
        return self.net_pressure.pressure(case, coefficient, record) * PSF

    def _gcp(self, case: str, places: Rectangles, touched: Bools, area: Floats, record: Recorder) -> Floats:
        """GCp of rectangles of roof (n,), of both faces where they reach beyond a wall; areas (n,) [ft²]."""
        gcp = self.cladding.gcp(case, touched, area)
        if record is not silent:
            self.cladding.record_gcp(case, touched[0], float(area[0]), float(gcp[0]), record)
        beyond = self._beyond_walls(places)
        if beyond.any():
            of_both = overhang.both_faces(self.cladding, case, touched, area, gcp, record if beyond[0] else silent)
            gcp = np.where(beyond, of_both, gcp)
        return gcp

    def _beyond_walls(self, places: Rectangles) -> Bools:
        return self.building.overhangs_at(places.left, places.low, places.right, places.high)

    def internal_pressure(self, case: str) -> float:
        """Internal pressure, Table 26.13-1 [Pa]: upward in "W up", downward in "W down", to add to each case."""
        return self.net_pressure.reference_pressure * self._inside_coefficient(case) * PSF

    def pressure_below_panel(self, case: str, places: Rectangles, area: Floats, record: Recorder = silent) -> Floats:
        """Pressure on the panel from below (n,) [Pa]: from indoors, or on an open overhang that on the wall.

        Below a closed soffit the internal pressure acts, as indoors.
        """
        coefficient = np.full(len(places), self._inside_coefficient(case))
        if self.building.overhang.soffit == OPEN:
            beyond, areas = self._beyond_walls(places), np.maximum(area, MIN_AREA) / SQUARE_FOOT
            edition, first = self.net_pressure.site.standard, record if beyond[:1].any() else silent
            coefficient = np.where(beyond, overhang.pressure_below(edition, case, areas, first), coefficient)
        pressure: Floats = self.net_pressure.reference_pressure * coefficient * PSF
        return pressure

    def roof_zones(self) -> RoofZones:
        """Zones of cladding on the slope, §30.3.2."""
        edition, names = self.net_pressure.site.standard, self.cladding.zone_names
        places = regions(self.building)
        widths = (*width_steps(edition, self.building), *self.module_wind.zone_widths)
        return RoofZones(places, zones(edition, self.building, places, names), names, widths)

    def _inside_coefficient(self, case: str) -> float:
        size = GCPI[self.building.enclosure]
        return -size if case == UP else size

    def _record_inside(self, inside: float, record: Recorder) -> None:
        source = clause(self.net_pressure.site.standard, "Table 26.13-1")
        record(
            CalculationStep(
                "GCpi",
                f"internal pressure, {self.building.enclosure}, with the sign that adds",
                Term(inside),
                "",
                {},
                source,
            )
        )
