"""loadpath check: errors in scenarios, lessons and shelves."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.model.exit_codes import Exit

HELP = "report every error in scenarios, lessons and shelves, at once"


def add_arguments(parser: ArgumentParser) -> None:
    """Scenarios, lessons and shelves."""
    words = "a scenario, lesson or shelf file, or the name of a bundled one"
    parser.add_argument("files", nargs="+", metavar="FILE", type=arguments.path, help=words)
    on = "a scenario on which the lessons are tried: every answer and wording, and what does not hold there"
    parser.add_argument("--on", metavar="SCENARIO", help=on)


def run(options: Namespace) -> int:
    """Report the errors of each file; without any, where its strengths and values come from, or a lesson's answers."""
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
    """Every answer of a lesson, or entry of a shelf; of a scenario the strengths, and the origin of every value.

    Raises:
        InputError: everything that is wrong with it.
    """
    from engine.lessons.file import is_lesson
    from engine.scenario.listing import newer_spellings, origins_listed
    from engine.scenario.shelf import is_shelf
    from tui.cli import read_options
    from tui.model.lesson_run import open_lesson
    from tui.storage import paths, shelves

    path = paths.named(name)
    text = paths.read_text(path)
    tables = paths.parse(text, path.name)
    if is_lesson(tables):
        return open_lesson(path).answers
    if is_shelf(tables):
        return [(entry.path, entry.sentence) for entry in shelves.entries_at(path)]
    return [
        (f"{name}, slope {slope.slope}" if slope.slope else name, sentence)
        for slope in read_options.scenarios_of(text, path, (), "")
        for name, sentence in (
            *((known.name, known.sentence) for known in slope.job.strengths),
            *origins_listed(slope),
            *newer_spellings(slope),
        )
    ]


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
