"""Arrays parallel to the roof, ASCE 7 §29.4.4."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import CalculationStep, Recorder, Term, silent
from engine.common.tolerances import SAME_LENGTH
from engine.loads.asce7.array_edges import FLUSH_GAP, edge_factor, exposed_modules, record_edge_factor
from engine.loads.asce7.array_wind import narrow_gap
from engine.loads.asce7.gcp_figures import GcpFigure, last_touched
from engine.loads.asce7.references import clause
from engine.loads.asce7.roof_zones import touched_zones
from engine.loads.asce7.site import Site
from engine.loads.interface import ExceededLimit, Remark
from engine.mounting.layout import Field
from engine.project.building import Building
from engine.project.job import Job
from engine.units import FOOT, INCH, both

CLAUSE = "ASCE 7 §29.4.4"

MAX_TILT = 2.0
"""Largest angle between module and roof of an array parallel to the roof [deg]."""

MAX_HEIGHT = 10 * INCH
"""Largest height of the modules' top above the roof [m]."""

MAX_MODULE_LENGTH = 6.7 * FOOT
"""Largest distance between gaps [m]."""


def pressure_equalization(area: Floats) -> Floats:
    """γa, Fig. 29.4-8: 0.8 to 10 ft², 1.2 - 0.4 log A to 100 ft², 0.4 beyond; area [ft²]."""
    factor: Floats = np.clip(1.2 - 0.4 * np.log10(area), 0.4, 0.8)
    return factor


@dataclass(frozen=True, eq=False)
class FlushWind:
    """Wind on modules parallel to the roof: p = qh [Kd] (GCp) γE γa."""

    edition: str
    figure: GcpFigure
    touched: Bools
    exposed: Bools
    outside: tuple[ExceededLimit, ...]
    remarks: tuple[Remark, ...]
    zone_widths: tuple[CalculationStep, ...] = ()

    @classmethod
    def on(cls, site: Site, job: Job, field: Field, figure: GcpFigure) -> FlushWind:
        """Wind on a field of this job, on the roof of this figure."""
        return cls(
            site.standard,
            figure,
            touched_zones(site.standard, job.building, field.outlines, figure.zone_names),
            exposed_modules(field, job.building, literal=site.array_edges == "literal", gap=FLUSH_GAP),
            tuple(limits(job.building, field)),
            tuple(remarks(field)),
        )

    @property
    def zone_names(self) -> tuple[str, ...]:
        """The zones of the roof's own cladding."""
        return self.figure.zone_names

    @cached_property
    def zone(self) -> Ints:
        """Zone of each module for labels, the last that it touches (M,)."""
        return last_touched(self.touched)

    @cached_property
    def kind(self) -> Ints:
        """A number for each set of zones that modules touch, with their exposure (M,)."""
        bits: Ints = np.column_stack([self.touched, self.exposed]) @ (1 << np.arange(self.touched.shape[1] + 1))
        return bits

    def coefficient(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """(GCp) γE γa, Eq. 29.4-7, with the sign of GCp; areas [ft²]."""
        gcp = self.figure.gcp(case, self.touched[module], area)
        gamma_e, gamma_a = edge_factor(case, self.exposed[module]), pressure_equalization(area)
        net: Floats = gcp * gamma_e * gamma_a
        if record is not silent:
            self.figure.record_gcp(case, self.touched[module[0]], float(area[0]), float(gcp[0]), record)
            self._record(float(area[0]), Term(float(gcp[0])), Term(float(gamma_e[0])), Term(float(gamma_a[0])), record)
        return net

    def _record(self, area: float, gcp: Term, gamma_e: Term, gamma_a: Term, record: Recorder) -> None:
        record_edge_factor(self.edition, "§29.4.4", gamma_e, record)
        equation = "min(0.8, max(0.4, 1.2 - 0.4 * log(A)))"
        record(
            CalculationStep(
                "gammaA",
                "pressure equalization",
                gamma_a,
                equation,
                {"A": Term(area, "ft2")},
                clause(self.edition, "Fig. 29.4-8"),
            )
        )
        terms = {"GCp": gcp, "gammaE": gamma_e, "gammaA": gamma_a}
        net = Term(gcp.value * gamma_e.value * gamma_a.value)
        record(
            CalculationStep(
                "C",
                "net coefficient, parallel to the roof",
                net,
                "GCp * gammaE * gammaA",
                terms,
                clause(self.edition, "Eq. 29.4-7"),
            )
        )


def limits(building: Building, field: Field) -> Iterator[ExceededLimit]:
    """The limits of §29.4.4 that are exceeded: height, gaps, distance from eave, rakes or hips, and ridge."""
    top = field.attitude.high
    if top > MAX_HEIGHT + SAME_LENGTH:
        given, allowed = both(top, "small length"), both(MAX_HEIGHT, "small length")
        yield ExceededLimit(CLAUSE, f"the modules' top is {given} above the roof, the limit is {allowed}")
    yield from narrow_gap(CLAUSE, field.gap, field.modules)
    nearest, edge = min(_from_edges(building, field))
    if nearest < 2 * top - SAME_LENGTH:
        given, minimum = both(nearest, "length"), both(2 * top, "length")
        yield ExceededLimit(
            CLAUSE, f"the array is {given} from the {edge}, the minimum is {minimum} (twice its height)"
        )


def _from_edges(building: Building, field: Field) -> Iterator[tuple[float, str]]:
    """Distance of the array from each edge of its slope, along the roof [m], with the name of the edge."""
    at = field.outlines
    yield float(at.low.min()), "eave"
    yield building.slope_length - float(at.high.max()), "ridge" if building.has_ridge else "high edge"
    for side, away in zip(("left", "right"), building.from_sides(at.left, at.right, at.high), strict=True):
        yield float(away.min()), f"{side} {building.side_word}"


def remarks(field: Field) -> Iterator[Remark]:
    """Deviations from the text of the clause that do not end its use."""
    longest = field.attitude.long_side
    if longest > MAX_MODULE_LENGTH + SAME_LENGTH:
        given, allowed = both(longest, "length"), both(MAX_MODULE_LENGTH, "length")
        text = (
            f"the modules are {given} long, {CLAUSE} has gaps at most {allowed} apart: "
            "the pressures are used all the same; the engineer decides"
        )
        yield Remark("long_module", "caution", text)
