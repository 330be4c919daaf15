"""Messages between the parts of the app."""

from __future__ import annotations

from textual.message import Message

from engine.comparison.compare import Comparison
from engine.scenario.changes import Steps
from engine.studies.spacing import SpacingStudy
from tui.model.inputs import Inputs
from tui.model.lesson_run import LessonProgress
from tui.model.state import StudyKey


class Compared(Message):
    """A comparison is ready; `inputs` are those it was computed from, so that a late one can be dropped.

    Not `is_final`: it has the layouts of the comparison before, and a search is on its way.
    """

    def __init__(self, inputs: Inputs, comparison: Comparison, *, is_final: bool = True) -> None:
        super().__init__()
        self.inputs, self.comparison, self.is_final = inputs, comparison, is_final


class CompareProgress(Message):
    """Progress of the first comparison of some inputs, in words."""

    def __init__(self, inputs: Inputs, words: str) -> None:
        super().__init__()
        self.inputs, self.words = inputs, words


class StopRequested(Message):
    """The comparison that is computed is not wanted now."""


class ComputeFailed(Message):
    """A comparison ended in an internal error; the app keeps the last good one."""

    def __init__(self, inputs: Inputs, sentence: str) -> None:
        super().__init__()
        self.inputs, self.sentence = inputs, sentence


class Studied(Message):
    """A study of one method is ready."""

    def __init__(self, comparison: Comparison, key: StudyKey, study: SpacingStudy) -> None:
        super().__init__()
        self.comparison, self.key, self.study = comparison, key, study


class InputEdited(Message):
    """Text was typed into a field: the inputs with it, and the inputs when the field was opened."""

    def __init__(self, inputs: Inputs, before: Inputs) -> None:
        super().__init__()
        self.inputs, self.before = inputs, before


class EditCancelled(Message):
    """A field was left by escape: the inputs when it was opened."""

    def __init__(self, before: Inputs) -> None:
        super().__init__()
        self.before = before


class MethodSelected(Message):
    """Another method is to be shown, by its id."""

    def __init__(self, method: str) -> None:
        super().__init__()
        self.method = method


class WhyRequested(Message):
    """The calculation of the figure in focus is to be shown."""


class InputRequested(Message):
    """The input of a path is to be shown in the form."""

    def __init__(self, path: Steps) -> None:
        super().__init__()
        self.path = path


class RoofRequested(Message):
    """The roof plan is to be shown."""


class LessonMoved(Message):
    """The class goes on, or back, in its lesson."""

    def __init__(self, progress: LessonProgress) -> None:
        super().__init__()
        self.progress = progress


class FiguresRequested(Message):
    """The class has its answer; the screen with the figures is to be shown."""
