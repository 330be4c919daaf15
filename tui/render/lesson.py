"""One step of a lesson as text: words and question, then guesses, replies and answer; and the lesson's end."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from textual.content import Content

from engine.lessons.answers import LessonAnswer
from engine.lessons.figures import FigureValue
from engine.lessons.guess import MOST_POINTS, points, reply
from engine.lessons.picture import StepPicture
from engine.units import System, text
from tui.model.lesson_run import LessonProgress
from tui.render import elevation
from tui.render.styles import MUTED

RULER, NARROW = 28, 74
"""Cells of the longest bar of the ruler, and of a whole line of it on the smallest screen."""


def step_text(progress: LessonProgress, system: System) -> Content:
    """Progress of the class, the words of the step, and the question."""
    step = progress.current.step
    lines = [
        _place(progress, f"step {progress.number + 1} of {progress.steps}"),
        Content(""),
        Content.styled(step.title, "bold"),
        *_paragraphs(progress.current.words(system)),
    ]
    if step.question:
        lines += [Content(""), Content.styled(step.question.asks, "bold"), *options(progress, system)]
    return Content("\n").join(lines)


def _place(progress: LessonProgress, where: str) -> Content:
    done = "■" * min(progress.number + 1, progress.steps) + "□" * (progress.steps - progress.number - 1)
    return Content.styled(f"{progress.computed.answered_lesson.lesson.heading.title}  {done}  {where}", MUTED)


def answer_text(progress: LessonProgress, system: System) -> Content:
    """Reply to each guess, the answer, and the explanation."""
    lines: list[Content] = []
    if progress.current.answer:
        answer = Content.styled(progress.current.answer.text(system), "bold $text-success")
        lines += [*_replies(progress, system), Content("answer ") + answer]
    lines += _paragraphs(progress.current.reveal(system))
    return Content("\n").join(lines)


def large_figures(progress: LessonProgress, system: System) -> list[tuple[str, str]]:
    """Figures for the back of a room, each with its words: answer and guesses, or all options; at the end the ruler."""
    if progress.is_end:
        return [_large(figure, words, system) for words, figure in progress.computed.answered_lesson.ruler().items()]
    answer = progress.current.answer
    if answer is None or not progress.is_answered:
        return []
    if answer.option:
        return [_large(figure, words, system) for words, figure in answer.compared.items()]
    guesses = [(progress.guess_of(team), f"guess{_team(progress, team)}") for team in range(progress.teams)]
    given = [_large(guess.figure, words, system) for guess, words in guesses if guess]
    return [_large(answer.figure, "answer", system), *given]


def _large(figure: FigureValue, words: str, system: System) -> tuple[str, str]:
    unit = figure.unit(system)
    number = text(float(figure.value or 0), figure.dimension, system, with_unit=False)
    return number, f"{unit}, {words}" if unit else words


def next_text(progress: LessonProgress, *, is_covered: bool) -> Content:
    """Effect of the enter key once the answer is shown."""
    screen = f"open the screen with the figures ({progress.current.step.screen})"
    follows = "the next question; figures stay covered while they are asked for" if is_covered else screen
    return Content.styled(f"Enter: {follows}", MUTED)


def _replies(progress: LessonProgress, system: System) -> Iterator[Content]:
    """Each team's guess, what is said to it, and its points."""
    answer = progress.current.answer
    for team in range(progress.teams):
        guess = progress.guess_of(team)
        name = f"guess{_team(progress, team)} "
        if guess is None or answer is None:
            yield Content(f"{name}none")
            continue
        earned = Content.styled(f"{points(guess, answer)} of {MOST_POINTS} points", MUTED)
        yield Content(name) + Content.styled(guess.text(system), "bold") + Content("  ") + earned
        yield Content(f"  {reply(progress.current, guess, system)}")


def _team(progress: LessonProgress, team: int) -> str:
    return f" of team {team + 1}" if progress.teams > 1 else ""


