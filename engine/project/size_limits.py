"""How large a job may be: what is larger is refused before memory or patience is used up."""

from __future__ import annotations

from collections.abc import Iterator

from engine.common.errors import Problem
from engine.project.job import Job

MAX_MODULES = 10_000
MAX_CROSSINGS = 40_000
"""Places where modules cross ribs: as many as attachments can be tried."""
MAX_LEVELS = 500
"""Fastenings along one rib, which are solved as one beam."""
MAX_FASTENINGS = 120_000
MAX_KEEP_CLEAR = 200


def too_large(job: Job) -> Iterator[Problem]:
    """Every limit that a job passes, each with what was given and what is allowed."""
    array, roof, building = job.array, job.roof, job.building
    modules, ribs = array.rows * array.columns, len(roof.ribs(building))
    levels = len(roof.supports(building, close=True))
    on_slope = ribs * (
        levels + ribs if building.roof_shape == "hip" else levels
    )  # under a hip every rib ends where none other does
    crossings = int(modules * job.module.length / roof.rib_spacing)
    for path, what, given, most in (
        ("array", "modules", modules, MAX_MODULES),
        ("array", f"places where modules cross {roof.rib_word}s", crossings, MAX_CROSSINGS),
        ("array.keep_clear", "places", len(array.keep_clear), MAX_KEEP_CLEAR),
        ("roof.support_spacing", f"fastenings along each {roof.rib_word}", levels, MAX_LEVELS),
        ("roof", f"fastenings on {ribs:,} {roof.rib_word}s", on_slope, MAX_FASTENINGS),
    ):
        if given > most:
            yield Problem(path, f"{given:,} {what} given; allowed are {most:,}")
