"""Arguments that several verbs take."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError


def path(written: str) -> object:
    """A file or folder that is named, as a `Path`; no name would be the current folder."""
    from engine.common.errors import InputError  # loaded only where a path is given, so that --help stays instant
    from tui.storage import paths

    if not written.strip():
        raise ArgumentTypeError("an empty name given; give the name of a file or folder")
    try:
        return paths.possible(written)
    except InputError as wrong:
        raise ArgumentTypeError(str(wrong.problems[0])) from None


SCENARIO = "a scenario file, or the name of a bundled one (default: the invented example)"


def scenario(verb: ArgumentParser) -> None:
    """A scenario; the invented example where none is named."""
    verb.add_argument("file", nargs="?", metavar="FILE", help=SCENARIO)


def scenarios(verb: ArgumentParser) -> None:
    """Any number of scenarios; the invented example where none is named."""
    verb.add_argument("files", nargs="*", metavar="FILE", help=SCENARIO)


def lesson(verb: ArgumentParser) -> None:
    """A lesson."""
    verb.add_argument("lesson", metavar="LESSON", help="a lesson file, or the name of a bundled one")


def changes(verb: ArgumentParser) -> None:
    """What is laid over the scenario, and which methods are looked at."""
    verb.add_argument(
        "--set", dest="changes", action="append", default=[], metavar="PATH=VALUE", help="change an input for this run"
    )
    verb.add_argument(
        "--method", dest="methods", action="append", default=[], metavar="ID", help="only this method (may be repeated)"
    )


def form(verb: ArgumentParser, *formats: str) -> None:
    """How the answer is written; text where nothing is said."""
    verb.add_argument("--format", choices=formats, default="text", help="how to write it (default: text)")
    dated(verb)


def dated(verb: ArgumentParser) -> None:
    """What stands on an output."""
    units(verb, "us", "units shown (display only; JSON is always SI)")
    verb.add_argument("--date", metavar="YYYY-MM-DD", help="the day that stands on what is written (default: today)")


def units(
    verb: ArgumentParser, default: str | None = None, words: str = "units shown (default: as they were last)"
) -> None:
    """The units shown."""
    verb.add_argument("--units", choices=("us", "si"), default=default, help=words)


def target(verb: ArgumentParser) -> None:
    """Where the answer goes; to the terminal where nothing is said."""
    verb.add_argument("-o", dest="output", metavar="PATH", type=path, help="write to a file instead of the terminal")
    overwrite(verb)


def overwrite(verb: ArgumentParser, words: str = "replace the file where it exists") -> None:
    """Whether what exists may be replaced."""
    verb.add_argument("--overwrite", action="store_true", help=words)
