"""loadpath export: everything about a scenario into a folder."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.cli.exit_codes import Exit

WORDS = "write tables, plans, schedules and a calculation into a folder"


def takes(verb: ArgumentParser) -> None:
    """A scenario with changes, and a folder."""
    arguments.scenario(verb)
    verb.add_argument(
        "folder", metavar="DIR", type=arguments.path, help="the folder to write into; made where it is not there"
    )
    arguments.changes(verb)
    arguments.dated(verb)
    arguments.overwrite(verb, "replace files that exist")


def run(options: Namespace) -> int:
    """Write every file, telling which; a name clash is asked about where someone can answer."""
    from engine.comparison.compare import compare
    from tui.cli import output, read_options
    from tui.storage.export_folder import existing_files, stale_files, write_export

    _folder_is_named(options)
    stamp, only = read_options.stamp(options), read_options.methods(options)
    comparison = compare(read_options.scenario(options), only)
    taken = existing_files(comparison, stamp, options.folder)
    overwrite = options.overwrite or (
        bool(taken) and sys.stdin.isatty() and sys.stderr.isatty() and _agreed(taken[0], len(taken) - 1)
    )
    written = write_export(comparison, stamp, options.folder, output.say, overwrite=overwrite)
    output.say(f"{written} files written to {options.folder}")
    if others := stale_files(comparison, stamp, options.folder):
        output.say(f"not of this export, though in {options.folder}: {', '.join(others)}")
    return Exit.DONE


def _folder_is_named(options: Namespace) -> None:
    """One name alone is the folder's; where it is a scenario's, the folder was left out."""
    from engine.common.errors import InputError, Problem
    from engine.units import quoted
    from tui.cli.formats import scenario_path

    name = str(options.folder)
    if options.file is None and scenario_path(name).is_file():
        words = f"{quoted(name)} given, which names a scenario and no folder; write `loadpath export {name[:60]} DIR`"
        raise InputError([Problem("DIR", words)])


def _agreed(first: object, others: int) -> bool:
    more = f" and {others} more" if others else ""
    print(f"{first}{more} exist; replace? [y/N] ", end="", file=sys.stderr, flush=True)
    return sys.stdin.readline().strip().lower() in ("y", "yes")
