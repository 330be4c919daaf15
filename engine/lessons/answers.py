"""A lesson with its computed figures: the words of every step filled in, every question answered."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from engine import units
from engine.common.errors import InputError, Problem
from engine.lessons.conditions import Wording, chosen, not_holding
from engine.lessons.figures import FigureLookup, FigureValue, fill_in, names_in
from engine.lessons.file import Lesson, LessonStep, Question
from engine.scenario.changes import Changes
from engine.units import System

BEFORE = "before."
"""Prefix of a figure's name that means its value in the step before."""

FIRST = "first."
"""Prefix that means its value in the lesson's first step."""

_OPERATORS = re.compile(r" ([/*]) ")


@dataclass(frozen=True)
class LessonAnswer:
    """An answer, or a guess: a number in SI, or the words of an option.

    `compared` holds the figure of every option where a question compares them.
    """

    figure: FigureValue
    option: str = ""
    compared: Mapping[str, FigureValue] = field(default_factory=dict)

    def text(self, system: System) -> str:
        """The answer as it is shown."""
        return self.option or self.figure.text(system)


@dataclass(frozen=True)
class AnsweredStep:
    """One step of a lesson with its figures.

    `changes` are the inputs that it sets, `now` finds its figures, `before` is the step before, and `answer` the answer
    to its question, if it has one.
    """

    step: LessonStep
    changes: Changes
    now: FigureLookup
    before: AnsweredStep | None = None
    answer: LessonAnswer | None = None

    def find(self, name: str) -> FigureValue:
        """A figure of this step, of the one before or of the first, or a ratio: "methods.rail.mass_kg / first...".

        Raises:
            ValueError: there is no such figure; the message says why.
        """
        first, *rest = _OPERATORS.split(name)
        found = self._figure(first)
        for operator, other in zip(rest[::2], rest[1::2], strict=True):
            found = _ratio(found, operator, self._figure(other))
        return found

    def _figure(self, name: str) -> FigureValue:
        if name.startswith(FIRST):
            return self.first.now(name.removeprefix(FIRST))
        if not name.startswith(BEFORE):
            return self.now(name)
        if self.before is None:
            raise ValueError("there is no step before the first")
        return self.before.now(name.removeprefix(BEFORE))

    @property
    def first(self) -> AnsweredStep:
        """The first step of the lesson."""
        return self.before.first if self.before else self

    def words(self, system: System) -> str:
        """The trainer's words, with a reminder of earlier answers first."""
        return "\n".join(filter(None, [self.said(self.step.recall, system), self.lead(system)]))

    def lead(self, system: System) -> str:
        """The trainer's words without that reminder, so that they give no earlier answer away."""
        return self.said(self.step.words, system)

    def reveal(self, system: System) -> str:
        """The words that follow the guess."""
        return self.said(self.step.reveal, system)

    def said(self, wordings: Sequence[Wording], system: System) -> str:
        """The wording that fits, with its figures; empty if none is written."""
        return fill_in(chosen(wordings, self.find), self.find, system)

    def guessed(self, typed: str, system: System) -> LessonAnswer:
        """The guess that someone typed: the number of an option, or a number with or without a unit of its own.

        Raises:
            ValueError: it is no guess; the message says what to type.
        """
        if self.answer is None or self.step.question is None:
            raise ValueError("this step has no question")
        if self.step.question.options:
            return _option(list(self.step.question.options), typed)
        return LessonAnswer(_number(self.answer.figure.dimension, typed, system))


@dataclass(frozen=True)
class AnsweredLesson:
    """A lesson with all its figures."""

    lesson: Lesson
    stops: tuple[AnsweredStep, ...]

    def remember(self, system: System) -> list[str]:
        """Sentences to remember, with figures of the last step."""
        return [self.stops[-1].said(wordings, system) for wordings in self.lesson.heading.remember]

    def ruler(self) -> dict[str, FigureValue]:
        """Words → figure of the last step, to be shown on one scale."""
        return {words: self.stops[-1].find(name) for words, name in (self.lesson.heading.ruler or {}).items()}


def answer_lesson(lesson: Lesson, figures_at: Callable[[Changes], FigureLookup]) -> AnsweredLesson:
    """Compute every step.

    Args:
        lesson: the lesson.
        figures_at: finds figures of the lesson's scenario with changes laid over it; raises InputError
            where that scenario cannot be read.

    Raises:
        InputError: figures that do not exist, inputs that are wrong, and what does not hold here, each with its step.
    """
    answered, problems = try_lesson(lesson, figures_at)
    if problems:
        raise InputError(problems)
    return answered


def try_lesson(lesson: Lesson, figures_at: Callable[[Changes], FigureLookup]) -> tuple[AnsweredLesson, list[Problem]]:
    """Every step as far as it can be computed, and what is wrong with it or does not hold here, each with its step."""
    problems: list[Problem] = []
    stops: list[AnsweredStep] = []
    for number, step in enumerate(lesson.steps, 1):
        stop, wrong = _stop(step, lesson.changes(step), figures_at, stops[-1] if stops else None)
        problems += [Problem(f"steps.{number}.{problem.path}", problem.message) for problem in wrong]
        stops.append(stop)
    heading = lesson.heading
    if stops[-1].now is _unreadable:
        return AnsweredLesson(lesson, tuple(stops)), problems
    problems += _missing(stops[-1], "ruler", (heading.ruler or {}).values())
    problems += [problem for wordings in heading.remember for problem in _unsaid(stops[-1], "remember", wordings)]
    return AnsweredLesson(lesson, tuple(stops)), problems


