"""ASCE 7, editions 7-16 and 7-22, on one site, and the clauses that apply to a field."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar

from engine.common.calculation import Reference
from engine.common.errors import Problem
from engine.common.vocabulary import ALLOWABLES, Vocabulary
from engine.loads.asce7 import seismic, snow
from engine.loads.asce7.array_flush import MAX_TILT, FlushWind
from engine.loads.asce7.array_tilted import TiltedWind
from engine.loads.asce7.array_user_coefficient import StatedWind
from engine.loads.asce7.array_wind import ModuleWind
from engine.loads.asce7.combinations import combinations, level
from engine.loads.asce7.field_loads import Asce7Loads
from engine.loads.asce7.gcp_figures import GcpFigure, covers, gcp_figure, steepest
from engine.loads.asce7.net_pressure import NetPressure
from engine.loads.asce7.references import choice, clause
from engine.loads.asce7.remarks import snow_remarks, wind_remarks
from engine.loads.asce7.site import SEVEN_22, Site
from engine.loads.asce7.snow import Surface
from engine.loads.asce7.unverified import unverified
from engine.loads.strengths import allowables_only
from engine.mounting.layout import Field
from engine.project.building import Building
from engine.project.job import Job
from engine.schema import InputTable
from engine.units import FOOT, PSF, System


class Asce7:
    """ASCE 7 on one site."""

    words: ClassVar[Vocabulary] = ALLOWABLES
    system: ClassVar[System] = "us"
    not_covered: tuple[str, ...] = ()

    def __init__(self, site: Site) -> None:
        self.site = site

    @classmethod
    def site_model(cls) -> type[InputTable]:
        """Model of its `[site]` table."""
        return Site

    @property
    def title(self) -> str:
        """Document and edition."""
        return self.site.standard

    @property
    def basis(self) -> str:
        """Design basis."""
        return "allowable-stress design (ASD)"

    def level(self, case: str) -> str:
        """Level of a load case before any factor: "service" or "strength"."""
        return level(self.site.standard, case)

    @property
    def unverified(self) -> tuple[Reference, ...]:
        """Clauses seen in one source or cited from memory."""
        return unverified(self.site.standard)

    def summary(self, job: Job) -> tuple[tuple[str, float, str], ...]:
        """Main loads of the site: (name, SI value, dimension)."""
        site, building = self.site, job.building
        net_pressure = NetPressure.at(site, building.mean_roof_height / FOOT)
        return (
            ("wind speed", site.wind_speed, "speed"),
            ("velocity pressure qh", net_pressure.qh * PSF, "pressure"),
            ("ground snow", site.ground_snow, "pressure"),
            ("flat-roof snow on modules", snow.flat_roof_snow(site, site.array_thermal_factor) * PSF, "pressure"),
            (
                "flat-roof snow on the roof",
                snow.flat_roof_snow(site, snow.roof_thermal_factor(site, building.thermal)) * PSF,
                "pressure",
            ),
        )

    def unsupported(self, job: Job) -> Iterator[Problem]:
        """The shape or slope of the roof, if no figure covers its cladding, and strengths that are no allowables."""
        yield from allowables_only(job, self.title)
        edition, building = self.site.standard, job.building
        if not covers(edition, building.roof_shape):
            text = (
                f"'{building.roof_shape}' given; not supported with {edition}: its figures were seen in one source only"
            )
            yield Problem("building.roof_shape", f"{text}; {SEVEN_22} covers it")
        elif _cladding(edition, building) is None:
            end = steepest(edition, building.roof_shape)
            text = f"{building.slope:.1f} deg given; allowed is at most {end:g} deg"
            yield Problem(
                "building.slope", f"{text}: {edition} has no wind figure for a steeper {building.roof_shape} roof"
            )

    def loads(self, job: Job, field: Field) -> Asce7Loads:
        """The loads on a field of this job; `unsupported` found no problem in it."""
        site, building = self.site, job.building
        cladding = _cladding(site.standard, building)
        assert cladding is not None
        net_pressure = NetPressure.at(site, building.mean_roof_height / FOOT)
        wind = _module_wind(site, job, field, cladding)
        on_modules = _module_surface(site, building, field)
        on_roof = _roof_surface(site, building)
        surcharges = snow.surcharge_cases(_snowpack(site, on_modules, on_roof), building, field, on_roof.thermal_factor)
        snow_cases = (*snow.cases(site, building, on_modules), *surcharges)
        return Asce7Loads(
            building=building,
            cladding=cladding,
            net_pressure=net_pressure,
            module_wind=wind,
            on_modules=on_modules,
            on_roof=on_roof,
            modules=field.outlines,
            surcharges=surcharges,
            remarks=(
                *wind_remarks(site, building, field, wind, net_pressure),
                *snow_remarks(site, job, field, surcharges),
            ),
            snow_cases=snow_cases,
            combinations=combinations(site.standard, snow_cases, earthquake=site.seismic_sds is not None),
            weight_cases=seismic.weight_cases(site),
        )


def _cladding(edition: str, building: Building) -> GcpFigure | None:
    return gcp_figure(edition, building.roof_shape, building.slope, building.parapet_height / FOOT)


def _module_wind(site: Site, job: Job, field: Field, cladding: GcpFigure) -> ModuleWind:
    """Wind on modules by the clause for their tilt."""
    if abs(field.attitude.tilt) <= MAX_TILT:
        return FlushWind.on(site, job, field, cladding)
    if field.attitude.net_coefficient is not None:
        return StatedWind.on(site, job, field, cladding, field.attitude.net_coefficient)
    return TiltedWind.on(site, job, field)


def _module_surface(site: Site, building: Building, field: Field) -> Surface:
    """Modules stand in open air: loadpath's choice, safe."""
    angle = abs(building.slope + field.attitude.tilt)
    return Surface(angle, site.array_thermal_factor, choice("modules in open air"))


def _roof_surface(site: Site, building: Building) -> Surface:
    source = clause(site.standard, "Tables 7.3-2 and 7.3-3" if building.thermal == "heated" else "Table 7.3-2")
    return Surface(building.slope, snow.roof_thermal_factor(site, building.thermal), source)


def _snowpack(site: Site, *surfaces: Surface) -> snow.Snowpack:
    """The balanced snow beside steps, from the least and the most on roof and modules."""
    return snow.snowpack(site, *(snow.sloped_snow(site, each.angle, each.thermal_factor) for each in surfaces))
