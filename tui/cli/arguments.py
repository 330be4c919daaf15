"""Arguments and options that several commands take."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError

SCENARIO = "a scenario file, or the name of a bundled one (default: the invented example)"


def path(written: str) -> object:
    """The `Path` of a file or folder; an empty name, which would be the current folder, is refused."""
    from engine.common.errors import InputError  # loaded only where a path is given, so that --help stays instant
    from tui.storage import paths

    if not written.strip():
        raise ArgumentTypeError("an empty name given; give the name of a file or folder")
    try:
        return paths.possible(written)
    except InputError as wrong:
        raise ArgumentTypeError(str(wrong.problems[0])) from None


def positive(written: str) -> int:
    """A whole number from 1 on."""
    if not written.isascii() or not written.isdigit() or len(written) > 6 or int(written) < 1:
        raise ArgumentTypeError(f"'{written[:40]}' given; give a whole number from 1 on")
    return int(written)


def add_scenario(parser: ArgumentParser) -> None:
    """One scenario; the invented example by default."""
    parser.add_argument("file", nargs="?", metavar="FILE", help=SCENARIO)


def add_scenarios(parser: ArgumentParser) -> None:
    """Any number of scenarios, also by folder or in a list; the invented example by default."""
    words = f"{SCENARIO}; of a folder, every *.toml file directly in it, by name"
    parser.add_argument("files", nargs="*", metavar="FILE", help=words)
    parser.add_argument(
        "--files-from",
        dest="lists",
        action="append",
        default=[],
        metavar="PATH",
        type=path,
        help="also the files and folders in this list, one a line; - is standard input (may be repeated)",
    )


def add_lesson(parser: ArgumentParser) -> None:
    """One lesson."""
    parser.add_argument("lesson", metavar="LESSON", help="a lesson file, or the name of a bundled one")


def add_changes(parser: ArgumentParser) -> None:
    """Inputs changed for this run, and the methods compared."""
    parser.add_argument(
        "--set",
        dest="changes",
        action="append",
        default=[],
        metavar="PATH=VALUE",
        help="change an input for this run, such as 'site.wind_speed=\"120 mph\"' (may be repeated)",
    )
    parser.add_argument("--slope", metavar="NAME", default="", help="only this slope of a file with several")
    parser.add_argument(
        "--method",
        dest="methods",
        action="append",
        default=[],
        metavar="ID",
        help="only this method: rail, tilted_rack or direct (may be repeated)",
    )


def add_format(parser: ArgumentParser, *formats: str) -> None:
    """The format, units and date of the output."""
    parser.add_argument("--format", choices=formats, default="text", help="format of the output (default: text)")
    add_units_and_date(parser)


def add_units_and_date(parser: ArgumentParser) -> None:
    """The units and the date of the output."""
    add_units(parser, "units shown (display only; JSON is always SI; default: those of the load standard)")
    parser.add_argument("--date", metavar="YYYY-MM-DD", help="date on the output (default: today)")


def add_units(parser: ArgumentParser, help_: str = "units shown (default: as last time)") -> None:
    """The units shown."""
    parser.add_argument("--units", choices=("us", "si"), help=help_)


def add_output(parser: ArgumentParser) -> None:
    """A file to write to; the terminal by default."""
    parser.add_argument("-o", dest="output", metavar="PATH", type=path, help="write to a file, not to the terminal")
    add_overwrite(parser)


def add_overwrite(parser: ArgumentParser, help_: str = "replace the file if it exists") -> None:
    """Permission to replace files."""
    parser.add_argument("--overwrite", action="store_true", help=help_)
