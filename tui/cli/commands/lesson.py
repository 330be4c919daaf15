"""loadpath lesson: the app with a lesson, or the lesson as text."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from tui.cli import arguments
from tui.model.exit_codes import Exit

if TYPE_CHECKING:
    from engine.units import System
    from tui.app.app import LoadpathApp
    from tui.model.lesson_run import LessonProgress

HELP = "open the app with a lesson, to work through with a class"

READABLE = 80
"""Sentences are not set wider than this."""


def add_arguments(parser: ArgumentParser) -> None:
    """A lesson, the units shown, and whether it is told as text."""
    arguments.add_lesson(parser)
    arguments.add_units(parser)
    parser.add_argument("--text", action="store_true", help="question by question as text, a guess a line of input")


def run(options: Namespace) -> int:
    """Open the app at the lesson's first step, or tell the lesson as text; without a terminal say so."""
    from tui.cli import output
    from tui.model.terminal import opening

    if options.text:
        _tell_lesson(options)
        return Exit.DONE
    if not output.is_interactive(instead=f"`loadpath check {options.lesson}` prints the lesson's answers"):
        return Exit.WRONG_INPUT
    with opening():
        app = _app(options)
    return app.run_in_terminal()


def _app(options: Namespace) -> LoadpathApp:
    """The app at the lesson's first step."""
    from tui.app.app import LoadpathApp
    from tui.model.lesson_run import LessonProgress, open_lesson, path_of

    progress = LessonProgress(open_lesson(path_of(options.lesson)))
    return LoadpathApp(progress.inputs, lesson=progress, system=options.units)


def _tell_lesson(options: Namespace) -> None:
    from tui.model.lesson_run import LessonProgress, open_lesson, path_of

    lesson = open_lesson(path_of(options.lesson))
    _tell(LessonProgress(lesson), options.units or lesson.inputs.system)


def _tell(progress: LessonProgress, system: System) -> None:
    """Show each step, take a guess, reply and answer; then the end."""
    from tui.render import lesson

    while not progress.is_end:
        _show(lesson.step_text(progress, system).plain)
        if progress.current.answer:
            _show(lesson.answer_label(progress, system))
            progress = _with_guess(progress, system).with_answer()
            if progress.current.answer and progress.current.answer.compared:
                _show("\n".join(each.plain for each in lesson.options(progress, system)))
        _show(lesson.answer_text(progress, system).plain)
        progress = progress.moved(1)
    _show(lesson.end_text(progress, system).plain)


def _with_guess(progress: LessonProgress, system: System) -> LessonProgress:
    """The progress with the guess of the next line; what is none is refused, and an empty line is no guess."""
    import sys

    from tui.cli import output

    for line in iter(sys.stdin.readline, ""):
        if not line.strip():
            break
        try:
            return progress.with_guess(progress.current.guessed(line.strip(), system))
        except ValueError as refusal:
            output.say(refusal)
    return progress


def _show(text: str) -> None:
    """Text with its lines wrapped, and an empty line."""
    import textwrap

    from tui.cli import output

    wrapped = (line for part in text.strip().split("\n") for line in textwrap.wrap(part, READABLE) or [""])
    output.show(("\n".join(wrapped) + "\n\n").encode())