def _stop(
    step: LessonStep, changes: Changes, figures_at: Callable[[Changes], FigureLookup], before: AnsweredStep | None
) -> tuple[AnsweredStep, list[Problem]]:
    """A step with its figures, and its problems."""
    try:
        now = before.now if before and before.changes == changes else figures_at(changes)
    except InputError as wrong:
        return AnsweredStep(step, changes, _unreadable, before), [
            Problem("set", str(problem)) for problem in wrong.problems
        ]
    stop = AnsweredStep(step, changes, now, before)
    problems = list(_problems(stop))
    if step.question and not problems:
        try:
            return replace(stop, answer=_answer(step.question, stop.find)), []
        except ValueError as refusal:
            problems.append(Problem("question", str(refusal)))
    return stop, problems


def _unreadable(name: str) -> FigureValue:
    raise ValueError("the inputs of this step cannot be read")


def _ratio(left: FigureValue, operator: str, right: FigureValue) -> FigureValue:
    """One figure over another, or a ratio times a figure: how many times as large."""
    if not isinstance(left.value, int | float) or not isinstance(right.value, int | float) or not right.value:
        raise ValueError("a ratio needs two numbers, the second not 0")
    return FigureValue(left.value / right.value if operator == "/" else left.value * right.value, "ratio")


def _problems(stop: AnsweredStep) -> Iterator[Problem]:
    """Conditions that do not hold here, and figures that a step names and that do not exist."""
    step, question = stop.step, stop.step.question
    try:
        failing = not_holding(step.needs, stop.find)
    except ValueError as refusal:
        failing = str(refusal)
    if failing:
        yield Problem("needs", f"does not hold here: {failing}")
        return
    yield from _missing(stop, "question", question.figures if question else ())
    yield from _missing(stop, "method", [f"methods.{step.method}.title"] if step.method else ())
    for place, wordings in step.texts():
        yield from _unsaid(stop, place, wordings)


def _unsaid(stop: AnsweredStep, place: str, wordings: Sequence[Wording]) -> Iterator[Problem]:
    """Why a text cannot be said here: no wording fits, or a figure is missing."""
    try:
        said = chosen(wordings, stop.find)
    except ValueError as refusal:
        yield Problem(place, str(refusal))
        return
    yield from _missing(stop, place, names_in(said))


def _missing(stop: AnsweredStep, place: str, names: Iterable[str]) -> Iterator[Problem]:
    for name in names:
        try:
            figure = stop.find(name)
        except ValueError as refusal:
            yield Problem(place, str(refusal))
            continue
        if figure.value is None:
            yield Problem(place, f"'{name}' has no value on this scenario")


def _answer(question: Question, find: FigureLookup) -> LessonAnswer:
    """The answer to a question, from the figures.

    Raises:
        ValueError: the figures give none of the answers that the question allows.
    """
    if question.answer is None:
        return _picked(question, {words: find(name) for words, name in (question.options or {}).items()})
    figure = find(question.answer)
    if question.options is None:
        if isinstance(figure.value, str):
            raise ValueError(
                f"'{question.answer}' is a word ('{figure.value}'), not a number; give options to choose from"
            )
        return LessonAnswer(figure)
    right = next((words for words, meant in question.options.items() if meant == figure.value), None)
    if right is None:
        raise ValueError(
            f"'{question.answer}' is '{figure.value}' here, which is none of the options: "
            f"{', '.join(question.options.values())}"
        )
    return LessonAnswer(figure, right)


def _picked(question: Question, compared: Mapping[str, FigureValue]) -> LessonAnswer:
    """The option with the largest, or smallest, figure."""
    sizes = {words: figure.value for words, figure in compared.items() if isinstance(figure.value, int | float)}
    if len(sizes) < len(compared):
        raise ValueError("only numbers can be compared; an option stands for a word")
    best = (max if question.pick == "largest" else min)(sizes.values())
    right = [words for words, size in sizes.items() if size == best]
    if len(right) > 1:
        raise ValueError(f"{' and '.join(right)} come out equal, so there is no one answer")
    return LessonAnswer(compared[right[0]], right[0], compared)


def _option(options: list[str], typed: str) -> LessonAnswer:
    number = typed.strip()
    if not (number.isascii() and number.isdigit() and 1 <= int(number) <= len(options)):
        raise ValueError(f"type the number of an answer, 1 to {len(options)}")
    return LessonAnswer(FigureValue(None), options[int(number) - 1])


def _number(dimension: str, typed: str, system: System) -> FigureValue:
    """A bare number in the unit shown, or a quantity with a unit of its own."""
    bare = units.without_groups(typed.strip())
    if system == "si" and re.search(r"\d,\d", bare):
        raise ValueError(
            "write decimals with a point and no comma"
        )  # in a class that uses SI it is no group of thousands
    if re.fullmatch(r"[\d,]*\.?\d+", bare, re.ASCII):
        return FigureValue(units.from_shown(float(bare.replace(",", "")), dimension, system), dimension)
    if dimension.removeprefix("small ") not in units.UNITS:
        raise ValueError("type a number")
    return FigureValue(units.parse(typed, dimension.removeprefix("small ")), dimension)
