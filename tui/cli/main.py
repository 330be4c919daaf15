"""The command line. stdout is data, stderr is words; no traceback reaches anyone."""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Sequence

from engine import __version__
from tui.cli.commands import VERBS
from tui.cli.exit_codes import Exit


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
    from engine.common.errors import InputError  # heavy: --help and --version stay instant
    from tui.cli import output

    try:
        output.spare(_named(options), options)
        code: int = options.run(options)
    except InputError as wrong:
        return output.complain(wrong)
    return code


def _named(options: argparse.Namespace) -> list[str]:
    """The scenarios or the lesson that arguments name."""
    given = vars(options)
    return [name for name in (given.get("file"), given.get("lesson"), *given.get("files", ())) if name]


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="loadpath",
        description="How a solar array is held to a metal roof: rails, tilted rack and modules on seams side by side, link by link.",
        epilog="Preliminary: a licensed engineer and the local code decide. Without a command, opens the bench on an invented example.",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"loadpath {__version__}")
    parser.set_defaults(run=None)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    for verb in VERBS:
        sentence = f"{verb.WORDS[0].upper()}{verb.WORDS[1:]}."
        command = commands.add_parser(
            verb.__name__.rpartition(".")[2], help=verb.WORDS, description=sentence, allow_abbrev=False
        )
        command.set_defaults(run=verb.run)
        verb.takes(command)
    return parser


if __name__ == "__main__":
    sys.exit(main())
