"""loadpath lesson: the app with a lesson."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.model.exit_codes import Exit

HELP = "open the app with a lesson, to work through with a class"


def add_arguments(parser: ArgumentParser) -> None:
    """A lesson, and the units shown."""
    arguments.add_lesson(parser)
    arguments.add_units(parser)


def run(options: Namespace) -> int:
    """Open the app at the lesson's first step; without a terminal say so."""
    from tui.cli import output

    if not output.is_interactive(instead=f"`loadpath check {options.lesson}` prints the lesson's answers"):
        return Exit.WRONG_INPUT
    from tui.model.lesson_run import LessonProgress, open_lesson, path_of

    progress = LessonProgress(open_lesson(path_of(options.lesson)))
    from tui.app.app import LoadpathApp  # the framework: only once there is something to show

    app = LoadpathApp(progress.inputs, lesson=progress, system=options.units)
    app.run()
    return app.return_code or Exit.DONE
