"""Why? One point and one fastening, from the wind speed to the utilisation, step by step.

The very functions that computed the comparison run again for one point, with a recorder.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.chains.fastening import most_from, most_loaded_by, through, worst_fastening
from engine.common.calculation import Step
from engine.common.errors import InputError, Problem
from engine.comparison.compare import Column, Comparison
from engine.links.trail import Road
from engine.units import both


@dataclass(frozen=True)
class Explanation:
    """The steps of one chain, under a heading, or the sentence that says why there is none."""

    heading: str
    steps: tuple[Step, ...]


def explain(comparison: Comparison, column: Column, point: int | None = None) -> Explanation:
    """Explain one attachment of a method and the fastening it loads most.

    Args:
        comparison: the comparison the column is of.
        column: the method's column.
        point: the attachment's number from 0; None for the one that brings most to the worst fastening.

    Raises:
        InputError: there is no attachment of that number.
    """
    design, job = column.design, comparison.scenario.job
    if design is None or design.attempt is None:
        return Explanation(f"{column.title}: {column.status}; {column.flags[0].text if column.flags else 'nothing was checked'}", ())
    if point is not None and point >= len(design.layout.points):
        raise InputError([Problem("--point", f"{point + 1} given; {column.title} has attachments 1 to {len(design.layout.points)}")])
    road = Road(job, design, design.attempt)
    if point is None:
        row, which, number = worst_fastening(road)
        point = most_from(road, row, which, number)
    else:
        row, which = most_loaded_by(road, point)
        number = int(np.argmin(road.demands.fastening[row, which]))
    return Explanation(_heading(road, point, column.title), tuple(through(road, point, row, which, number)))


def explain_force(comparison: Comparison, column: Column, *, up: bool) -> Explanation:
    """Explain the largest pull, or push, that one attachment of a checked design brings to the roof."""
    design, job = column.design, comparison.scenario.job
    if design is None or design.attempt is None:
        return Explanation("", ())
    road = Road(job, design, design.attempt)
    normal = road.demands.point_normal
    worst = np.argmin(normal) if up else np.argmax(normal)
    point, number = (int(part) for part in np.unravel_index(int(worst), normal.shape))
    return Explanation(_heading(road, point, column.title), tuple(road.force(point, number)))


def _heading(road: Road, point: int, title: str) -> str:
    """Which attachment, and where it stands."""
    points = road.layout.points
    place = f"{both(points.x[point], 'length')} from the rake, {both(points.y[point], 'length')} from the eave"
    return f"{title}: attachment {point + 1} on {road.job.roof.rib_word} {points.rib[point] + 1}, {place}"
