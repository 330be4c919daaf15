"""loadpath handout: a lesson on paper."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments

HELP = "write a lesson as a page to print: questions with room for guesses, then answers"


def add_arguments(parser: ArgumentParser) -> None:
    """A lesson, and the form of the output."""
    arguments.add_lesson(parser)
    parser.set_defaults(format="html")
    arguments.add_units_and_date(parser)
    arguments.add_output(parser)


def run(options: Namespace) -> int:
    """Write a lesson as a page for a class."""
    from engine.comparison.compare import compare
    from engine.export.html_handout import handout
    from tui.cli import output, read_options
    from tui.model.lesson_run import open_lesson, path_of

    lesson = open_lesson(path_of(options.lesson))
    scenario = lesson.inputs.scenario()
    read_options.choose_units(options, scenario)
    stamp = read_options.stamp(options)
    output.refuse_overwrite_of_inputs([lesson.inputs.path], options)
    page = handout(lesson.answered_lesson, compare(scenario), stamp, lesson.pictures)
    return output.deliver(page, options)
