"""loadpath scenarios: those that come with it."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.exit import Exit

WORDS = "list the scenarios that come with loadpath"


def takes(verb: ArgumentParser) -> None:
    """Nothing."""


def run(options: Namespace) -> int:
    """List the bundled scenarios by name and title."""
    from tui import files

    for path in files.bundled():
        title = files.parse(files.read_text(path), path.name)["title"]
        print(f"{path.stem:<24}{title}")
    return Exit.DONE
