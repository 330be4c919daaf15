"""Ways out by another place of the array, on roofs whose seams and supports are surveyed."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import numpy as np

from engine.comparison.compare import Column, Comparison
from engine.design.design import Design
from engine.project.job import Job
from engine.studies.ways_out.as_written import arrays_moved
from engine.studies.ways_out.proposal import Proposal
from engine.units import INCH, System, both

STEPS: dict[System, tuple[float, float]] = {"us": (3 * INCH, 6 * INCH), "si": (0.075, 0.15)}
"""Distances between the places that are tried along the eave and up the slope [m]."""

MOST_TRIED = 24
"""Most places that are tried, the nearest first."""


def moved_arrays(column: Column, comparison: Comparison) -> Iterator[Proposal]:
    """The array at nearby places within the window of the job, the nearest first.

    None on a roof whose first rib and first support are not stated: there nobody knows where the array would come.
    """
    scenario = comparison.scenario
    roof, design = scenario.job.roof, column.design
    if design is None or not (roof.ribs_surveyed and roof.supports_surveyed):
        return
    along, up = scenario.job.placement_window
    step_along, step_up = STEPS[scenario.job.system]
    across, upward = _steps(along, step_along), _steps(up, step_up)
    places = sorted((each for each in product(across, upward) if any(each)), key=lambda each: float(np.hypot(*each)))
    what = "the array" if len(scenario.job.arrays) == 1 else "all arrays"
    for right, higher in places[:MOST_TRIED]:
        text = f"move {what} {_in_words(scenario.job, design, right, higher)}"
        yield Proposal(text, arrays_moved(scenario, right, higher))


def _steps(window: float, step: float) -> list[float]:
    """Steps to either side within half a window [m]."""
    most = int(window / 2 / step)
    return [number * step for number in range(-most, most + 1)]


def _in_words(job: Job, design: Design, right: float, higher: float) -> str:
    """The direction and length of a move, and where the left edge of the modules then is."""
    side, up = ("right" if right > 0 else "left"), ("up the slope" if higher > 0 else "toward the eave")
    parts = (
        [f"{both(abs(right), 'small length', job.system)} toward the {side} {job.building.side_word}"] if right else []
    )
    parts += [f"{both(abs(higher), 'small length', job.system)} {up}"] if higher else []
    edge, ribs = float(design.field.outlines.left.min()) + right, job.ribs
    passed = max(int(np.searchsorted(ribs, edge, side="right")) - 1, 0)
    beyond = both(edge - float(ribs[passed]), "small length", job.system)
    return f"{' and '.join(parts)} (left edge of the modules {beyond} past {job.roof.rib_word} {passed + 1})"
