"""loadpath export: every file about a scenario, in one folder."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Sequence
from pathlib import Path

from engine.export.readers import READERS
from tui.cli import arguments
from tui.model.exit_codes import Exit

HELP = "write sheets, bills, plans, tables and a calculation into a folder, with a README of what each is for"


def add_arguments(parser: ArgumentParser) -> None:
    """A scenario with changes, and a folder."""
    arguments.add_scenario(parser)
    parser.add_argument("folder", metavar="DIR", type=arguments.path, help="the folder to write into; made if missing")
    parser.add_argument(
        "--for",
        dest="readers",
        action="append",
        default=[],
        choices=READERS,
        help="only the files that this reader needs (may be repeated; default: all files)",
    )
    arguments.add_changes(parser)
    arguments.add_units_and_date(parser)
    parser.add_argument("--feet-inches", action="store_true", help="dimensions of plans in feet and inches (US units)")
    arguments.add_overwrite(parser, "replace files that exist")


def run(options: Namespace) -> int:
    """Write every file and name it; before files are replaced, a person at a terminal is asked."""
    from dataclasses import replace

    from engine.comparison.building_comparison import compare_file
    from tui.cli import output, read_options
    from tui.storage import atomic_write
    from tui.storage.export_folder import existing_files, export_files, stale_files, write_export

    _check_folder(options)
    methods, scenarios = read_options.methods(options), read_options.scenarios(options)
    stamp = replace(read_options.stamp(options), feet_and_inches=options.feet_inches)
    atomic_write.make_folder(options.folder)  # before the work, which would be lost
    export = export_files(compare_file(scenarios, methods), stamp, options.readers)
    overwrite = _may_replace(options, existing_files(export, options.folder))
    written = write_export(export, options.folder, output.say, overwrite=overwrite)
    output.say(f"{written} files written to {options.folder}")
    if others := stale_files(export, options.folder):
        output.say(f"not part of this export, but in {options.folder}: {', '.join(others)}")
    return Exit.DONE


def _may_replace(options: Namespace, taken: Sequence[Path]) -> bool:
    """True if files that exist may be replaced: by an option, or because a person at a terminal agrees."""
    from tui.model.terminal import is_terminal

    if options.overwrite or not taken:
        return bool(options.overwrite)
    return is_terminal(sys.stdin, sys.stderr) and _agreed(taken[0], len(taken) - 1)


def _check_folder(options: Namespace) -> None:
    """Refuse a single name that is a scenario's: the folder is missing.

    Raises:
        InputError: it is.
    """
    from engine.common.errors import InputError, Problem
    from engine.units import quoted
    from tui.storage import paths

    name = str(options.folder)
    if options.file is None and paths.named(name).is_file():
        sentence = f"{quoted(name)} is a scenario, not a folder; write `loadpath export {name[:60]} DIR`"
        raise InputError([Problem("DIR", sentence)])


def _agreed(first: object, others: int) -> bool:
    """True if the person at the terminal agrees to replace the files."""
    from engine.common.safe_text import safe_text
    from tui.cli import output

    files = f"{first} and {others} more exist" if others else f"{first} exists"
    output.write_message(f"{safe_text(files)}. Replace? [y/N] ")
    return sys.stdin.readline().strip().lower() in ("y", "yes")
