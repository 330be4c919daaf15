"""The state of the app: one frozen value of which every screen shows its own part."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from engine.common.errors import Problem
from engine.comparison.compare import Column, Comparison
from engine.scenario.changes import Steps
from engine.studies.spacing import SpacingStudy
from engine.units import System
from tui.model.inputs import Inputs
from tui.model.lesson_run import LessonProgress

Varied = Literal["spacing", "place"]
"""The variable of a study: the spacing of the attachments, or the place of the array."""

StudyKey = tuple[Varied, str]
"""The variable of a study, and the method's id."""

COVERED = "Figures are covered until the class has guessed. Press , for the question."
"""The sentence in place of figures that a lesson still asks for."""

COMPUTING, SEARCHING, OLDER_INPUTS = "computing …", "former layout, searching …", "older inputs"
STOPPED = "stopped, c computes"
"""Marks of figures that are not final: older than the inputs, of the former layout, an input is wrong, or the
computation was stopped."""


@dataclass(frozen=True, eq=False)
class State:
    """The inputs now, and the last comparison that could be computed.

    Attributes:
        inputs: the inputs now.
        comparison: the last comparison, None before the first.
        compared: the inputs that `comparison` was computed from; None while it shows the former layout on new ones.
        studies: studies of the comparison's methods that were looked at, by what varies and the method's id.
        problems: everything that is wrong with the inputs.
        system: the units shown.
        baseline: an earlier comparison that later ones are shown against, and the inputs that it was computed from.
        method: id of the method shown by screens about one method; empty until one is selected.
        lesson: the lesson that is open.
        is_stopped: the computation of a comparison was stopped before its end.
        progress: what is computed before the first comparison, in words.
    """

    inputs: Inputs
    comparison: Comparison | None = None
    compared: Inputs | None = None
    studies: Mapping[StudyKey, SpacingStudy] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()
    system: System = "us"
    baseline: Comparison | None = None
    baseline_inputs: Inputs | None = None
    method: str = ""
    lesson: LessonProgress | None = None
    is_stopped: bool = False
    progress: str = ""

    @property
    def as_shown(self) -> State:
        """The state as screens, dialogs and exports may know it: no figures while a lesson still asks for them."""
        return replace(self, comparison=None, studies={}, baseline=None) if self.is_covered else self

    @property
    def is_covered(self) -> bool:
        """True while figures of the lesson's scenario would answer one of its open questions."""
        lesson = self.lesson
        return lesson is not None and lesson.covers_figures and lesson.inputs.same_file(self.inputs)

    @property
    def is_stale(self) -> bool:
        """True if the comparison is older than the inputs."""
        return self.comparison is not None and self.compared != self.inputs

    @property
    def stale_mark(self) -> str:
        """The word that marks figures older than the inputs; empty if they are current."""
        if not self.is_stale:
            return ""
        if self.problems:
            return OLDER_INPUTS
        if self.is_stopped:
            return STOPPED
        return COMPUTING if self.compared else SEARCHING

    @property
    def no_figures_reason(self) -> str:
        """The sentence in place of figures while there is no comparison."""
        if self.problems:
            return "No figures yet: give or correct the inputs marked ! (press i)."
        if self.is_stopped:
            return "Stopped before the first figures: c computes them."
        return COVERED if self.is_covered else f"{COMPUTING} {self.progress}".rstrip()

    @property
    def column(self) -> Column | None:
        """The selected method's column, else the first."""
        if self.comparison is None or not self.comparison.columns:
            return None
        return self.comparison.column(self.method) or self.comparison.columns[0]

    def problems_of(self, path: Steps) -> tuple[Problem, ...]:
        """The problems of an input or of a part of it."""
        name = ".".join(path)
        return tuple(problem for problem in self.problems if f"{problem.path}.".startswith(f"{name}."))

    def next_method(self, step: int = 1) -> str:
        """Id of the method that many steps after the selected one."""
        ids = [column.id for column in self.comparison.columns] if self.comparison else []
        return ids[(ids.index(self.column.id) + step) % len(ids)] if self.column else ""


@dataclass(frozen=True)
class Question:
    """The figure that "Why?" explains.

    Attributes:
        method: the method's id.
        row: key of a row of the comparison; empty for the verdict.
        attachment: number of an attachment, from 0; None for the controlling one.
        varied: what varies in the study that is shown; empty for the comparison's own layout.
        number: number of its spacing or place, from 0.
    """

    method: str
    row: str = ""
    attachment: int | None = None
    varied: Varied | Literal[""] = ""
    number: int = 0
