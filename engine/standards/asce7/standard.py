"""ASCE 7, editions 7-16 and 7-22: the loads on a field and on the roof around it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from engine.arrays import Bools, Floats, Ints
from engine.combination import Combination
from engine.described import Described
from engine.errors import InputError, Problem
from engine.job import Job
from engine.layout import Field, Rectangles
from engine.loads import Limit, OfWeight, Remark, RoofZones
from engine.reference import Recorder, Reference, Step, Term, silent
from engine.roof import Building
from engine.standards.asce7 import seismic, snow
from engine.standards.asce7.coefficients import Figure, covers, figure, steepest
from engine.standards.asce7.combinations import combinations
from engine.standards.asce7.doubtful import doubtful
from engine.standards.asce7.flush import MOST_TILT, FlushWind
from engine.standards.asce7.module_wind import ModuleWind
from engine.standards.asce7.pressure import DOWN, UP, Stream
from engine.standards.asce7.references import choice, clause
from engine.standards.asce7.remarks import snow_remarks, wind_remarks
from engine.standards.asce7.site import SEVEN_22, Site
from engine.standards.asce7.snow import Surface
from engine.standards.asce7.stated import StatedWind
from engine.standards.asce7.tilted import TiltedWind
from engine.standards.asce7.velocity import GCPI
from engine.standards.asce7.zones import regions, zones
from engine.units import FOOT, PSF

SQUARE_FOOT = FOOT**2
LEAST_AREA = 1e-6
"""Smallest area a curve is read at [m²]; all are level long before."""


class Asce7:
    """ASCE 7 on one site."""

    def __init__(self, site: Site) -> None:
        self.site = site

    @classmethod
    def reads(cls) -> type[Described]:
        """The model of its `[site]` table."""
        return Site

    @property
    def title(self) -> str:
        """Document and edition."""
        return self.site.standard

    @property
    def speaks_of(self) -> str:
        """The basis of the numbers."""
        return "allowable-stress design (ASD)"

    @property
    def doubtful(self) -> tuple[Reference, ...]:
        """All that was seen once or comes from memory."""
        return doubtful(self.site.standard)

    def summary(self, job: Job) -> tuple[tuple[str, float, str], ...]:
        """The site's headline loads: (name, SI value, dimension)."""
        site, building = self.site, job.building
        stream = Stream.at(site, building.mean_roof_height / FOOT)
        return (
            ("wind speed", site.wind_speed, "speed"),
            ("velocity pressure qh", stream.qh * PSF, "pressure"),
            ("ground snow", site.ground_snow, "pressure"),
            ("flat-roof snow on modules", snow.flat_roof_snow(site, site.array_thermal_factor) * PSF, "pressure"),
            (
                "flat-roof snow on the bare roof",
                snow.flat_roof_snow(site, snow.roof_thermal_factor(site, building.thermal)) * PSF,
                "pressure",
            ),
        )

    def loads(self, job: Job, field: Field) -> Asce7Loads:
        """The loads on a field of this job.

        Raises:
            InputError: no figure covers the roof's shape and slope.
        """
        site, building = self.site, job.building
        cladding = _cladding(site.standard, building)
        stream = Stream.at(site, building.mean_roof_height / FOOT)
        wind = _module_wind(site, job, field, cladding)
        on_modules = _module_surface(site, building, field)
        snow_cases = snow.cases(site, building, on_modules)
        return Asce7Loads(
            building=building,
            cladding=cladding,
            stream=stream,
            module_wind=wind,
            on_modules=on_modules,
            on_roof=_roof_surface(site, building),
            module_tops=field.outlines.high,
            remarks=(*wind_remarks(site, building, field, wind, stream), *snow_remarks(site, job, field)),
            snow_cases=snow_cases,
            combinations=combinations(site.standard, snow_cases, earthquake=site.seismic_sds is not None),
            weight_cases=seismic.weight_cases(site),
        )


def _cladding(edition: str, building: Building) -> Figure:
    if not covers(edition, building.roof_shape):
        words = f"'{building.roof_shape}' given; {edition}'s figures for it were seen in one public source only and are left out"
        raise InputError([Problem("building.roof_shape", f"{words}; {SEVEN_22} covers it")])
    found = figure(edition, building.roof_shape, building.slope, building.parapet_height / FOOT)
    if found is None:
        end = steepest(edition, building.roof_shape)
        words = f"{building.slope:.1f} deg given; {edition} has cladding pressures for a {building.roof_shape} roof to {end:g} deg"
        raise InputError([Problem("building.slope", words)])
    return found


def _module_wind(site: Site, job: Job, field: Field, cladding: Figure) -> ModuleWind:
    """The clause that fits how the modules stand."""
    if abs(field.attitude.tilt) <= MOST_TILT:
        return FlushWind.on(site, job, field, cladding)
    if field.attitude.net_coefficient is not None:
        return StatedWind.on(site, job, field, cladding, field.attitude.net_coefficient)
    return TiltedWind.on(site, job, field)


