"""loadpath check: what is wrong with scenarios and lessons."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.cli.exit_codes import Exit

WORDS = "say everything that is wrong with scenarios and lessons"


def takes(verb: ArgumentParser) -> None:
    """Scenarios and lessons."""
    words = "a scenario or lesson file, or the name of a bundled one"
    verb.add_argument("files", nargs="+", metavar="FILE", type=arguments.path, help=words)


def run(options: Namespace) -> int:
    """Say what is wrong with each file; else how a scenario's strengths were obtained, or what a lesson's answers are."""
    from engine.common.errors import InputError
    from engine.lessons.file import is_lesson
    from engine.loads import STANDARDS
    from engine.mounting import METHODS
    from engine.scenario.read import read_scenario
    from tui.cli import output
    from tui.model.lesson_run import open_lesson
    from tui.storage import paths

    code = Exit.DONE
    for given in options.files:
        path = paths.named(str(given))
        try:
            tables = paths.parse(paths.read_text(path), path.name)
            if is_lesson(tables):
                found = open_lesson(path).answers
            else:
                found = [
                    (known.name, known.sentence) for known in read_scenario(tables, METHODS, STANDARDS).job.strengths
                ]
        except InputError as wrong:
            code = output.complain(wrong, str(given))
            continue
        print(f"{given}: fine")
        for name, sentence in found:
            print(f"  {name}: {sentence}")
    return code
