"""One step of a lesson as text: what is said and asked, and what is answered."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from engine.units import System
from tui.model.lesson_run import Place


def said(place: Place, system: System) -> Content:
    """How far the class is, what the trainer says, and the question."""
    heading, step = place.taught.answered_lesson.lesson.heading, place.stop.step
    done = "■" * (place.number + 1) + "□" * (place.steps - place.number - 1)
    lines = [
        Content.styled(f"{heading.title}  {done}  step {place.number + 1} of {place.steps}", "$text-muted"),
        Content(""),
        Content.styled(step.title, "bold"),
        *_paragraphs(place.stop.words(system)),
    ]
    if step.question:
        lines += [Content(""), Content.styled(step.question.asks, "bold"), *_options(place, system)]
    return Content("\n").join(lines)


def answered(place: Place, system: System) -> Content:
    """The guess beside the answer, and what is said about it."""
    lines: list[Content] = []
    if place.stop.answer:
        guess = place.guesses.get(place.number)
        lines.append(
            Content("guess ")
            + Content.styled(guess.text(system) if guess else "none", "bold")
            + Content("     answer ")
            + Content.styled(place.stop.answer.text(system), "bold $text-success")
        )
    lines += _paragraphs(place.stop.reveal(system))
    lines += [Content(""), Content.styled(f"enter: look at it in the bench ({place.stop.step.screen})", "$text-muted")]
    return Content("\n").join(lines)


def _paragraphs(text: str) -> Iterator[Content]:
    for paragraph in filter(None, text.split("\n")):
        yield from (Content(""), Content(paragraph))


def _options(place: Place, system: System) -> Iterator[Content]:
    """The options by number; once answered each with the figure it stands for."""
    question, answer = place.stop.step.question, place.stop.answer
    for number, words in enumerate((question.options if question else None) or (), 1):
        figure = answer.compared.get(words) if answer and place.answered else None
        yield Content(f"  {number}  {words}{f':  {figure.text(system)}' if figure else ''}")


def asked_for(place: Place, system: System) -> str:
    """What to type, in the border of the field."""
    question, answer = place.stop.step.question, place.stop.answer
    if question is None or answer is None:
        return ""
    if question.options:
        return "the class's guess: the number of an answer"
    unit = answer.figure.unit(system)
    return f"the class's guess{f', in {unit}' if unit else ''}"
