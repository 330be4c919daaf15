"""Explanations: the steps from a figure, or an attachment, back to the wind speed.

The functions that computed the comparison run again for one place, with a recorder.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.calculation import CalculationStep
from engine.common.errors import InputError, Problem
from engine.common.sentences import capitalized
from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Figure, FigureContext
from engine.comparison.figures.utilisation import reason_without_ratio
from engine.links import Check, roof_fastening
from engine.links.attachment import governing_attachment, steps_to_attachment
from engine.links.trail import CalculationTrail
from engine.project.job import Job
from engine.units import System, text

OF_CONTROLLING = ("status", "weakest_link")
"""Figures that rest on the controlling check."""


@dataclass(frozen=True)
class Explanation:
    """Steps under a heading; without steps the heading says why there are none."""

    heading: str
    steps: tuple[CalculationStep, ...]


def explain_figure(comparison: Comparison, column: Column, figure: Figure, system: System) -> Explanation:
    """The steps from one figure of a method back to the loads."""
    job = comparison.scenario.job
    check = column.checks.get(figure.key) or (column.decisive if figure.key in OF_CONTROLLING else None)
    about = _loads_of(check, job, system) if check and check.loads else f"{capitalized(figure.help(job))}."
    heading = f"{column.title}: {figure.label(job)} {figure.cell(column, system)}. {about}"
    if column.design is None:
        return Explanation(f"{heading} {_why_no_steps(column, figure)}", ())
    steps = figure.explain(FigureContext(comparison, column, column.design, system))
    if steps and check and check.unchecked:
        heading = f"{heading} {reason_without_ratio(column, check)}."
    return Explanation(heading if steps else f"{heading} {_why_no_steps(column, figure)}", _without_repeats(steps))


def _loads_of(check: Check, job: Job, system: System) -> str:
    """A check in one sentence: "Clip at seam 37: load 378 lb, allowable 430 lb, in 0.6D + 0.6W up."."""
    place = f" at {check.place.name}" if check.place.name else ""
    loads = (
        f"{load.name} {text(load.demand, check.dimension, system)}, "
        f"{job.words.resistance} {text(load.resistance, check.dimension, system)}"
        for load in check.loads
    )
    within = f", in {check.combination}" if check.combination else ""
    return f"{capitalized(check.title)}{place}: {'; together with '.join(loads)}{within}."


def _why_no_steps(column: Column, figure: Figure) -> str:
    """Reason why a figure has no steps."""
    check = column.checks.get(figure.key)
    if check:
        return reason_without_ratio(column, check)
    return column.flags[0].text if column.flags else "This method has no such figure."


def _without_repeats(steps: tuple[CalculationStep, ...]) -> tuple[CalculationStep, ...]:
    """The steps, each shown where it appears first."""
    first: dict[tuple[str, str, float], CalculationStep] = {}
    for step in steps:
        first.setdefault((step.symbol, step.meaning, step.result.value), step)
    return tuple(first.values())


def explain_attachment(column: Column, attachment: int | None = None) -> Explanation:
    """The steps from the wind speed to one attachment and to the roof fastening that carries most of its load.

    Where the attachments do not load the sheet, the steps end at the attachment.

    Args:
        column: the method.
        attachment: its number from 0; None for the attachment that loads the controlling fastening most, or for the
            one with the largest utilisation where none loads a fastening.

    Raises:
        InputError: there is no attachment of that number.
    """
    if column.design is None or column.candidate is None:
        reason = column.flags[0].text if column.flags else "nothing was checked"
        return Explanation(f"{column.title}: {column.status}; {reason}", ())
    count = len(column.design.layout.attachments)
    if attachment is not None and attachment >= count:
        raise InputError([Problem("--point", f"{attachment + 1} given; {column.title} has attachments 1 to {count}")])
    trail = CalculationTrail(column.candidate.demands)
    if trail.job.hardware.bypasses_sheet:
        attachment, number = governing_attachment(trail.demands, attachment)
        steps = steps_to_attachment(trail, attachment, number)
        return Explanation(f"{column.title}: {trail.attachment_name(attachment)}", tuple(steps))
    if attachment is None:
        row, level, number = roof_fastening.governing_fastening(trail)
        attachment = roof_fastening.main_attachment(trail, row, level, number)
    else:
        row, level = roof_fastening.main_fastening(trail, attachment)
        number = int(np.argmin(trail.demands.fastening[row, level]))
    steps = roof_fastening.explain_through(trail, attachment, row, level, number)
    return Explanation(f"{column.title}: {trail.attachment_name(attachment)}", tuple(steps))