def _module_surface(site: Site, building: Building, field: Field) -> Surface:
    """Modules stand in open air, whatever the roof beneath: a stated choice, safe."""
    angle = abs(building.slope + field.attitude.tilt)
    return Surface(angle, site.array_thermal_factor, choice("modules in open air"))


def _roof_surface(site: Site, building: Building) -> Surface:
    source = clause(site.standard, "Tables 7.3-2 and 7.3-3" if building.thermal == "heated" else "Table 7.3-2")
    return Surface(building.slope, snow.roof_thermal_factor(site, building.thermal), source)


@dataclass(frozen=True, eq=False)
class Asce7Loads:
    """The loads on one field; see `engine.loads.Loads`."""

    building: Building
    cladding: Figure
    stream: Stream
    module_wind: ModuleWind
    on_modules: Surface
    on_roof: Surface
    module_tops: Floats
    remarks: tuple[Remark, ...]
    snow_cases: tuple[str, ...]
    combinations: tuple[Combination, ...]
    weight_cases: Mapping[str, OfWeight]
    wind_cases: tuple[str, ...] = (UP, DOWN)

    @property
    def outside(self) -> tuple[Limit, ...]:
        """Limits of the modules' wind clause that the field is beyond."""
        return self.module_wind.outside

    @property
    def zone_names(self) -> tuple[str, ...]:
        """Names of the modules' wind zones."""
        return self.module_wind.zone_names

    @property
    def zone(self) -> Ints:
        """Each module's wind zone."""
        return self.module_wind.zone

    @property
    def exposed(self) -> Bools:
        """Whether each module is exposed."""
        return self.module_wind.exposed

    def wind(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """Pressure of "W up" or "W down" normal to modules [Pa]; areas [m²].

        Raises:
            ValueError: the clause does not cover this field (see `outside`).
        """
        if self.outside:
            raise ValueError(f"outside {self.outside[0]}")
        coefficient = self.module_wind.coefficient(case, module, area / SQUARE_FOOT, record)
        return self.stream.pressure(case, coefficient, record) * PSF

    def snow(self, case: str, module: Ints, record: Recorder = silent) -> Floats:
        """Snow on the modules named [Pa of horizontal projection]."""
        return self._snow(case, self.on_modules, self.module_tops[module], record)

    def bare_snow(self, case: str, places: Rectangles, record: Recorder = silent) -> Floats:
        """Snow on rectangles of bare roof [Pa of horizontal projection], with the roof's own thermal factor."""
        return self._snow(case, self.on_roof, places.high, record)

    def _snow(self, case: str, surface: Surface, top: Floats, record: Recorder) -> Floats:
        """Snow on things that reach up to `top` [m from the eave, along the slope]."""
        to_ridge = (self.building.slope_length - top) * np.cos(np.radians(self.building.slope)) / FOOT
        return snow.on_places(case, self.stream.site, self.building, surface, to_ridge, record) * PSF

    def bare_wind(self, case: str, places: Rectangles, record: Recorder = silent) -> Floats:
        """Cladding pressure, GCp and GCpi together, §30.3.2, on rectangles of roof, at their own area [Pa]."""
        edition = self.stream.site.standard
        area = np.maximum((places.right - places.left) * (places.high - places.low), LEAST_AREA) / SQUARE_FOOT
        zone = zones(edition, self.building, places, self.cladding.zone_names)
        gcp, inside = self.cladding.gcp(case, zone, area), self._inside_coefficient(case)
        coefficient: Floats = gcp + inside
        if record is not silent:
            self.cladding.record_gcp(case, int(zone[0]), float(area[0]), float(gcp[0]), record)
            self._record_inside(inside, record)
            terms = {"GCp": Term(float(gcp[0])), "GCpi": Term(inside)}
            net = Term(float(coefficient[0]))
            record(Step("C", "outside and inside together", net, "GCp + GCpi", terms, clause(edition, "Eq. 30.3-1")))
        return self.stream.pressure(case, coefficient, record) * PSF

    def inside_wind(self, case: str, record: Recorder = silent) -> float:
        """Internal pressure, Table 26.13-1: lifts in "W up", sucks down in "W down" [Pa]; it adds to each case."""
        inside = self._inside_coefficient(case)
        if record is not silent:
            self._record_inside(inside, record)
        return self.stream.reference_pressure * inside * PSF

    def roof_zones(self) -> RoofZones:
        """Zones of cladding on the slope, §30.3.2."""
        edition, names = self.stream.site.standard, self.cladding.zone_names
        places = regions(self.building)
        return RoofZones(places, zones(edition, self.building, places, names), names)

    def _inside_coefficient(self, case: str) -> float:
        size = GCPI[self.building.enclosure]
        return -size if case == UP else size

    def _record_inside(self, inside: float, record: Recorder) -> None:
        source = clause(self.stream.site.standard, "Table 26.13-1")
        record(Step("GCpi", f"air inside, {self.building.enclosure}, on the side that adds", Term(inside), "", {}, source))