def end_text(progress: LessonProgress, system: System) -> Content:
    """The end of a lesson: figures on one scale, what to remember, and what was guessed."""
    answered = progress.computed.answered_lesson
    lines = [_place(progress, "the end"), *ruler(answered.ruler(), system)]
    remember = answered.remember(system)
    if remember:
        lines += [Content(""), Content.styled("To remember", "bold")]
        lines += [Content(f"{number}. {words}") for number, words in enumerate(remember, 1)]
    lines += [Content(""), Content.styled("What was guessed", "bold"), *_guesses(progress, system)]
    return Content("\n").join(lines)


def picture(of: StepPicture, system: System, width: int, height: int) -> Content:
    """The row of attachments from the side; it does not show which parts hold."""
    return elevation.draw(
        of.job, of.study, of.row, system, uplift=of.uplift, width=width, height=height, loads_only=True
    )


def ruler(figures: Mapping[str, FigureValue], system: System) -> Iterator[Content]:
    """Figures as bars of one scale from 0."""
    sizes = {words: figure for words, figure in figures.items() if isinstance(figure.value, int | float)}
    most = max((float(figure.value or 0) for figure in sizes.values()), default=0.0)
    if most <= 0:
        return
    yield Content("")
    name, number = max(map(len, sizes)), max(len(figure.text(system)) for figure in sizes.values())
    longest = min(RULER, NARROW - name - number - len("  ├┤ "))
    for words, figure in sizes.items():
        bar = "━" * max(1, round(longest * float(figure.value or 0) / most))
        yield Content(f"{words.ljust(name)}  ├{bar}┤ ") + Content.styled(figure.text(system), "bold")


def _guesses(progress: LessonProgress, system: System) -> Iterator[Content]:
    """Each question with its answer and the guesses, then the points."""
    for number, stop in enumerate(progress.stops):
        if stop.answer:
            guesses = [progress.guesses.get((number, team)) for team in range(progress.teams)]
            said = ", ".join(guess.text(system) if guess else "none" for guess in guesses)
            yield Content(f"{stop.step.title}: {stop.answer.text(system)}  ") + Content.styled(f"guessed {said}", MUTED)
    most = MOST_POINTS * sum(stop.answer is not None for stop in progress.stops)
    for team in range(progress.teams):
        name = f"Team {team + 1}" if progress.teams > 1 else "Points"
        yield Content.styled(f"{name}: {progress.points(team)} of {most}", "bold")


def _paragraphs(text: str) -> Iterator[Content]:
    for paragraph in filter(None, text.split("\n")):
        yield from (Content(""), Content(paragraph))


def options(progress: LessonProgress, system: System) -> Iterator[Content]:
    """The options by number; once answered, each with its figure."""
    question, answer = progress.current.step.question, progress.current.answer
    for number, words in enumerate((question.options if question else None) or (), 1):
        figure = answer.compared.get(words) if answer and progress.is_answered else None
        yield Content(f"  {number}  {words}{f':  {figure.text(system)}' if figure else ''}")


def answer_label(progress: LessonProgress, system: System) -> str:
    """Title of the field: whose guess, what to type, and in which unit."""
    question, answer = progress.current.step.question, progress.current.answer
    if question is None or answer is None:
        return ""
    whose = f"guess of team {progress.team + 1}" if progress.teams > 1 else "the class's guess"
    if question.options:
        return f"{whose}: the number of an answer"
    unit = answer.figure.unit(system)
    return f"{whose}{f', in {unit}' if unit else ''}"


def typed(guess: LessonAnswer, progress: LessonProgress, system: System) -> str:
    """A guess as it can be typed again."""
    question = progress.current.step.question
    if guess.option and question and question.options:
        return str(list(question.options).index(guess.option) + 1)
    return text(float(guess.figure.value or 0), guess.figure.dimension, system, with_unit=False)
