"""loadpath export: every file about a scenario, in one folder."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Sequence
from pathlib import Path, PurePath
from typing import TYPE_CHECKING

from engine.export.readers import DATA, ESTIMATOR, READERS
from tui.cli import arguments
from tui.model.exit_codes import Exit

if TYPE_CHECKING:
    from engine.comparison.building_comparison import BuildingComparison
    from engine.comparison.compare import Comparison
    from engine.export.stamp import Stamp

BUILDING_BILL = "bill.csv"
"""The bill of all slopes, in the folder that holds a folder for each slope."""

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
    """Write every file, of all slopes at once; before files are replaced a person at a terminal is asked."""
    from dataclasses import replace

    from engine.comparison.building_comparison import BuildingComparison
    from tui.cli import output, read_options
    from tui.storage.atomic_write import write_folder
    from tui.storage.export_folder import existing_files, made_files, refuse_existing, stale_files

    _check_folder(options)
    slopes, readers = _slopes(options), options.readers
    stamp = replace(read_options.stamp(options), feet_and_inches=options.feet_inches)
    contents, taken = dict[str, bytes](), list[Path]()
    if len(slopes) > 1 and (not readers or {ESTIMATOR, DATA} & set(readers)):
        contents[BUILDING_BILL] = _building_bill(BuildingComparison(tuple(slopes.values())), stamp)
        taken += [path for path in (options.folder / BUILDING_BILL,) if path.exists()]
    for name, comparison in slopes.items():
        taken += existing_files(comparison, stamp, options.folder / name, readers)
    if not (overwrite := _may_replace(options, taken)):
        refuse_existing(taken)
    for name, comparison in slopes.items():
        made = made_files(comparison, stamp, output.say, readers)
        contents |= {str(PurePath(name, file)): content for file, content in made.items()}
    write_folder(options.folder, contents, overwrite=overwrite)
    output.say(f"{len(contents)} files written to {options.folder}")
    for name, comparison in slopes.items():
        if others := stale_files(comparison, stamp, options.folder / name, readers):
            output.say(f"not part of this export, but in {options.folder / name}: {', '.join(others)}")
    return Exit.DONE


def _slopes(options: Namespace) -> dict[str, Comparison]:
    """Folder of each slope, or "" of the only one → its comparison; folders are made before the work."""
    from engine.comparison.compare import compare
    from tui.cli import read_options
    from tui.storage.atomic_write import make_folder

    methods, scenarios = read_options.methods(options), read_options.scenarios(options)
    folders = {scenario.slope if len(scenarios) > 1 else "": scenario for scenario in scenarios}
    for name in folders:
        make_folder(options.folder / name)
    return {name: compare(scenario, methods) for name, scenario in folders.items()}


def _building_bill(building: BuildingComparison, stamp: Stamp) -> bytes:
    """The bill of all slopes, beside their folders."""
    from engine.export.csv import building_bill_csv

    return building_bill_csv(building, stamp).encode()


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
