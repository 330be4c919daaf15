"""loadpath ways: what would make a method hold that is over, and the scenario with one of these changes."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments, study_output
from tui.model.exit_codes import Exit

TYPE_CHECKING = False
if TYPE_CHECKING:  # by hand, and nothing heavy above the functions: --help stays instant
    from engine.common.progress import ProgressListener
    from engine.scenario.read import Scenario
    from engine.studies.ways_out import WaysOut

HELP = "show what would make a method hold that is over, or write the scenario with one of these changes"


def add_arguments(parser: ArgumentParser) -> None:
    """A scenario with changes, the form of the output, and a way to apply."""
    study_output.add_arguments(parser)
    parser.add_argument(
        "--apply",
        type=arguments.positive,
        metavar="N",
        help="write the scenario with way N to -o PATH; comments are kept",
    )


def run(options: Namespace) -> int:
    """Print the ways out of every method that is over, or apply one."""
    from engine.studies.record import ways_out_record
    from tui.render.ways_out import ways_out_parts

    if options.apply is not None:
        return _apply(options)
    return study_output.run_study(
        options,
        study=_search,
        record=lambda found: {"ways_out": ways_out_record(found)},
        parts=lambda found, _: ways_out_parts(found, options.units),
    )


def _search(scenario: Scenario, methods: tuple[str, ...], progress: ProgressListener) -> tuple[WaysOut, ...]:
    """The ways out of the methods named, or of all."""
    from engine.comparison.compare import compare
    from engine.studies.ways_out import ways_out

    return ways_out(compare(scenario, methods, progress), progress)


def _apply(options: Namespace) -> Exit:
    """Write the scenario with one way laid over it.

    Raises:
        InputError: there is no such way, or no file to write to.
    """
    from engine.common.errors import InputError, Problem
    from engine.scenario.changes import changes_of
    from tui.cli import output, read_options
    from tui.model.inputs import Inputs

    if options.output is None:
        raise InputError([Problem("--apply", "writes a scenario; name its file with -o PATH")])
    with output.progress_line() as progress:
        found = _search(read_options.scenario(options), read_options.methods(options), progress)
    ways = [way for each in found for way in each.ways]
    if options.apply > len(ways):
        allowed = f"1 to {len(ways)}" if ways else "none: there is no way out"
        raise InputError([Problem("--apply", f"{options.apply} given; allowed is {allowed}")])
    inputs = Inputs.of_file(read_options.scenario_path(options.file)).with_changes(changes_of(options.changes))
    applied = inputs.with_changes(ways[options.apply - 1].proposal.changes)
    return output.write_file(options.output, applied.as_text(options.output).encode(), overwrite=options.overwrite)
