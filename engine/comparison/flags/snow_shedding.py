"""Flags about snow that slides off the array and the roof, and about the lines that hold it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.common.tolerances import SAME_ANGLE, SAME_LENGTH
from engine.comparison.flags.flag import Flag
from engine.design.design import Design
from engine.project.job import Job
from engine.units import both

SHEDS_FROM = math.degrees(math.atan(0.25 / 12))
"""Slope above which snow slides off slippery surfaces [deg]: 1/4 on 12, as in ASCE 7 §7.9; glass and metal are such."""


def flags(job: Job, design: Design) -> Iterator[Flag]:
    """The flags, in reading order; none without snow."""
    if not design.loads.snow_cases:
        return
    yield from _shedding(job, design)
    yield from _retention(job)


def _shedding(job: Job, design: Design) -> Iterator[Flag]:
    """Snow that neither a line below the lowest modules nor a parapet at the eave holds."""
    lowest = float(design.field.outlines.low.min())
    held = any(line.at <= lowest + SAME_LENGTH for line in job.roof.snow_retention)
    if job.building.slope <= SHEDS_FROM + SAME_ANGLE or held or job.building.parapet_height > 0:
        return
    text = (
        f"Snow can slide off the modules and over the eave, {both(lowest, 'length')} below the lowest row. "
        "Keep doors, walks and lower roofs there clear, or hold the snow (roof.snow_retention)"
    )
    yield Flag("snow_shedding", "note", text)


def _retention(job: Job) -> Iterator[Flag]:
    """Load of the lines on each panel, and what is not computed."""
    lines, roof = job.roof.snow_retention, job.roof
    if not lines:
        return
    load = both(sum(line.load for line in lines) * roof.rib_spacing, "force")
    count = "1 line" if len(lines) == 1 else f"{len(lines)} lines"
    text = (
        f"Snow retention ({count}) adds {load} along the slope to each panel, beside the snow on the panel itself. "
        f"Bending of the {roof.rib_word}s at the lines and the lines themselves are not checked: their maker shows them"
    )
    yield Flag("snow_retention", "caution", text)
