"""Lessons: read from a file, computed on their scenario, and worked through step by step."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from engine.common.errors import InputError, Problem
from engine.lessons.all_figures import all_figures
from engine.lessons.answers import AnsweredLesson, AnsweredStep, LessonAnswer, answer_lesson
from engine.lessons.figures import FigureLookup
from engine.lessons.file import Changes, Lesson, is_lesson, read_lesson
from tui.model.inputs import Inputs
from tui.storage import paths


@dataclass(frozen=True)
class ComputedLesson:
    """A lesson with its computed answers, and the inputs of its scenario."""

    answered_lesson: AnsweredLesson
    inputs: Inputs

    @property
    def answers(self) -> list[tuple[str, str]]:
        """Title and answer of every step."""
        return [
            (f"step {number}, {step.step.title}", step.answer.text("us") if step.answer else "no question")
            for number, step in enumerate(self.answered_lesson.stops, 1)
        ]


def path_of(name: str) -> Path:
    """A lesson's file: a bundled one by its name, else a path."""
    return paths.named(name)


def open_lesson(path: Path) -> ComputedLesson:
    """Read a lesson and compute its figures.

    Raises:
        InputError: everything that is wrong with it, each with its step.
    """
    tables = paths.parse(paths.read_text(path), path.name)
    if not is_lesson(tables):
        sentence = (
            "no lesson: it has no steps and no scenario; use `loadpath compare` or `loadpath open` for a scenario"
        )
        raise InputError([Problem(path.name, sentence)])
    lesson = read_lesson(tables)
    inputs = _scenario_of(lesson, path)

    def figures_at(changes: Changes) -> FigureLookup:
        changed = replace(inputs, changes=changes)
        return all_figures(changed.scenario(), changed.tables())

    return ComputedLesson(answer_lesson(lesson, figures_at), inputs)


def _scenario_of(lesson: Lesson, path: Path) -> Inputs:
    """The inputs of a lesson's scenario, without the lesson's changes."""
    beside = path.parent / lesson.heading.scenario
    try:
        inputs = Inputs.of_file(beside if beside.is_file() else paths.named(lesson.heading.scenario))
        inputs.scenario()
    except InputError as wrong:
        raise InputError(
            [Problem(f"scenario: {problem.path}", problem.message) for problem in wrong.problems]
        ) from None
    return inputs


@dataclass(frozen=True)
class LessonProgress:
    """Progress of a class in a lesson.

    Attributes:
        computed: the lesson.
        number: the step shown, from 0.
        seen: how many steps were answered.
        guesses: the class's guess at each step, by number.
    """

    computed: ComputedLesson
    number: int = 0
    seen: int = 0
    guesses: Mapping[int, LessonAnswer] = field(default_factory=dict)

    @property
    def current(self) -> AnsweredStep:
        """The step shown."""
        return self.computed.answered_lesson.stops[self.number]

    @property
    def steps(self) -> int:
        """Number of steps."""
        return len(self.computed.answered_lesson.stops)

    @property
    def is_last(self) -> bool:
        """True at the last step."""
        return self.number == self.steps - 1

    @property
    def inputs(self) -> Inputs:
        """The lesson's inputs with the changes of this step."""
        return replace(self.computed.inputs, changes=self.current.changes)

    @property
    def is_answered(self) -> bool:
        """True if the answer is shown; a step without a question and without a text to reveal needs none."""
        return self.number < self.seen or not (self.current.answer or self.current.step.reveal)

    def with_answer(self, guess: LessonAnswer | None) -> LessonProgress:
        """The same step with its answer shown beside the guess."""
        guesses = {**self.guesses, self.number: guess} if guess else self.guesses
        return replace(self, seen=max(self.seen, self.number + 1), guesses=guesses)

    def moved(self, steps: int) -> LessonProgress:
        """Some steps on or back, within the lesson."""
        return replace(self, number=min(max(self.number + steps, 0), self.steps - 1))
