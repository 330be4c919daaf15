"""Largest job that is computed: a larger one is refused before it takes too much memory or time."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.common.errors import Problem
from engine.project.array import modules_of
from engine.project.job import Job
from engine.project.placement import places_within

MAX_MODULES = 10_000
MAX_CROSSINGS = 40_000
"""Crossings of module edges and ribs: possible places of attachments."""
MAX_LEVELS = 500
"""Fastenings along one rib, solved as one continuous beam."""
MAX_FASTENINGS = 120_000
MAX_KEEP_CLEAR = 200
MAX_HIGHER_ROOFS = 20
MAX_SNOW_RETENTION = 20
MAX_RATINGS = 50
"""Rows of the module maker's ratings: a manual has some ten."""


MAX_PLACES = 400
"""Places of a placement map: each is a whole design."""


def too_large(job: Job) -> Iterator[Problem]:
    """The limits that a job exceeds, each with the number given and the number allowed."""
    roof, building = job.roof, job.building
    modules, ribs = modules_of(job.arrays), len(roof.ribs(building))
    arrays = "arrays" if len(job.arrays) > 1 else "array"
    levels = len(roof.supports(building, close=True))
    on_slope = ribs * (
        levels + ribs if building.roof_shape == "hip" else levels
    )  # under a hip every rib has another length
    crossings = int(modules * job.module.length / roof.rib_spacing)
    for path, counted, given, allowed in (
        (arrays, "modules", modules, MAX_MODULES),
        (arrays, f"crossings of modules and {roof.rib_word}s", crossings, MAX_CROSSINGS),
        (f"{arrays}.keep_clear", "areas", len(job.keep_clear), MAX_KEEP_CLEAR),
        ("building.higher_roofs", "higher roofs", len(building.higher_roofs), MAX_HIGHER_ROOFS),
        ("roof.snow_retention", "lines", len(roof.snow_retention), MAX_SNOW_RETENTION),
        ("module.ratings", "ratings", len(job.module.ratings), MAX_RATINGS),
        ("roof.support_spacing", f"fastenings along each {roof.rib_word}", levels, MAX_LEVELS),
        ("placement.step", "places of the array", _places(job), MAX_PLACES),
        ("roof", f"fastenings on {ribs:,} {roof.rib_word}s", on_slope, MAX_FASTENINGS),
    ):
        if given > allowed:
            yield Problem(path, f"{given:,} {counted} given; allowed are {allowed:,}")


def _places(job: Job) -> int:
    """Number of places within the window at the stated step; 0 where none is stated."""
    step = job.placement.step
    return math.prod(places_within(window, step) for window in job.placement_window) if step else 0
