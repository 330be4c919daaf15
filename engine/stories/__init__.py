"""Why? How any figure of the comparison came about: its own arithmetic, then the road back to the wind speed.

Every story begins with the figure itself and goes back to what it came from.
"""

from __future__ import annotations

from engine.common.calculation import CalculationStep
from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Row
from engine.explain.find import Explanation, explain
from engine.stories import counting, hardware, links
from engine.stories.told import Tell, Told
from engine.units import System

STORIES: dict[str, Tell] = {**counting.STORIES, **links.STORIES, **hardware.STORIES}
"""A row's key → what tells its story."""


def story(comparison: Comparison, column: Column, row: Row, system: System) -> Explanation:
    """How one figure came about: a heading with the figure, and its steps from the figure backward."""
    heading = f"{column.title}: {row.label} {row.cell(column, system)}. {row.help[0].upper()}{row.help[1:]}."
    if column.design is None:
        return Explanation(f"{heading} {_said(column)}", ())
    steps = STORIES[row.key](Told(comparison, column, column.design, row, system))
    return Explanation(heading if steps else f"{heading} {_said(column)}", _once(steps))


def story_of_attachment(comparison: Comparison, column: Column, attachment: int) -> Explanation:
    """How what one attachment asks of the roof came about, from the utilisation backward; `attachment` counts from 0."""
    told = explain(comparison, column, attachment)
    return Explanation(told.heading, tuple(reversed(told.steps)))


def _said(column: Column) -> str:
    """Why there is nothing to tell."""
    return column.flags[0].text if column.flags else "There is no such figure for this method."


def _once(steps: tuple[CalculationStep, ...]) -> tuple[CalculationStep, ...]:
    """A step that stands twice is shown where it stands first."""
    kept: dict[tuple[str, str, float], CalculationStep] = {}
    for step in steps:
        kept.setdefault((step.symbol, step.meaning, step.result.value), step)
    return tuple(kept.values())
