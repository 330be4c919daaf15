"""Arrays parallel to the roof, ASCE 7 §29.4.4."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from engine.arrays import Floats
from engine.job import Job
from engine.layout import Field
from engine.loads import Limit, Remark
from engine.standards.asce7.zones import edges
from engine.units import FOOT, INCH, both

HIGHEST = 10 * INCH
SMALLEST_GAP = 0.25 * INCH
LONGEST_MODULE = 6.7 * FOOT
EXPOSED_EDGE_FACTOR = 1.5
"""γE for uplift on an exposed module; 1.0 otherwise and for downward load."""


def pressure_equalization(area: Floats) -> Floats:
    """γa, Fig. 29.4-8: 0.8 to 10 ft², 1.2 - 0.4 log A to 100 ft², 0.4 beyond; area [ft²]."""
    factor: Floats = np.clip(1.2 - 0.4 * np.log10(area), 0.4, 0.8)
    return factor


def limits(job: Job, field: Field) -> Iterator[Limit]:
    """Where the clause ends: height, gaps, distance from eave, rakes and ridge."""
    where = "ASCE 7 §29.4.4"
    top = field.attitude.high
    if top > HIGHEST + 1e-9:
        yield Limit(
            where, f"the modules' top is {both(top, 'small length')} above the roof, the clause ends at {both(HIGHEST, 'small length')}"
        )
    if field.gap < SMALLEST_GAP - 1e-9:
        yield Limit(
            where, f"the modules' gap is {both(field.gap, 'small length')}, the clause asks for {both(SMALLEST_GAP, 'small length')}"
        )
    at = edges(job.building, field.outlines)
    least = 2 * top
    nearest = float(min(at.along_plan.min(), at.rake.min(), at.ridge.min()))
    if nearest < least - 1e-9:
        yield Limit(
            where,
            f"the array comes within {both(nearest, 'length')} of an edge or the ridge, the clause asks for {both(least, 'length')} (2 h2)",
        )


def remarks(field: Field) -> Iterator[Remark]:
    """What is outside the clause's letter without ending its use."""
    if field.attitude.long_side > LONGEST_MODULE:
        yield Remark(
            "long_module",
            "caution",
            f"a module is {both(field.attitude.long_side, 'length')} long and the clause speaks of gaps at most "
            f"{both(LONGEST_MODULE, 'length')} apart: outside its letter",
        )
