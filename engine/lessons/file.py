"""A lesson's file: the steps of a lesson, with the inputs, words, question and screen of each.

It holds no answers: a question names the figure that answers it, and words name their figures in braces.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import model_validator
from pydantic_core import PydanticCustomError

from engine.common.errors import InputError, Problem
from engine.lessons.conditions import Condition, Conditions, Wording, Wordings
from engine.scenario.alternatives import ChangedInputs
from engine.scenario.changes import Changes
from engine.scenario.validation import top_level_problems, validated
from engine.schema import Choice, Count, FieldType, InputTable, TextLine, as_given, input_field

FORMAT = 1
MAX_STEPS = 50
SCREENS = ("compare", "inputs", "roof plan", "load path", "span study", "bill")
PICTURES = ("uplift", "down load")
SHORT = 300
"""Characters of a short text."""


@dataclass(frozen=True)
class Options(FieldType):
    """A table of two to nine answers to choose from: words → their meaning."""

    def read(self, written: object) -> Mapping[str, str]:
        """Words → their meaning."""
        if not isinstance(written, Mapping) or not 2 <= len(written) <= 9:
            raise ValueError(f"{as_given(written)} given; allowed is {self.allowed}")
        line = TextLine(80)
        return {line.read(words): line.read(meant) for words, meant in written.items()}

    @property
    def allowed(self) -> str:
        """The allowed values, in words."""
        return 'a table of two to nine answers, such as { "it holds" = "holds", "it does not" = "over" }'


@dataclass(frozen=True)
class Replies(FieldType):
    """A table of what is said to whom: an option → its text or wordings."""

    def read(self, written: object) -> Mapping[str, tuple[Wording, ...]]:
        """Option → its wordings."""
        if not isinstance(written, Mapping):
            raise ValueError(f"{as_given(written)} given; write {self.allowed}")
        return {words: Wordings(SHORT).read(said) for words, said in written.items()}

    @property
    def allowed(self) -> str:
        """The allowed values, in words."""
        return 'a table of options and texts, such as { "the rail" = "The rail holds." }'


@dataclass(frozen=True)
class Remembered(FieldType):
    """A list of one to five texts."""

    def read(self, written: object) -> tuple[tuple[Wording, ...], ...]:
        """The texts, each with its wordings."""
        if not isinstance(written, list | tuple) or len(written) > 5:
            raise ValueError(f"{as_given(written)} given; write {self.allowed}")
        return tuple(Wordings(SHORT).read(each) for each in written)

    @property
    def allowed(self) -> str:
        """The allowed values, in words."""
        return "a list of up to five short texts"


class Question(InputTable):
    """A number to guess, or one of a few answers; the figures decide which is right."""

    asks: Annotated[str, TextLine(300)] = input_field(description="the question")
    answer: Annotated[str, TextLine()] | None = input_field(
        None, description="the figure that answers it; not set where options are compared"
    )
    options: Annotated[Mapping[str, str], Options()] | None = input_field(
        None,
        description="answers to choose from: each means a word the figure may have or, with pick, a figure of its own",
    )
    pick: Annotated[str, Choice(("largest", "smallest"))] | None = input_field(
        None, description="which of the options' figures is right"
    )

    too_low: Annotated[tuple[Wording, ...], Wordings(SHORT)] = input_field(
        (), description="what is said to a guess that is far too low"
    )
    too_high: Annotated[tuple[Wording, ...], Wordings(SHORT)] = input_field(
        (), description="what is said to a guess that is far too high"
    )
    replies: Annotated[Mapping[str, tuple[Wording, ...]], Replies()] = input_field(
        {}, description="what is said to each option that was chosen"
    )

    @model_validator(mode="after")
    def one_way_to_answer(self) -> Question:
        """An answer alone is a number; with options it is a word; options with `pick` are compared."""
        if (self.answer is None) != (self.pick is not None and self.options is not None) or (self.answer and self.pick):
            raise PydanticCustomError(
                "loadpath", "give an answer, or an answer with options, or options with pick = 'largest' or 'smallest'"
            )
        unknown = [words for words in self.replies if words not in (self.options or {})]
        if unknown:
            raise PydanticCustomError(
                "loadpath", "a reply to '{words}', which is no option", {"words": unknown[0][:60]}
            )
        return self

    @property
    def figures(self) -> tuple[str, ...]:
        """The figures it is answered from."""
        return (self.answer,) if self.answer else tuple((self.options or {}).values())


class LessonStep(InputTable):
    """One step: its figures and screen appear after the guess."""

    title: Annotated[str, TextLine(80)] = input_field(description="what the step is about")
    needs: Annotated[tuple[Condition, ...], Conditions()] = input_field(
        (), description="what has to hold on a scenario, or the step has nothing to show there"
    )
    recall: Annotated[tuple[Wording, ...], Wordings()] = input_field(
        (),
        description="a reminder of earlier answers, said first; a handout leaves it out of its questions",
    )
    words: Annotated[tuple[Wording, ...], Wordings()] = input_field(
        description="what the trainer says; {methods.rail.modules} puts that figure in"
    )
    set: Annotated[Changes, ChangedInputs()] = input_field(
        {}, description="inputs that differ in this step from the lesson's"
    )
    screen: Annotated[str, Choice(SCREENS)] = input_field("compare", description="the screen to look at")
    method: Annotated[str, TextLine()] | None = input_field(
        None, description="the mounting method on screens about one method; not set: as it was"
    )
    picture: Annotated[str, Choice(PICTURES)] | None = input_field(
        None,
        description="the loads of the row of attachments with the largest one, drawn from the side with the answer",
    )
    reveal: Annotated[tuple[Wording, ...], Wordings()] = input_field(
        (), description="what is said once everyone has guessed; figures as in words"
    )
    question: Question | None = input_field(None, description="what the class guesses")

    def texts(self) -> Iterator[tuple[str, tuple[Wording, ...]]]:
        """Everything that is said at the step: its key, and its wordings."""
        yield from (("recall", self.recall), ("words", self.words), ("reveal", self.reveal))
        if self.question:
            yield from (("question.too_low", self.question.too_low), ("question.too_high", self.question.too_high))
            yield from ((f"question.replies.{option}", said) for option, said in self.question.replies.items())


class LessonHeading(InputTable):
    """The head of a lesson, above its steps."""

    title: Annotated[str, TextLine(80)] = input_field(description="what the lesson is called")
    about: Annotated[str, TextLine(300)] = input_field(description="what a class finds out, in one sentence")
    scenario: Annotated[str, TextLine()] = input_field(
        description="the name of a bundled scenario, or a file beside the lesson"
    )
    minutes: Annotated[int, Count(1, 240)] = input_field(10, description="about how long it takes")
    set: Annotated[Changes, ChangedInputs()] = input_field(
        {}, description="inputs that differ from the scenario in every step"
    )
    ruler: Annotated[Mapping[str, str], Options()] | None = input_field(
        None, description="figures of the last step that are shown on one scale at the end: words = figure"
    )
    remember: Annotated[tuple[tuple[Wording, ...], ...], Remembered()] = input_field(
        (), description="what to remember, with figures of the last step; three things are enough"
    )


@dataclass(frozen=True)
class Lesson:
    """A lesson as written."""

    heading: LessonHeading
    steps: tuple[LessonStep, ...]

    def changes(self, step: LessonStep) -> Changes:
        """The inputs that a step sets; steps do not build on one another."""
        return {**self.heading.set, **step.set}


def is_lesson(written: Mapping[str, Any]) -> bool:
    """True if a file's tables are those of a lesson, not of a scenario."""
    return "steps" in written or "scenario" in written


def read_lesson(written: Mapping[str, Any]) -> Lesson:
    """Read a lesson from the tables of its file.

    Raises:
        InputError: every problem with its path; steps are numbered from 1.
    """
    allowed = ("format", *LessonHeading.model_fields, "steps")
    problems = list(top_level_problems(written, allowed, FORMAT))
    above = {key: written[key] for key in LessonHeading.model_fields if key in written}
    heading = validated("", LessonHeading, above, problems)
    steps = tuple(_steps(written.get("steps"), problems))
    if problems or heading is None:
        raise InputError(problems)
    return Lesson(heading, steps)


def _steps(written: Any, problems: list[Problem]) -> Iterator[LessonStep]:
    if not isinstance(written, list) or not 1 <= len(written) <= MAX_STEPS:
        found = (
            "missing" if written is None else f"{len(written)} given" if isinstance(written, list) else "no list given"
        )
        problems.append(Problem("steps", f"{found}; write 1 to {MAX_STEPS} steps, each under [[steps]]"))
        return
    for number, table in enumerate(written, 1):
        step = validated(f"steps.{number}", LessonStep, table, problems)
        if step:
            yield step
