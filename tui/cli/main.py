"""The command line. stdout is data, stderr is messages; nobody is shown a traceback."""

from __future__ import annotations

import argparse
import io
import os
import re
import sys
from collections.abc import Sequence
from typing import NoReturn

from engine import __version__
from tui.cli.commands import COMMANDS
from tui.model.ending_signals import ended_in_order
from tui.model.exit_codes import Exit

NAMES = tuple(command.__name__.rpartition(".")[2] for command in COMMANDS)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit code."""
    try:
        _prepare_streams()
        with ended_in_order():
            code = _run(_options(sys.argv[1:] if arguments is None else arguments))
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return Exit.DONE
    except KeyboardInterrupt:
        return Exit.INTERRUPTED
    except OSError as failure:
        if failure.filename is not None:  # a file, not the terminal: files of others are handled where they are read
            return _report_internal_error(failure)
        from tui.cli import output

        output.say(f"cannot write to the terminal or pipe ({failure.strerror or failure})")
        return Exit.WRONG_INPUT
    except Exception as failure:
        return _report_internal_error(failure)
    return code


def _prepare_streams() -> None:
    """Letters that a terminal or pipe cannot show become question marks; without stdout there is nothing to do."""
    if sys.stderr is None:
        sys.stderr = io.StringIO()
    if sys.stdout is None:
        raise OSError("it is closed")
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def _options(arguments: Sequence[str]) -> argparse.Namespace:
    """The options of a command; without one the app opens, or, without a terminal, the comparison is printed."""
    parser = _parser()
    if arguments and not arguments[0].startswith("-") and arguments[0] not in NAMES:
        parser.refuse(_unknown_command(arguments[0]))
    options, unknown = parser.parse_known_args(arguments)
    if unknown:
        options.parser.error(f"unknown: {' '.join(unknown)}")
    if options.run is None:
        from tui.model.terminal import is_terminal

        return parser.parse_args(["open" if is_terminal(sys.stdout, sys.stdin) else "compare"])
    return options


def _run(options: argparse.Namespace) -> int:
    from engine.common.errors import InputError  # heavy: --help and --version stay instant
    from tui.cli import output

    try:
        output.refuse_overwrite_of_inputs(_inputs(options), options)
        code: int = options.run(options)
    except InputError as wrong:
        return output.report_errors(wrong)
    return code


def _inputs(options: argparse.Namespace) -> list[str]:
    """The scenarios or the lesson that the arguments name."""
    given = vars(options)
    return [name for name in (given.get("file"), given.get("lesson"), *given.get("files", ())) if name]


def _report_internal_error(failure: Exception) -> Exit:
    from tui.cli import output
    from tui.model.internal_error import internal_error

    output.say(internal_error(failure))
    return Exit.INTERNAL_ERROR


class _Parser(argparse.ArgumentParser):
    """A parser whose errors are one line, safe to show whatever was typed."""

    def error(self, message: str) -> NoReturn:
        self.refuse(f"{message}; see `{self.prog} --help`")

    def refuse(self, message: str) -> NoReturn:
        """End with an error, in which no word is longer than a line."""
        from engine.common.safe_text import safe_text

        words = re.sub(r"(\S{60})\S{60,}", r"\1...", message)
        self.exit(Exit.WRONG_INPUT, f"{self.prog}: {safe_text(words)}\n")


def _parser() -> _Parser:
    parser = _Parser(
        prog="loadpath",
        description="One solar array on one metal roof, mounted on rails, on tilted racks and straight on the roof, "
        "compared side by side along the load path.",
        epilog="Preliminary: a licensed engineer and the local code decide. Without a command, the app opens on an "
        "invented example.",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"loadpath {__version__}")
    parser.set_defaults(run=None, parser=parser)
    subparsers = parser.add_subparsers(title="commands", metavar="COMMAND", parser_class=_Parser)
    for name, command in zip(NAMES, COMMANDS, strict=True):
        sentence = f"{command.HELP[0].upper()}{command.HELP[1:]}."
        subparser = subparsers.add_parser(name, help=command.HELP, description=sentence, allow_abbrev=False)
        subparser.set_defaults(run=command.run, parser=subparser)
        command.add_arguments(subparser)
    return parser


def _unknown_command(word: str) -> str:
    """A sentence with the nearest command, or the one that opens a file."""
    import difflib

    from engine.units import quoted
    from tui.storage import paths

    near = difflib.get_close_matches(word, NAMES, n=1)
    if near:
        return f"there is no command {quoted(word)}; did you mean `loadpath {near[0]}`?"
    if os.path.exists(word):
        return f"{quoted(word)} is a file, not a command; write `loadpath open {word[:60]}`"
    if word in [path.stem for path in paths.bundled()]:
        return f"{quoted(word)} is an example, not a command; write `loadpath open {word}`"
    return f"there is no command {quoted(word)}; `loadpath --help` lists them"


if __name__ == "__main__":
    sys.exit(main())
