"""The command line. stdout is data, stderr is words; no traceback reaches anyone."""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from engine import __version__
from tui.exit import Exit


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit code."""
    try:
        _write_any_letter()
        options = _parser().parse_args(arguments)
        if options.run is None:
            options = _parser().parse_args(["open" if sys.stdout.isatty() and sys.stdin.isatty() else "compare"])
        code = _run(options)
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return Exit.DONE
    except KeyboardInterrupt:
        return Exit.INTERRUPTED
    except OSError as failure:
        print(f"cannot write to the terminal or pipe ({failure.strerror or failure})", file=sys.stderr)
        return Exit.WRONG_INPUT
    except Exception as failure:  # nobody is shown a traceback; what failed is named so that it can be reported
        print(f"loadpath failed on something nobody foresaw ({type(failure).__name__}: {failure})", file=sys.stderr)
        return Exit.WRONG_INPUT
    return code


def _write_any_letter() -> None:
    """Letters that a terminal or pipe cannot show become question marks; a closed one is said to be so."""
    if sys.stdout is None:
        raise OSError("it is closed")
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def _run(options: argparse.Namespace) -> int:
    from tui import verbs  # noqa: PLC0415  (heavy: --help and --version stay instant)

    command = getattr(verbs, options.run)
    code: int = command(options)
    return code


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="loadpath",
        description="How a solar array is held to a metal roof: rails, tilted rack and modules on seams side by side, link by link.",
        epilog="Preliminary: a licensed engineer and the local code decide. Without a command, opens the bench on an invented example.",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"loadpath {__version__}")
    parser.set_defaults(run=None)
    verbs = parser.add_subparsers(title="commands", metavar="COMMAND")

    opening = _verb(verbs, "open", "open the bench on a scenario")
    _scenario(opening, "?")
    _changes(opening)

    comparing = _verb(verbs, "compare", "print the comparison of one or more scenarios")
    _scenario(comparing, "*")
    _changes(comparing)
    _form(comparing, ("text", "md", "csv", "json", "html", "xlsx"))
    comparing.add_argument("--strict", action="store_true", help="exit with 1 where a method shown does not hold")
    _target(comparing)
    comparing.add_argument(
        "--resume", action="store_true", help="add to PATH, line by line, the JSON of every file that it does not have yet"
    )

    checking = _verb(verbs, "check", "say everything that is wrong with scenarios and lessons")
    checking.add_argument("files", nargs="+", metavar="FILE", type=Path)

    new = _verb(verbs, "new", "write a commented scenario, or lesson, to start from")
    new.add_argument("--lesson", action="store_true", help="a lesson instead of a scenario")
    new.add_argument("path", nargs="?", metavar="PATH", type=Path, help="where to write it (default: to the terminal)")
    new.add_argument("--overwrite", action="store_true", help="replace the file where it exists")

    studying = _verb(verbs, "study", "show every link as attachments move apart, and where each gives out")
    _scenario(studying, "?")
    _changes(studying)
    _form(studying, ("text", "json"))
    _target(studying)

    for name, words in (
        ("headroom", "show how much more wind and snow each method could take, and the fastening it needs at the rail's own span"),
        ("sensitivity", "show which input moves the verdict: each main one a step down and up, ranked"),
    ):
        asking = _verb(verbs, name, words)
        _scenario(asking, "?")
        _changes(asking)
        _form(asking, ("text", "json"))
        _target(asking)

    explaining = _verb(verbs, "explain", "show how a figure came about, from wind speed to utilisation")
    _scenario(explaining, "?")
    _changes(explaining)
    explaining.add_argument("--point", default="worst", help="number of an attachment, or 'worst' (default)")

    exporting = _verb(verbs, "export", "write tables, plans, schedules and a calculation into a folder")
    _scenario(exporting, "?")
    exporting.add_argument("folder", metavar="DIR", type=Path, help="the folder to write into; made where it is not there")
    _changes(exporting)
    _dated(exporting)
    exporting.add_argument("--overwrite", action="store_true", help="replace files that exist")

    _verb(verbs, "scenarios", "list the scenarios that come with loadpath")
    teaching = _verb(verbs, "lesson", "open the bench with a lesson, to walk through with a class")
    teaching.add_argument("lesson", metavar="LESSON", help="a lesson file, or the name of a bundled one")

    handing = _verb(verbs, "handout", "print a lesson as a page: questions with room for guesses, then answers")
    handing.add_argument("lesson", metavar="LESSON", help="a lesson file, or the name of a bundled one")
    handing.set_defaults(format="html")
    _dated(handing)
    _target(handing)

    _verb(verbs, "lessons", "list the lessons that come with loadpath")
    return parser


def _verb(verbs: argparse._SubParsersAction[argparse.ArgumentParser], name: str, words: str) -> argparse.ArgumentParser:
    verb = verbs.add_parser(name, help=words, description=words[0].upper() + words[1:] + ".", allow_abbrev=False)
    verb.set_defaults(run=name)
    return verb


def _scenario(verb: argparse.ArgumentParser, number: str) -> None:
    verb.add_argument(
        "files", nargs=number, metavar="FILE", help="a scenario file, or the name of a bundled one (default: the invented example)"
    )


def _changes(verb: argparse.ArgumentParser) -> None:
    verb.add_argument("--set", dest="changes", action="append", default=[], metavar="PATH=VALUE", help="change an input for this run")
    verb.add_argument("--method", dest="methods", action="append", default=[], metavar="ID", help="only this method (may be repeated)")


def _form(verb: argparse.ArgumentParser, formats: tuple[str, ...]) -> None:
    verb.add_argument("--format", choices=formats, default="text", help="how to write it (default: text)")
    _dated(verb)


def _dated(verb: argparse.ArgumentParser) -> None:
    verb.add_argument("--units", choices=("us", "si"), default="us", help="units shown (display only; JSON is always SI)")
    verb.add_argument("--date", metavar="YYYY-MM-DD", help="the day that stands on what is written (default: today)")


def _target(verb: argparse.ArgumentParser) -> None:
    verb.add_argument("-o", dest="output", metavar="PATH", type=Path, help="write to a file instead of the terminal")
    verb.add_argument("--overwrite", action="store_true", help="replace the file where it exists")


if __name__ == "__main__":
    sys.exit(main())
