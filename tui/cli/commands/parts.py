"""loadpath parts: the entries of shelves, checked."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.model.exit_codes import Exit

HELP = "list and check shelves: your own modules, roofs and hardware, to which scenarios refer"


def add_arguments(parser: ArgumentParser) -> None:
    """Shelves."""
    words = "a shelf's file, or the name of a bundled one; without any, all in your folder of parts and the bundled"
    parser.add_argument("files", nargs="*", metavar="FILE", type=arguments.path, help=words)


def run(options: Namespace) -> int:
    """List the entries of each shelf, or report its errors."""
    from engine.common.errors import InputError
    from tui.cli import output
    from tui.storage import shelves

    code = Exit.DONE
    if not options.files:
        output.say(f"your folder of parts is {shelves.folder()}")
    for path in map(shelves.named, map(str, options.files)) if options.files else shelves.known():
        try:
            found = shelves.entries_at(path)
        except InputError as wrong:
            code = output.report_errors(wrong, str(path))
            continue
        output.show_line(f"{path}: fine")
        for entry in found:
            output.show_line(f"  {entry.path}: {entry.sentence}")
    return code
