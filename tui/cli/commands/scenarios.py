"""loadpath scenarios: those that come with it."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli.exit_codes import Exit

WORDS = "list the scenarios that come with loadpath"


def takes(verb: ArgumentParser) -> None:
    """Nothing."""


def run(options: Namespace) -> int:
    """List the bundled scenarios by name and title."""
    from tui.storage import paths

    for path in paths.bundled():
        title = paths.parse(paths.read_text(path), path.name)["title"]
        print(f"{path.stem:<24}{title}")
    return Exit.DONE
