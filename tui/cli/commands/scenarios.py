"""loadpath scenarios: the bundled scenarios."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.model.exit_codes import Exit

HELP = "list the scenarios that come with loadpath"


def add_arguments(parser: ArgumentParser) -> None:
    """None."""


def run(options: Namespace) -> int:
    """List the bundled scenarios by name and title."""
    from tui.cli import output
    from tui.render.plain_text import listed, plain_text
    from tui.storage import paths

    titles = [(path.stem, paths.parse(paths.read_text(path), path.name)["title"]) for path in paths.bundled()]
    output.show(plain_text(listed(titles), width=output.text_width(options)).encode())
    return Exit.DONE
