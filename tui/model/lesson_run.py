"""Lessons: read from a file, computed on their scenario, and worked through step by step."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from engine.common.errors import InputError, Problem
from engine.lessons.all_figures import all_figures
from engine.lessons.answers import AnsweredLesson, AnsweredStep, LessonAnswer, answer_lesson, try_lesson
from engine.lessons.figures import FigureLookup
from engine.lessons.file import Lesson, is_lesson, read_lesson
from engine.lessons.guess import points
from engine.lessons.picture import StepPicture, picture_of
from engine.scenario.changes import Changes
from engine.units import System
from tui.model.inputs import Inputs
from tui.storage import paths

MAX_TEAMS = 6


@dataclass(frozen=True)
class ComputedLesson:
    """A lesson with its computed answers, the inputs of its scenario, and the picture of each step that has one."""

    answered_lesson: AnsweredLesson
    inputs: Inputs
    pictures: tuple[StepPicture | None, ...] = ()

    @property
    def answers(self) -> list[tuple[str, str]]:
        """Title and answer of every step."""
        return [
            (
                f"step {number}, {step.step.title}",
                step.answer.text(self.inputs.system) if step.answer else "no question",
            )
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
    lesson = _lesson_at(path)
    inputs = _scenario_of(lesson, path)
    answered = answer_lesson(lesson, figures_on(inputs))
    changed = [replace(inputs, changes=stop.changes).scenario() for stop in answered.stops]
    pictures = [picture_of(step, scenario) for step, scenario in zip(lesson.steps, changed, strict=True)]
    return ComputedLesson(answered, inputs, tuple(pictures))


def try_on(path: Path, scenario: str) -> tuple[AnsweredLesson, list[Problem], System]:
    """A lesson on another scenario as far as it goes, what does not hold there, and the units of its standard.

    Raises:
        InputError: the lesson or the scenario cannot be read.
    """
    lesson, inputs = _lesson_at(path), Inputs.of_file(paths.named(scenario))
    if is_lesson(inputs.tables()):
        raise InputError([Problem("--on", f"'{scenario}' given, which is a lesson, not a scenario")])
    inputs.scenario()
    return *try_lesson(lesson, figures_on(inputs)), inputs.system


def _lesson_at(path: Path) -> Lesson:
    tables = paths.parse(paths.read_text(path), path.name)
    if not is_lesson(tables):
        sentence = (
            "no lesson: it has no steps and no scenario; use `loadpath compare` or `loadpath open` for a scenario"
        )
        raise InputError([Problem(path.name, sentence)])
    return read_lesson(tables)


def figures_on(inputs: Inputs) -> Callable[[Changes], FigureLookup]:
    """Finds figures of inputs with changes laid over them."""

    def figures_at(changes: Changes) -> FigureLookup:
        return all_figures(replace(inputs, changes=changes).scenario())

    return figures_at


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
        number: the step shown, from 0; the number of steps at the end.
        seen: how many steps were answered.
        guesses: a guess by number of the step and of the team.
        teams: number of teams that guess.
        team: the team whose guess is asked for, from 0.
    """

    computed: ComputedLesson
    number: int = 0
    seen: int = 0
    guesses: Mapping[tuple[int, int], LessonAnswer] = field(default_factory=dict)
    teams: int = 1
    team: int = 0

    @property
    def stops(self) -> tuple[AnsweredStep, ...]:
        """All steps."""
        return self.computed.answered_lesson.stops

    @property
    def current(self) -> AnsweredStep:
        """The step shown; at the end the last one."""
        return self.stops[min(self.number, self.steps - 1)]

    @property
    def steps(self) -> int:
        """Number of steps."""
        return len(self.stops)

    @property
    def is_end(self) -> bool:
        """True after the last step, where it is said what to remember."""
        return self.number == self.steps

    @property
    def picture(self) -> StepPicture | None:
        """The picture that belongs to the answer shown."""
        return self.computed.pictures[self.number] if self.is_answered and not self.is_end else None

    @property
    def inputs(self) -> Inputs:
        """The lesson's inputs with the changes of this step."""
        return replace(self.computed.inputs, changes=self.current.changes)

    @property
    def is_answered(self) -> bool:
        """True if the answer is shown; a step without a question and without a text to reveal needs none."""
        return self.number < self.seen or self.is_end or not (self.current.answer or self.current.step.reveal)

    @property
    def is_all_answered(self) -> bool:
        """True once no question is open."""
        return not any(stop.answer for stop in self.stops[self.seen :])

    @property
    def covers_figures(self) -> bool:
        """True while a question is open that the figures of this step would answer.

        Screens compare all spacings, so steps that differ in nothing but a spacing have the same figures.
        """
        here = _without_spacing(self.current.changes)
        return any(stop.answer and _without_spacing(stop.changes) == here for stop in self.stops[self.seen :])

    @property
    def asks_about_places(self) -> bool:
        """True while a question is open about a step that places the array itself."""
        return any(stop.answer and ("array", "origin") in stop.changes for stop in self.stops[self.seen :])

    def guess_of(self, team: int) -> LessonAnswer | None:
        """A team's guess at this step."""
        return self.guesses.get((self.number, team))

    def with_guess(self, guess: LessonAnswer | None) -> LessonProgress:
        """With the guess of the team that is asked, if it has one."""
        return replace(self, guesses={**self.guesses, (self.number, self.team): guess}) if guess else self

    def with_answer(self) -> LessonProgress:
        """The same step with its answer shown beside the guesses."""
        return replace(self, seen=max(self.seen, self.number + 1), team=0)

    def asking_team(self, step: int) -> LessonProgress:
        """Another team is asked; after the last one there is one more, up to `MAX_TEAMS`."""
        team = min(max(self.team + step, 0), MAX_TEAMS - 1)
        return replace(self, team=team, teams=max(self.teams, team + 1))

    def moved(self, steps: int) -> LessonProgress:
        """Some steps on or back, from the first to the end."""
        return replace(self, number=min(max(self.number + steps, 0), self.steps), team=0)

    def points(self, team: int) -> int:
        """All points of a team so far."""
        answers = (stop.answer for stop in self.stops)
        given = ((self.guesses.get((number, team)), answer) for number, answer in enumerate(answers))
        return sum(points(guess, answer) for guess, answer in given if guess and answer)


def _without_spacing(changes: Changes) -> Changes:
    return {path: value for path, value in changes.items() if path[-1] != "spacing"}
