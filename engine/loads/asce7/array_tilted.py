"""Tilted rows on a low-slope roof, ASCE 7 §29.4.3."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import CalculationStep, Recorder, Term, silent
from engine.common.tolerances import SAME_ANGLE, SAME_LENGTH
from engine.loads.asce7.array_edges import edge_factor, exposed_modules, group_gap, record_edge_factor
from engine.loads.asce7.array_wind import narrow_gap
from engine.loads.asce7.net_pressure import UP
from engine.loads.asce7.references import single
from engine.loads.asce7.roof_zones import edges
from engine.loads.asce7.site import Site
from engine.loads.interface import ExceededLimit, Remark
from engine.mounting.layout import Field
from engine.project.building import Building
from engine.project.job import Job
from engine.units import FOOT, both, text

STEEPEST_ROOF = 7.0
"""Steepest roof that the clause covers [deg]."""

CLAUSE = "ASCE 7 §29.4.3"

NORMALIZED_AREAS = (1.0, 500.0, 5000.0)
"""An at the break points of Fig. 29.4-7 [-]."""

NOMINAL = (
    (5.0, ((1.5, 0.35, 0.10), (2.0, 0.45, 0.15), (2.3, 0.50, 0.15))),
    (15.0, ((2.0, 0.56, 0.30), (2.9, 0.65, 0.40), (3.5, 0.80, 0.50))),
)
"""Tilt [deg] and (GCrn)nom by zone at those areas, Fig. 29.4-7 (seen in one source)."""

ZONE_NAMES = ("1", "2", "3")
MIN_NORMALIZING_LENGTH = 15.0
"""Smallest Lb in the normalized area [ft]."""


def nominal_coefficient(tilt: float, zone: Ints, area: Floats) -> Floats:
    """(GCrn)nom, Fig. 29.4-7: linear in log An between break points, linear in tilt from 5 to 15 deg.

    Args:
        tilt: of the modules from the roof [deg].
        zone: zone indices (n,).
        area: normalized areas An (n,) [-].
    """
    (low, shallow), (high, steep) = NOMINAL
    part = min(max((tilt - low) / (high - low), 0.0), 1.0)
    table = (1 - part) * np.array(shallow) + part * np.array(steep)
    logs, at = np.log10(NORMALIZED_AREAS), np.log10(area)
    by_zone = np.stack([np.interp(at, logs, row) for row in table])
    return by_zone[zone, np.arange(len(zone))]


def normalizing_length(building: Building) -> float:
    """Lb, §29.4.3: min(0.4 √(h WL), h, Ws) [ft], WL and Ws the longer and shorter side of the plan."""
    h = building.mean_roof_height
    longer, shorter = max(building.length, building.width), min(building.length, building.width)
    return float(min(0.4 * np.sqrt(h * longer), h, shorter)) / FOOT


def normalized_area(length: float, area: Floats) -> Floats:
    """An, §29.4.3: 1000 A / max(Lb, 15 ft)² [-]; Lb [ft], areas [ft²]."""
    return 1000 * area / max(length, MIN_NORMALIZING_LENGTH) ** 2


def parapet_factor(parapet: float, height: float) -> float:
    """γp, §29.4.3: min(1.2, 0.9 + hpt/h); parapet and mean roof height in one unit."""
    return min(1.2, 0.9 + parapet / height)


def chord_factor(chord: float) -> float:
    """γc, §29.4.3: max(0.6 + 0.06 Lp, 0.8); chord Lp [ft]."""
    return max(0.6 + 0.06 * chord, 0.8)


def zones(building: Building, field: Field) -> Ints:
    """Indices into `ZONE_NAMES`, Fig. 29.4-7: edge strips 2h wide are zone 2, their 2h by 2h corners 3, the rest 1."""
    at = edges(building, field.outlines)
    strip = 2 * building.mean_roof_height - SAME_LENGTH
    return (at.along < strip).astype(np.int64) + (at.rake < strip)


@dataclass(frozen=True, eq=False)
class TiltedWind:
    """Wind on tilted rows, up and down: p = qh [Kd] (GCrn), GCrn = γp γc γE (GCrn)nom.

    `length` is Lb [ft], `chord` Lp [ft]; `gamma_p` and `gamma_c` are the same for the whole field.
    """

    edition: str
    tilt: float
    length: float
    gamma_p: float
    gamma_c: float
    chord: float
    building: Building
    zone: Ints
    exposed: Bools
    outside: tuple[ExceededLimit, ...]
    zone_names: tuple[str, ...] = ZONE_NAMES

    @classmethod
    def on(cls, site: Site, job: Job, field: Field) -> TiltedWind:
        """Wind on a field of this job."""
        building, attitude = job.building, field.attitude
        chord = attitude.chord / FOOT
        return cls(
            site.standard,
            abs(attitude.tilt),
            normalizing_length(building),
            parapet_factor(building.parapet_height, building.mean_roof_height),
            chord_factor(chord),
            chord,
            building,
            zones(building, field),
            exposed_modules(field, building, literal=site.array_edges == "literal", gap=group_gap(attitude.high)),
            tuple(limits(building, field)),
        )

    @property
    def remarks(self) -> tuple[Remark, ...]:
        """The coefficient that a steeper roof needs; none of the standard's covers it."""
        if self.building.slope <= STEEPEST_ROOF + SAME_ANGLE:
            return ()
        text = (
            f"tilted rows on a roof steeper than {STEEPEST_ROOF:.0f} deg need a net pressure coefficient for this tilt "
            "and slope: no public one is known. Ask the rack's maker for a wind-tunnel report, and state its "
            "net_coefficient"
        )
        return (Remark("coefficient_needed", "caution", text),)

    @property
    def zone_widths(self) -> tuple[CalculationStep, ...]:
        """The step to the width of the edge strips, Fig. 29.4-7."""
        h = Term(self.building.mean_roof_height / FOOT, "ft")
        meaning, source = "tilted rows: strip 2, and sides of corner 3", single(self.edition, "Fig. 29.4-7")
        return (CalculationStep("b_rack", meaning, Term(2 * h.value, "ft"), "2 * h", {"h": h}, source),)

    @property
    def kind(self) -> Ints:
        """A number for each zone and exposure (M,)."""
        kinds: Ints = 2 * self.zone + self.exposed
        return kinds

    def coefficient(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """GCrn = γp γc γE (GCrn)nom, Eq. 29.4-6, negative in uplift; areas [ft²]."""
        normalized = normalized_area(self.length, area)
        nominal = nominal_coefficient(self.tilt, self.zone[module], normalized)
        gamma_e = edge_factor(case, self.exposed[module])
        net: Floats = self.gamma_p * self.gamma_c * gamma_e * nominal * (-1.0 if case == UP else 1.0)
        if record is not silent:
            self._record_factors(record)
            self._record_area(float(area[0]), float(normalized[0]), record)
            self._record_nominal(int(self.zone[module[0]]), float(normalized[0]), float(nominal[0]), record)
            self._record_net(case, Term(float(nominal[0])), Term(float(gamma_e[0])), Term(float(net[0])), record)
        return net

    def _record_factors(self, record: Recorder) -> None:
        building, source = self.building, single(self.edition, "§29.4.3")
        terms = {"hpt": Term(building.parapet_height / FOOT, "ft"), "h": Term(building.mean_roof_height / FOOT, "ft")}
        record(
            CalculationStep("gammaP", "parapet factor", Term(self.gamma_p), "min(1.2, 0.9 + hpt / h)", terms, source)
        )
        terms = {"Lp": Term(self.chord, "ft")}
        record(
            CalculationStep(
                "gammaC",
                "chord factor",
                Term(self.gamma_c),
                "max(0.6 + 0.06 * Lp, 0.8)",
                terms,
                source,
            )
        )

    def _record_area(self, area: float, normalized: float, record: Recorder) -> None:
        building, source = self.building, single(self.edition, "§29.4.3")
        longer, shorter = max(building.length, building.width), min(building.length, building.width)
        terms = {
            "h": Term(building.mean_roof_height / FOOT, "ft"),
            "WL": Term(longer / FOOT, "ft"),
            "Ws": Term(shorter / FOOT, "ft"),
        }
        record(
            CalculationStep(
                "Lb",
                "length that normalizes areas",
                Term(self.length, "ft"),
                "min(0.4 * sqrt(h * WL), h, Ws)",
                terms,
                source,
            )
        )
        terms = {"A": Term(area, "ft2"), "Lb": Term(self.length, "ft")}
        record(CalculationStep("An", "normalized area", Term(normalized), "1000 * A / max(Lb, 15) ** 2", terms, source))

    def _record_nominal(self, zone: int, area: float, nominal: float, record: Recorder) -> None:
        """Record (GCrn)nom by the two break points of the figure on either side of An, at this tilt."""
        first = 0 if area <= NORMALIZED_AREAS[1] else 1
        starts = np.array(NORMALIZED_AREAS)
        ends = nominal_coefficient(self.tilt, np.full(3, zone), starts)[first : first + 2]
        terms = {
            "G1": Term(float(ends[0])),
            "A1": Term(NORMALIZED_AREAS[first]),
            "G2": Term(float(ends[1])),
            "A2": Term(NORMALIZED_AREAS[first + 1]),
            "An": Term(area),
        }
        equation = "G1 + (G2 - G1) * min(1, max(0, log(An / A1) / log(A2 / A1)))"
        meaning = f"nominal coefficient, zone {self.zone_names[zone]}, tilt {self.tilt:g} deg"
        record(
            CalculationStep("GCrn_nom", meaning, Term(nominal), equation, terms, single(self.edition, "Fig. 29.4-7"))
        )

    def _record_net(self, case: str, nominal: Term, gamma_e: Term, net: Term, record: Recorder) -> None:
        record_edge_factor(self.edition, "§29.4.3", gamma_e, record)
        terms = {"gammaP": Term(self.gamma_p), "gammaC": Term(self.gamma_c), "gammaE": gamma_e, "GCrn_nom": nominal}
        equation = ("-" if case == UP else "") + "gammaP * gammaC * gammaE * GCrn_nom"
        record(
            CalculationStep(
                "C", "net coefficient GCrn of a tilted module", net, equation, terms, single(self.edition, "Eq. 29.4-6")
            )
        )


def limits(building: Building, field: Field) -> Iterator[ExceededLimit]:
    """The limits of §29.4.3 that are exceeded: roof slope, chord, tilt, heights, gap, distance from edges."""
    attitude = field.attitude
    lengths = (
        (attitude.chord, 6.7 * FOOT, "the modules' size up the row is"),
        (attitude.low, 2 * FOOT, "the low edge's height above the roof is"),
        (attitude.high, 4 * FOOT, "the high edge's height above the roof is"),
    )
    for angle, steepest, subject in (
        (building.slope, STEEPEST_ROOF, "the roof's slope is"),
        (abs(attitude.tilt), 35.0, "the modules' tilt is"),
    ):
        if angle > steepest + SAME_ANGLE:
            given, allowed = text(angle, "angle", "us"), text(steepest, "angle", "us")
            yield ExceededLimit(CLAUSE, f"{subject} {given}, the limit is {allowed}")
    for length, longest, subject in lengths:
        if length > longest + SAME_LENGTH:
            given, allowed = both(length, "length"), both(longest, "length")
            yield ExceededLimit(CLAUSE, f"{subject} {given}, the limit is {allowed}")
    yield from narrow_gap(CLAUSE, field.gap, field.modules)
    yield from _near_edge(building, field)


def _near_edge(building: Building, field: Field) -> Iterator[ExceededLimit]:
    """The limit of max(2 (h2 - hpt), 4 ft) from the edges of the roof, §29.4.3, if exceeded."""
    at = edges(building, field.outlines)
    nearest = float(min(at.along.min(), at.rake.min()))
    minimum = max(2 * (field.attitude.high - building.parapet_height), 4 * FOOT)
    if nearest < minimum - SAME_LENGTH:
        given, needed = both(nearest, "length"), both(minimum, "length")
        yield ExceededLimit(CLAUSE, f"the array is {given} from the edge of the roof, the minimum is {needed}")
