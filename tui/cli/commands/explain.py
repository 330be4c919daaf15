"""loadpath explain: how a figure came about, step by step."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.cli.exit_codes import Exit

WORDS = "show how a figure came about, from wind speed to utilisation"


def takes(verb: ArgumentParser) -> None:
    """A scenario with changes, and an attachment."""
    arguments.scenario(verb)
    arguments.changes(verb)
    verb.add_argument("--point", default="worst", help="number of an attachment, or 'worst' (default)")


def run(options: Namespace) -> int:
    """Show how one point of each method came about."""
    from engine.comparison.compare import compare
    from engine.explain.print import explained
    from tui.cli import read_options

    comparison = compare(read_options.scenario(options), read_options.methods(options))
    print(explained(comparison, _point(options.point)), end="")
    return Exit.DONE


def _point(written: str) -> int | None:
    """The attachment's number from 0; None for the worst."""
    from engine.common.errors import InputError, Problem
    from engine.units import quoted

    if written == "worst":
        return None
    if written.isascii() and written.isdigit() and int(written) > 0:
        return int(written) - 1
    raise InputError(
        [Problem("--point", f"{quoted(written)} given; allowed is 'worst' or the number of an attachment, from 1")]
    )
