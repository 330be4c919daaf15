"""loadpath open: the app with a scenario."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from tui.cli import arguments
from tui.model.exit_codes import Exit

if TYPE_CHECKING:
    from tui.app.app import LoadpathApp

HELP = "open the app with a scenario, or with the start page"


def add_arguments(parser: ArgumentParser) -> None:
    """A scenario with changes, and the units shown."""
    arguments.add_scenario(parser)
    arguments.add_changes(parser)
    arguments.add_units(parser)


def run(options: Namespace) -> int:
    """Open the app; without a terminal say so."""
    from tui.cli import output
    from tui.model.terminal import opening

    if not output.is_interactive(instead="`loadpath compare` prints the comparison"):
        return Exit.WRONG_INPUT
    with opening():
        app = _app(options)
    return app.run_in_terminal()


def _app(options: Namespace) -> LoadpathApp:
    """The app with the scenario that is asked for."""
    from engine.common.errors import InputError, Problem
    from engine.scenario.changes import changes_of
    from engine.scenario.slopes import slope_names
    from engine.units import quoted
    from tui.app.app import LoadpathApp
    from tui.cli import read_options
    from tui.model.inputs import Inputs
    from tui.storage import paths

    path = read_options.scenario_path(options.file)
    read_options.scenario_tables(path)  # a file that is no TOML, or a lesson, cannot be put right in the app
    inputs = Inputs(path, paths.read_text(path), changes_of(options.changes), options.slope)
    names = slope_names(inputs.tables())  # nor can changes that lead nowhere
    if options.slope and options.slope not in names:
        allowed = f"allowed is {' or '.join(map(quoted, names))}" if names else "the file has no [[slopes]]"
        raise InputError([Problem("--slope", f"{quoted(options.slope)} given; {allowed}")])
    starts = options.file is None and not options.changes
    return LoadpathApp(inputs, read_options.methods(options), system=options.units, starts=starts)
