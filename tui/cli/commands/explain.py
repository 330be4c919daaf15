"""loadpath explain: the calculation of an attachment and its fastening, step by step."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.model.exit_codes import Exit

HELP = "show the calculation of an attachment step by step, from wind speed to utilisation"


def add_arguments(parser: ArgumentParser) -> None:
    """A scenario with changes, and an attachment."""
    arguments.add_scenario(parser)
    arguments.add_changes(parser)
    parser.add_argument("--point", default="worst", help="number of an attachment, or 'worst' (default)")


def run(options: Namespace) -> int:
    """Print the calculation of one attachment of each method."""
    from engine.common.safe_text import safe_lines
    from engine.comparison.compare import compare
    from engine.explain.print import explained
    from tui.cli import output, read_options

    attachment, methods = _attachment(options.point), read_options.methods(options)
    comparison = compare(read_options.scenario(options), methods)
    output.show(safe_lines(explained(comparison, attachment)).encode(errors="replace"))
    return Exit.DONE


def _attachment(written: str) -> int | None:
    """The attachment's number from 0; None for the worst."""
    from engine.common.errors import InputError, Problem
    from engine.units import quoted

    if written == "worst":
        return None
    if written.isascii() and written.isdigit() and len(written) < 10 and int(written) > 0:
        return int(written) - 1
    sentence = f"{quoted(written)} given; allowed is 'worst' or the number of an attachment, from 1"
    raise InputError([Problem("--point", sentence)])
