"""loadpath handout: a lesson on paper."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.verbs import arguments

WORDS = "print a lesson as a page: questions with room for guesses, then answers"


def takes(verb: ArgumentParser) -> None:
    """A lesson, and where its page goes."""
    arguments.lesson(verb)
    verb.set_defaults(format="html")
    arguments.dated(verb)
    arguments.target(verb)


def run(options: Namespace) -> int:
    """Print a lesson as a page for a class."""
    from engine.comparison import compare
    from engine.export.handout import handout
    from tui.lessons import open_lesson, path_of
    from tui.verbs import asked, terminal

    stamp, taught = asked.stamp(options), open_lesson(path_of(options.lesson))
    terminal.spare([taught.session.path], options)
    return terminal.deliver(handout(taught.walk, compare(taught.session.scenario()), stamp), options)
