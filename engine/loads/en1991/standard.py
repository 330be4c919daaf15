"""EN 1991 on one site, and what of a job it does not cover here."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar

from engine.common.calculation import Reference
from engine.common.errors import Problem
from engine.common.tolerances import SAME_ANGLE
from engine.common.vocabulary import DESIGN_VALUES, Vocabulary
from engine.loads.en1991 import snow
from engine.loads.en1991.array_wind import array_wind
from engine.loads.en1991.cladding import Cladding
from engine.loads.en1991.coefficients import STEEPEST
from engine.loads.en1991.combinations import combinations
from engine.loads.en1991.field_loads import En1991Loads
from engine.loads.en1991.national import NationalValues, stated_factors
from engine.loads.en1991.peak_velocity_pressure import peak_velocity_pressure, reference_height
from engine.loads.en1991.remarks import remarks
from engine.loads.en1991.roof_zones import SlopeZones
from engine.loads.en1991.site import Site
from engine.loads.en1991.unverified import NOT_COVERED, UNVERIFIED
from engine.loads.strengths import design_values_only
from engine.mounting.layout import Field
from engine.project.building import Building
from engine.project.job import Job
from engine.schema import InputTable
from engine.units import System

FASTEST = 40.0
"""Basic wind velocity above which its source must be stated [m/s]: a 3 s gust is about 1.5 times the 10 min mean."""

GUST_OVER_MEAN = 1.53
"""3 s gust over the 10 min mean, terrain II at 10 m."""


class En1991:
    """EN 1991 on one site."""

    words: ClassVar[Vocabulary] = DESIGN_VALUES
    system: ClassVar[System] = "si"
    not_covered: tuple[str, ...] = NOT_COVERED
    unverified: tuple[Reference, ...] = UNVERIFIED

    def __init__(self, site: Site) -> None:
        self.site = site

    @classmethod
    def site_model(cls) -> type[InputTable]:
        """Model of its `[site]` table."""
        return Site

    @property
    def title(self) -> str:
        """The standard."""
        return self.site.standard

    @property
    def basis(self) -> str:
        """Design basis."""
        return "partial factors, design resistances, recommended values"

    def level(self, case: str) -> str:
        """Level of a load case before any factor."""
        return "characteristic"

    def summary(self, job: Job) -> tuple[tuple[str, float, str], ...]:
        """Main loads of the site: (name, SI value, dimension)."""
        site, building = self.site, job.building
        return (
            ("basic wind velocity", site.wind_speed, "speed"),
            ("peak velocity pressure qp", peak_velocity_pressure(site, reference_height(building)), "pressure"),
            ("snow on the ground", site.ground_snow, "pressure"),
            ("snow on the roof", snow.snow_on_roof(site, building.slope), "pressure"),
        )

    def unsupported(self, job: Job) -> Iterator[Problem]:
        """Inputs missing on the site, parts of the building not covered, and strengths that are no design values."""
        yield from _site(self.site)
        yield from list(_building(job.building)) or _zones(self.site, job.building)  # such a roof has no zones here
        yield from design_values_only(job, self.title)

    def loads(self, job: Job, field: Field) -> En1991Loads:
        """The loads on a field of this job; `unsupported` found no problem in it."""
        site, building = self.site, job.building
        cladding = Cladding(SlopeZones.of(building))
        wind, snow_cases = array_wind(site.cp_net, cladding, field), (snow.EVEN,) if site.ground_snow > 0 else ()
        return En1991Loads(
            site=site,
            building=building,
            cladding=cladding,
            array_wind=wind,
            modules=field.outlines,
            snow_angle=abs(building.slope + field.attitude.tilt),
            remarks=tuple(remarks(site, building, field, wind)),
            snow_cases=snow_cases,
            combinations=combinations(NationalValues.of(site), snow_cases),
        )


def _site(site: Site) -> Iterator[Problem]:
    """A wind speed that looks like a gust, and factors without a source."""
    if site.wind_speed > FASTEST and site.wind_speed_source is None:
        mean = site.wind_speed / GUST_OVER_MEAN
        text = (
            f"{site.wind_speed:g} m/s given; EN 1991 has the 10 min mean, and a 3 s gust of this speed is a mean of "
            f"about {mean:.0f} m/s: state the mean, or for more than {FASTEST:g} m/s also site.wind_speed_source"
        )
        yield Problem("site.wind_speed", text)
    stated = stated_factors(site)
    if stated and site.national_source is None:
        text = f"missing; it names the national annex or document that states {', '.join(stated)}"
        yield Problem("site.national_source", text)


def _building(building: Building) -> Iterator[Problem]:
    """Shapes of roof and parts of it that are not covered."""
    if building.roof_shape == "hip":
        yield Problem("building.roof_shape", "'hip' given; EN 1991 is supported for gable, monoslope and flat roofs")
    if building.slope > STEEPEST + SAME_ANGLE:
        yield Problem(
            "building.slope", f"{building.slope:.1f} deg given; EN 1991 is supported for slopes to {STEEPEST:g} deg"
        )
    if building.overhang.exists:
        text = "given; overhangs are not supported with EN 1991, whose lower face needs coefficients of the wall"
        yield Problem("building.overhang", text)
    if building.enclosure != "enclosed":
        text = f"'{building.enclosure}' given; a dominant opening (7.2.9) is not supported with EN 1991"
        yield Problem("building.enclosure", text)
    if building.higher_roofs:
        text = "given; drifts from higher roofs (5.3.6) are not supported with EN 1991"
        yield Problem("building.higher_roofs", text)


def _zones(site: Site, building: Building) -> Iterator[Problem]:
    """Zones of the roof for which the stated coefficients have no value."""
    if site.cp_net is None:
        return
    zones = tuple(dict.fromkeys(name[0] for name in SlopeZones.of(building).names))
    missing = site.cp_net.missing(tuple(sorted(zones)))
    if missing:
        text = f"up and down are needed for the zones {', '.join(sorted(zones))} of this roof; missing: "
        yield Problem("site.cp_net", text + ", ".join(missing))
