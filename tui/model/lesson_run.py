"""Lessons as files: found by name or path, read, and computed on their scenario."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from engine.common.errors import InputError, Problem
from engine.lessons.all_figures import all_figures
from engine.lessons.answers import AnsweredLesson, AnsweredStep, LessonAnswer, answer_lesson
from engine.lessons.figures import FigureLookup
from engine.lessons.file import Changes, Lesson, is_lesson, read_lesson
from tui.model.session import Session
from tui.storage import paths


@dataclass(frozen=True)
class Taught:
    """A lesson with its figures, and the scenario it is about."""

    answered_lesson: AnsweredLesson
    session: Session

    @property
    def answers(self) -> list[tuple[str, str]]:
        """Every step, and the answer that was computed where it asks."""
        return [
            (f"step {number}, {stop.step.title}", stop.answer.text("us") if stop.answer else "asks nothing")
            for number, stop in enumerate(self.answered_lesson.stops, 1)
        ]


def path_of(name: str) -> Path:
    """A lesson's file: one that comes with loadpath by its name, else a path."""
    return paths.named(name)


def open_lesson(path: Path) -> Taught:
    """Read a lesson and compute its figures.

    Raises:
        InputError: everything that is wrong with it, each with its step.
    """
    tables = paths.parse(paths.read_text(path), path.name)
    if not is_lesson(tables):
        words = (
            "no lesson: it has no steps and names no scenario; `loadpath compare` and `loadpath open` take scenarios"
        )
        raise InputError([Problem(path.name, words)])
    lesson = read_lesson(tables)
    session = _scenario_of(lesson, path)

    def figures_at(changes: Changes) -> FigureLookup:
        changed = replace(session, changes=changes)
        return all_figures(changed.scenario(), changed.tables())

    return Taught(answer_lesson(lesson, figures_at), session)


def _scenario_of(lesson: Lesson, path: Path) -> Session:
    """The scenario a lesson is about, as it stands without the lesson's changes."""
    beside = path.parent / lesson.heading.scenario
    found = beside if beside.is_file() else paths.named(lesson.heading.scenario)
    try:
        session = Session(found, paths.read_text(found))
        session.scenario()
    except InputError as wrong:
        raise InputError(
            [Problem(f"scenario: {problem.path}", problem.message) for problem in wrong.problems]
        ) from None
    return session


@dataclass(frozen=True)
class Place:
    """Where a class stands in a lesson: at a step, `seen` steps answered so far, and what it guessed at each."""

    taught: Taught
    number: int = 0
    seen: int = 0
    guesses: Mapping[int, LessonAnswer] = field(default_factory=dict)

    @property
    def stop(self) -> AnsweredStep:
        """The step it stands at."""
        return self.taught.answered_lesson.stops[self.number]

    @property
    def steps(self) -> int:
        """How many steps there are."""
        return len(self.taught.answered_lesson.stops)

    @property
    def last(self) -> bool:
        """Whether it is the last step."""
        return self.number == self.steps - 1

    @property
    def session(self) -> Session:
        """The scenario with what this step sets."""
        return replace(self.taught.session, changes=self.stop.changes)

    @property
    def answered(self) -> bool:
        """Whether the step's answer stands on the screen; what asks and reveals nothing needs none."""
        return self.number < self.seen or not (self.stop.answer or self.stop.step.reveal)

    def with_answer(self, guess: LessonAnswer | None) -> Place:
        """The same step, its answer shown beside the guess."""
        guesses = {**self.guesses, self.number: guess} if guess else self.guesses
        return replace(self, seen=max(self.seen, self.number + 1), guesses=guesses)

    def moved(self, steps: int) -> Place:
        """Some steps on or back; the same place at either end."""
        return replace(self, number=min(max(self.number + steps, 0), self.steps - 1))
