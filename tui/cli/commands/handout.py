"""loadpath handout: a lesson on paper."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments

WORDS = "print a lesson as a page: questions with room for guesses, then answers"


def takes(verb: ArgumentParser) -> None:
    """A lesson, and where its page goes."""
    arguments.lesson(verb)
    verb.set_defaults(format="html")
    arguments.dated(verb)
    arguments.target(verb)


def run(options: Namespace) -> int:
    """Print a lesson as a page for a class."""
    from engine.comparison.compare import compare
    from engine.export.html_handout import handout
    from tui.cli import output, read_options
    from tui.model.lesson_run import open_lesson, path_of

    stamp, computed = read_options.stamp(options), open_lesson(path_of(options.lesson))
    output.spare([computed.inputs.path], options)
    return output.deliver(handout(computed.answered_lesson, compare(computed.inputs.scenario()), stamp), options)
