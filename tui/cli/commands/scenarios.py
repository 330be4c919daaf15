"""loadpath scenarios: the bundled scenarios."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli.exit_codes import Exit

HELP = "list the scenarios that come with loadpath"


def add_arguments(parser: ArgumentParser) -> None:
    """None."""


def run(options: Namespace) -> int:
    """List the bundled scenarios by name and title."""
    from tui.cli import output
    from tui.storage import paths

    for path in paths.bundled():
        title = paths.parse(paths.read_text(path), path.name)["title"]
        output.show_line(f"{path.stem:<24}{title}")
    return Exit.DONE
