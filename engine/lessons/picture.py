"""The picture of a step: the row of attachments with the largest load, from the side, as the step lays them out."""

from __future__ import annotations

from dataclasses import dataclass

from engine.comparison.compare import compare
from engine.lessons.file import LessonStep
from engine.project.job import Job
from engine.scenario.read import Scenario
from engine.studies.spacing import Elevation, SpacingRow, SpacingStudy, row_of_design, study


@dataclass(frozen=True, eq=False)
class StepPicture:
    """The layout of a step beside the spacing study of its method, and which of its loads are drawn."""

    job: Job
    study: SpacingStudy
    row: SpacingRow
    uplift: bool

    @property
    def seen(self) -> Elevation:
        """The row from the side."""
        return self.row.at_largest_uplift if self.uplift else self.row.at_largest_down_load


def picture_of(step: LessonStep, scenario: Scenario) -> StepPicture | None:
    """The picture of a step on its scenario; None if it has none, or its method has no spacings here."""
    if step.picture is None or step.method is None:
        return None
    (studied,) = study(scenario, (step.method,))
    (column,) = compare(scenario, (step.method,)).columns
    if not studied.rows or column.design is None or column.design.candidate is None:
        return None
    return StepPicture(scenario.job, studied, row_of_design(column.design), step.picture == "uplift")
