"""ASCE 7, editions 7-16 and 7-22: the loads on a field and on the roof around it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from engine.arrays import Bools, Floats, Ints
from engine.combination import Combination
from engine.described import Described
from engine.errors import InputError, Problem
from engine.job import Job
from engine.layout import Field, Rectangles
from engine.loads import Limit, Remark
from engine.reference import SCENARIO, Confidence, Recorder, Reference, Step, Term, silent
from engine.standards.asce7 import flush, snow, tilted
from engine.standards.asce7.coefficients import Figure, figure
from engine.standards.asce7.combinations import combinations
from engine.standards.asce7.exposed import exposed_modules
from engine.standards.asce7.references import clause, memory, single
from engine.standards.asce7.site import SEVEN_16, Site
from engine.standards.asce7.velocity import inside_pressure, velocity_pressure
from engine.standards.asce7.zones import zones
from engine.units import FOOT, PSF

FLOOR = 16.0
"""Least net pressure either way, strength level [psf], §30.2.2 and §29.7 (that it applies here: from memory)."""

SQUARE_FOOT = FOOT**2


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
        return "allowable-stress design"

    def summary(self, job: Job) -> tuple[tuple[str, float, str], ...]:
        """Velocity pressure, ground snow, and snow on the modules."""
        return (
            ("wind speed", self.site.wind_speed, "speed"),
            ("velocity pressure", velocity_pressure(self.site, job.building.mean_roof_height / FOOT) * PSF, "pressure"),
            ("ground snow", self.site.ground_snow, "pressure"),
            ("flat-roof snow on modules", snow.flat_roof_snow(self.site, snow.ARRAY_THERMAL) * PSF, "pressure"),
        )

    def loads(self, job: Job, field: Field) -> Asce7Loads:
        """The loads on a field of this job.

        Raises:
            InputError: no figure covers the roof's shape and slope.
        """
        building, site = job.building, self.site
        cladding = figure(site.standard, building.roof_shape, building.slope)
        if cladding is None:
            raise InputError(
                [
                    Problem(
                        "building.slope",
                        f"{building.slope:.1f} deg given; {site.standard} has cladding pressures for a {building.roof_shape} roof "
                        f"to {45 if building.roof_shape == 'gable' else 30 if building.roof_shape == 'monoslope' else 7} deg",
                    )
                ]
            )
        leaning = abs(field.attitude.tilt) > 2
        own_coefficient = leaning and field.attitude.net_coefficient is not None
        outside = () if own_coefficient else tuple(tilted.limits(job, field) if leaning else flush.limits(job, field))
        gap_limit = max(4 * FOOT, 4 * field.attitude.high) if leaning else 4 * FOOT
        exposed = exposed_modules(field, building, site.array_edges == "literal", gap_limit)
        zone = tilted.zones(building, field) if leaning else zones(site.standard, building, field.outlines, cladding.zone_names)
        snow_cases = tuple(name for name, pressure in _snow_cases(site, job, field.attitude.tilt).items() if pressure is not None)
        return Asce7Loads(
            site=site,
            job=job,
            field=field,
            cladding=cladding,
            leaning=leaning,
            q=velocity_pressure(site, building.mean_roof_height / FOOT),
            zone=zone,
            exposed=exposed,
            outside=outside,
            remarks=tuple(_remarks(site, job, field, leaning, exposed)),
            snow_cases=snow_cases,
            combinations=combinations(site.standard, snow_cases),
        )


@dataclass(frozen=True, eq=False)
class Asce7Loads:
    """The loads on one field; see `engine.loads.Loads`. `q` is velocity pressure with Kd [psf]."""

    site: Site
    job: Job
    field: Field
    cladding: Figure
    leaning: bool
    q: float
    zone: Ints
    exposed: Bools
    outside: tuple[Limit, ...]
    remarks: tuple[Remark, ...]
    snow_cases: tuple[str, ...]
    combinations: tuple[Combination, ...]
    wind_cases: tuple[str, ...] = ("W up", "W down")

    @property
    def zone_names(self) -> tuple[str, ...]:
        """Names of the modules' wind zones."""
        return tilted.ZONE_NAMES if self.leaning else self.cladding.zone_names

    def wind(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """Pressure of "W up" or "W down" normal to modules [Pa]; areas [m²].

        Raises:
            ValueError: the clause does not cover this field (see `outside`).
        """
        if self.outside:
            raise ValueError(f"outside {self.outside[0].clause}: {self.outside[0].sentence}")
        up = case == "W up"
        coefficient = (self._tilted if self.leaning else self._flush)(up, module, area, record)
        net = np.maximum(self.q * coefficient, FLOOR)
        if record is not silent:
            velocity_pressure(self.site, self.job.building.mean_roof_height / FOOT, record)
            terms = {"q": Term(self.q, "psf"), "C": Term(float(coefficient[0])), "floor": Term(FLOOR, "psf")}
            source = memory(self.site.standard, "§29.7 for the floor")
            record(
                Step("p", f"{case}: wind pressure on the module, its size", Term(float(net[0]), "psf"), "max(q * C, floor)", terms, source)
            )
        return (-net if up else net) * PSF

    def _flush(self, up: bool, module: Ints, area: Floats, record: Recorder) -> Floats:
        """|GCp| γE γa of §29.4.4."""
        feet = area / SQUARE_FOOT
        external = np.abs(self.cladding.suction(self.zone[module], feet)) if up else self.cladding.push(feet)
        edge = np.where(self.exposed[module], flush.EXPOSED_EDGE_FACTOR, 1.0) if up else np.ones(len(module))
        equalization = flush.pressure_equalization(feet)
        if record is not silent:
            edition, zone = self.site.standard, self.zone_names[self.zone[module[0]]]
            size, a = Term(float(external[0])), Term(float(feet[0]), "ft2")
            record(
                Step(
                    "GCp",
                    f"size of the roof's own coefficient, zone {zone}, at A = {feet[0]:.1f} ft2",
                    size,
                    "",
                    {},
                    self.cladding.reference,
                )
            )
            words = "1.5 near an exposed edge, for uplift" if edge[0] > 1 else "1.0 away from exposed edges and downward"
            record(Step("gE", words, Term(float(edge[0])), "", {}, clause(edition, "§29.4.4")))
            equation = "min(0.8, max(0.4, 1.2 - 0.4 * log(A)))"
            record(Step("ga", "pressure equalization", Term(float(equalization[0])), equation, {"A": a}, clause(edition, "Fig. 29.4-8")))
            terms = {"GCp": size, "gE": Term(float(edge[0])), "ga": Term(float(equalization[0]))}
            net = Term(float(external[0] * edge[0] * equalization[0]))
            record(Step("C", "net coefficient of a module parallel to the roof", net, "GCp * gE * ga", terms, clause(edition, "§29.4.4")))
        coefficient: Floats = external * edge * equalization
        return coefficient

    def _tilted(self, up: bool, module: Ints, area: Floats, record: Recorder) -> Floats:
        """GCrn of §29.4.3, or the scenario's own net coefficient."""
        attitude, building, edition = self.field.attitude, self.job.building, self.site.standard
        if attitude.net_coefficient is not None:
            if record is not silent:
                record(Step("C", "the scenario's own net coefficient", Term(attitude.net_coefficient), "", {}, SCENARIO))
            return np.full(len(module), attitude.net_coefficient)
        normalized = tilted.normalized_area(building, area)
        base = tilted.nominal(attitude.tilt, self.zone[module], normalized)
        parapet, chord = tilted.parapet_factor(building), tilted.chord_factor(attitude.chord)
        edge = np.where(self.exposed[module], flush.EXPOSED_EDGE_FACTOR, 1.0) if up else np.ones(len(module))
        if record is not silent:
            zone, size = self.zone_names[self.zone[module[0]]], Term(float(base[0]))
            words = f"nominal coefficient, zone {zone}, tilt {attitude.tilt:g} deg, An = {normalized[0]:.0f}"
            record(Step("GCrn_nom", words, size, "", {}, single(edition, "Fig. 29.4-7")))
            terms = {"gp": Term(parapet), "gc": Term(chord), "gE": Term(float(edge[0])), "GCrn_nom": size}
            net = Term(float(parapet * chord * edge[0] * base[0]))
            record(Step("C", "net coefficient of a tilted module", net, "gp * gc * gE * GCrn_nom", terms, clause(edition, "Eq. 29.4-6")))
        coefficient: Floats = parapet * chord * edge * base
        return coefficient

    def snow(self, case: str, record: Recorder = silent) -> float:
        """Snow on the modules [Pa of horizontal projection]."""
        if record is not silent:
            _snow_cases(self.site, self.job, self.field.attitude.tilt, record)
        return (_snow_cases(self.site, self.job, self.field.attitude.tilt)[case] or 0.0) * PSF

    def bare_snow(self, case: str, record: Recorder = silent) -> float:
        """Snow on the bare roof [Pa of horizontal projection], with the roof's own thermal factor."""
        thermal = snow.roof_thermal_factor(self.site, self.job.building.thermal)
        return (_snow_cases(self.site, self.job, 0.0, record, thermal)[case] or 0.0) * PSF

    def bare_wind(self, case: str, places: Rectangles, record: Recorder = silent) -> Floats:
        """Cladding pressure, outside and inside together, on rectangles of roof, at their own area [Pa]."""
        area = np.maximum((places.right - places.left) * (places.high - places.low), 1e-6) / SQUARE_FOOT
        zone = zones(self.site.standard, self.job.building, places, self.cladding.zone_names)
        inside = inside_pressure(self.site, self.job.building.enclosure, 1.0) / PSF
        if case == "W up":
            return -np.maximum(self.q * (np.abs(self.cladding.suction(zone, area)) + inside), FLOOR) * PSF
        return np.maximum(self.q * (self.cladding.push(area) + inside), FLOOR) * PSF

    def inside_wind(self, case: str, record: Recorder = silent) -> float:
        """Internal pressure lifts in "W up"; beneath modules its suction is not counted on in "W down" [Pa]."""
        return -inside_pressure(self.site, self.job.building.enclosure, self.q) if case == "W up" else 0.0


def _snow_cases(site: Site, job: Job, tilt: float, record: Recorder = silent, thermal: float | None = None) -> dict[str, float | None]:
    """Case → snow [psf of horizontal projection]; None where a case does not apply."""
    building = job.building
    if site.ground_snow <= 0:
        return {"S": None, "S min": None}
    if thermal is None:
        thermal = snow.ARRAY_THERMAL
        record(Step("Ct", "modules stand in open air", Term(thermal), "", {}, snow.CHOICE))
    balanced = snow.sloped_snow(site, abs(building.slope + tilt), thermal, record)
    run = building.width / 2 if building.roof_shape == "gable" else building.width
    balanced += snow.rain_on_snow(site, building.slope, run)
    return {"S": balanced, "S min": snow.minimum_snow(site, building.slope, record)}


def _remarks(site: Site, job: Job, field: Field, leaning: bool, exposed: Bools) -> Iterator[Remark]:
    building, attitude = job.building, field.attitude
    if leaning and attitude.net_coefficient is not None:
        yield Remark(
            "own_coefficient", "caution", f"wind uses the scenario's own net coefficient {attitude.net_coefficient:g}, not the standard's"
        )
    if not leaning:
        yield from flush.remarks(field)
    if exposed.all() and field.modules > 1:
        reading = "safe reading: every edge of the array counts" if site.array_edges == "safe" else "literal reading"
        yield Remark("all_exposed", "note", f"every module counts as exposed to the wind at an edge ({reading})")
    if site.ground_snow <= 0:
        return
    row_length = float(field.outlines.right.max() - field.outlines.left.min())
    if leaning and row_length > 15 * FOOT and attitude.low < 2 * FOOT:
        yield Remark("snow_drift", "caution", "snow drifts against tilted rows longer than 15 ft (§7.8): not computed")
    if building.parapet_height > 0:
        yield Remark("snow_drift_parapet", "caution", "snow drifts at parapets (§7.8): not computed")
    if building.roof_shape == "gable" and 2.38 < building.slope < 30.2:
        yield Remark("snow_unbalanced", "caution", "unbalanced snow on gables (§7.6.1): not computed")


SOURCES: tuple[Reference, ...] = (
    memory(SEVEN_16, "§29.4.4: what an exposed edge is"),
    memory(SEVEN_16, "§29.7: that the 16 psf floor applies to arrays"),
    single(SEVEN_16, "Fig. 29.4-7"),
    single(SEVEN_16, "Fig. 30.3-2C"),
    Reference("ASCE", "7-16, 7-22", "Fig. 30.3-5B zones", Confidence.MEMORY),
)
"""Everything taken from a single transcription or from memory: to be checked first."""
