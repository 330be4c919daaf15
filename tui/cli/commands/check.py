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
    on = "a scenario on which the lessons are tried: every answer and wording, and what does not hold there"
    parser.add_argument("--on", metavar="SCENARIO", help=on)


def run(options: Namespace) -> int:
    """Report the errors of each file; for a file without any, the source of its strengths or its lesson's answers."""
    from engine.common.errors import InputError
    from tui.cli import output

    code = Exit.DONE
    for given in options.files:
        try:
            if options.on is not None:
                code = max(code, _tried(str(given), options.on))
                continue
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


def _tried(lesson: str, scenario: str) -> Exit:
    """Show a lesson on another scenario.

    Raises:
        InputError: the lesson or the scenario cannot be read.
    """
    from tui.cli import output
    from tui.model.lesson_run import path_of, try_on

    answered, problems, system = try_on(path_of(lesson), scenario)
    output.show_line(f"{lesson} on {scenario}: {'does not hold in every step' if problems else 'holds'}")
    for number, stop in enumerate(answered.stops, 1):
        here = [problem for problem in problems if problem.path.startswith(f"steps.{number}.")]
        for problem in here:
            output.show_line(f"  {problem}")
        if here:
            continue
        answer = stop.answer.text(system) if stop.answer else "no question"
        output.show_line(f"  step {number}, {stop.step.title}: {answer}")
        asked = stop.step.question.asks if stop.step.question else ""
        for name, words in (("words", stop.words(system)), ("asked", asked), ("said", stop.reveal(system))):
            if words:
                output.show_line(f"    {name}: {' '.join(words.split())}")
    for problem in problems:
        if not problem.path.startswith("steps."):
            output.show_line(f"  {problem}")
    return Exit.WRONG_INPUT if problems else Exit.DONE
