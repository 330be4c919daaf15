"""loadpath open: the bench on a scenario."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.cli.exit_codes import Exit

WORDS = "open the bench on a scenario"


def takes(verb: ArgumentParser) -> None:
    """A scenario with changes, and how it is shown."""
    arguments.scenario(verb)
    arguments.changes(verb)
    arguments.units(verb)


def run(options: Namespace) -> int:
    """Open the bench; without a terminal say so."""
    from tui.cli import output

    if not output.is_there(instead="`loadpath compare` prints the comparison"):
        return Exit.WRONG_INPUT
    from tui.cli import read_options
    from tui.cli.formats import scenario_path, scenario_tables
    from tui.model.inputs import Inputs
    from tui.storage import paths
    from tui.storage.overrides import changes_of

    path = scenario_path(options.file)
    scenario_tables(path)  # what is no TOML, or a lesson, cannot be put right in the bench
    inputs = Inputs(path, paths.read_text(path), changes_of(options.changes))
    inputs.tables()  # nor can changes that lead nowhere
    only = read_options.methods(options)
    from tui.app.app import LoadpathApp  # the framework: only once there is something to show

    app = LoadpathApp(inputs, only, system=options.units)
    app.run()
    return app.return_code or Exit.DONE
