"""One step of a lesson as text: words and question, then the answer."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from engine.units import System
from tui.model.lesson_run import LessonProgress


def step_text(progress: LessonProgress, system: System) -> Content:
    """Progress of the class, the words of the step, and the question."""
    heading, step = progress.computed.answered_lesson.lesson.heading, progress.current.step
    done = "■" * (progress.number + 1) + "□" * (progress.steps - progress.number - 1)
    lines = [
        Content.styled(f"{heading.title}  {done}  step {progress.number + 1} of {progress.steps}", "$text-muted"),
        Content(""),
        Content.styled(step.title, "bold"),
        *_paragraphs(progress.current.words(system)),
    ]
    if step.question:
        lines += [Content(""), Content.styled(step.question.asks, "bold"), *_options(progress, system)]
    return Content("\n").join(lines)


def answer_text(progress: LessonProgress, system: System) -> Content:
    """The guess beside the answer, and the explanation."""
    lines: list[Content] = []
    if progress.current.answer:
        guess = progress.guesses.get(progress.number)
        lines.append(
            Content("guess ")
            + Content.styled(guess.text(system) if guess else "none", "bold")
            + Content("     answer ")
            + Content.styled(progress.current.answer.text(system), "bold $text-success")
        )
    lines += _paragraphs(progress.current.reveal(system))
    lines += [
        Content(""),
        Content.styled(f"Enter: open the screen with the figures ({progress.current.step.screen})", "$text-muted"),
    ]
    return Content("\n").join(lines)


def _paragraphs(text: str) -> Iterator[Content]:
    for paragraph in filter(None, text.split("\n")):
        yield from (Content(""), Content(paragraph))


def _options(progress: LessonProgress, system: System) -> Iterator[Content]:
    """The options by number; once answered, each with its figure."""
    question, answer = progress.current.step.question, progress.current.answer
    for number, words in enumerate((question.options if question else None) or (), 1):
        figure = answer.compared.get(words) if answer and progress.is_answered else None
        yield Content(f"  {number}  {words}{f':  {figure.text(system)}' if figure else ''}")


def answer_label(progress: LessonProgress, system: System) -> str:
    """Title of the field: what to type, and in which unit."""
    question, answer = progress.current.step.question, progress.current.answer
    if question is None or answer is None:
        return ""
    if question.options:
        return "the class's guess: the number of an answer"
    unit = answer.figure.unit(system)
    return f"the class's guess{f', in {unit}' if unit else ''}"
