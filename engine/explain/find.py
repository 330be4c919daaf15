"""Why? One point and one fastening, from the wind speed to the utilisation, step by step.

The very functions that computed the comparison run again for one point, with a recorder.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.chains.fastening import most_from, most_loaded_by, through, worst_fastening
from engine.common.calculation import CalculationStep
from engine.common.errors import InputError, Problem
from engine.comparison.compare import Column, Comparison
from engine.links.trail import Road
from engine.units import both


@dataclass(frozen=True)
class Explanation:
    """The steps of one chain, under a heading, or the sentence that says why there is none."""

    heading: str
    steps: tuple[CalculationStep, ...]


def explain(comparison: Comparison, column: Column, attachment: int | None = None) -> Explanation:
    """Explain one attachment of a method and the fastening it loads most.

    Args:
        comparison: the comparison the column is of.
        column: the method's column.
        attachment: the attachment's number from 0; None for the one that brings most to the worst fastening.

    Raises:
        InputError: there is no attachment of that number.
    """
    design, job = column.design, comparison.scenario.job
    if design is None or design.candidate is None:
        return Explanation(
            f"{column.title}: {column.status}; {column.flags[0].text if column.flags else 'nothing was checked'}", ()
        )
    if attachment is not None and attachment >= len(design.layout.attachments):
        raise InputError(
            [
                Problem(
                    "--point",
                    f"{attachment + 1} given; {column.title} has attachments 1 to {len(design.layout.attachments)}",
                )
            ]
        )
    road = Road(job, design, design.candidate)
    if attachment is None:
        row, which, number = worst_fastening(road)
        attachment = most_from(road, row, which, number)
    else:
        row, which = most_loaded_by(road, attachment)
        number = int(np.argmin(road.demands.fastening[row, which]))
    return Explanation(_heading(road, attachment, column.title), tuple(through(road, attachment, row, which, number)))


def explain_force(comparison: Comparison, column: Column, *, up: bool) -> Explanation:
    """Explain the largest pull, or push, that one attachment of a checked design brings to the roof."""
    design, job = column.design, comparison.scenario.job
    if design is None or design.candidate is None:
        return Explanation("", ())
    road = Road(job, design, design.candidate)
    normal = road.demands.attachment_normal
    worst = np.argmin(normal) if up else np.argmax(normal)
    attachment, number = (int(part) for part in np.unravel_index(int(worst), normal.shape))
    return Explanation(_heading(road, attachment, column.title), tuple(road.force(attachment, number)))


def _heading(road: Road, attachment: int, title: str) -> str:
    """Which attachment, and where it stands."""
    attachments = road.layout.attachments
    place = f"{both(attachments.x[attachment], 'length')} from the rake, {both(attachments.y[attachment], 'length')} from the eave"
    return (
        f"{title}: attachment {attachment + 1} on {road.job.roof.rib_word} {attachments.rib[attachment] + 1}, {place}"
    )
