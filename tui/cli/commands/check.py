"""loadpath check: errors in scenarios and lessons."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.model.exit_codes import Exit

HELP = "report every error in scenarios and lessons, at once"


def add_arguments(parser: ArgumentParser) -> None:
    """Scenarios and lessons."""
    words = "a scenario or lesson file, or the name of a bundled one"
    parser.add_argument("files", nargs="+", metavar="FILE", type=arguments.path, help=words)


def run(options: Namespace) -> int:
    """Report the errors of each file; for a file without any, the source of its strengths or its lesson's answers."""
    from engine.common.errors import InputError
    from tui.cli import output

    code = Exit.DONE
    for given in options.files:
        try:
            found = _checked(str(given))
        except InputError as wrong:
            code = output.report_errors(wrong, str(given))
            continue
        output.show_line(f"{given}: fine")
        for name, sentence in found:
            output.show_line(f"  {name}: {sentence}")
    return code


def _checked(name: str) -> list[tuple[str, str]]:
    """Every answer of a lesson, or every strength of a scenario and how it was obtained.

    Raises:
        InputError: everything that is wrong with it.
    """
    from engine.lessons.file import is_lesson
    from engine.loads import STANDARDS
    from engine.mounting import METHODS
    from engine.scenario.read import read_scenario
    from tui.model.lesson_run import open_lesson
    from tui.storage import paths

    path = paths.named(name)
    tables = paths.parse(paths.read_text(path), path.name)
    if is_lesson(tables):
        return open_lesson(path).answers
    return [(known.name, known.sentence) for known in read_scenario(tables, METHODS, STANDARDS).job.strengths]
