"""loadpath open: the bench on a scenario."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.exit import Exit
from tui.verbs import arguments

WORDS = "open the bench on a scenario"


def takes(verb: ArgumentParser) -> None:
    """A scenario with changes, and how it is shown."""
    arguments.scenario(verb)
    arguments.changes(verb)
    arguments.units(verb)


def run(options: Namespace) -> int:
    """Open the bench; without a terminal say so."""
    from tui.verbs import terminal

    if not terminal.is_there(instead="`loadpath compare` prints the comparison"):
        return Exit.WRONG_INPUT
    from tui import files
    from tui.changes import changes_of
    from tui.compared import scenario_path, scenario_tables
    from tui.session import Session
    from tui.verbs import asked

    path = scenario_path(options.file)
    scenario_tables(path)  # what is no TOML, or a lesson, cannot be put right in the bench
    session = Session(path, files.read_text(path), changes_of(options.changes))
    session.tables()  # nor can changes that lead nowhere
    only = asked.methods(options)
    from tui.app import Bench  # the framework: only once there is something to show

    Bench(session, only, system=options.units).run()
    return Exit.DONE
