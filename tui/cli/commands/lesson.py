"""loadpath lesson: the bench with a lesson."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.cli.exit_codes import Exit

WORDS = "open the bench with a lesson, to walk through with a class"


def takes(verb: ArgumentParser) -> None:
    """A lesson, and how it is shown."""
    arguments.lesson(verb)
    arguments.units(verb)


def run(options: Namespace) -> int:
    """Open the bench at the lesson's first step; without a terminal say so."""
    from tui.cli import output

    if not output.is_there(instead=f"`loadpath check {options.lesson}` says the lesson's answers"):
        return Exit.WRONG_INPUT
    from tui.model.lesson_run import LessonProgress, open_lesson, path_of

    progress = LessonProgress(open_lesson(path_of(options.lesson)))
    from tui.app.app import LoadpathApp  # the framework: only once there is something to show

    app = LoadpathApp(progress.inputs, lesson=progress, system=options.units)
    app.run()
    return app.return_code or Exit.DONE
