"""loadpath lessons: the bundled lessons."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.model.exit_codes import Exit

HELP = "list the lessons that come with loadpath"

READABLE = 80
"""Sentences are not set wider than this."""


def add_arguments(parser: ArgumentParser) -> None:
    """None."""


def run(options: Namespace) -> int:
    """List the bundled lessons by name and title, each with a summary."""
    from engine.lessons.file import read_lesson
    from tui.cli import output
    from tui.render.plain_text import indented, listed, plain_text
    from tui.storage import paths

    width = min(output.text_width(options), READABLE)
    for path in paths.bundled_lessons():
        heading = read_lesson(paths.parse(paths.read_text(path), path.name)).heading
        title = listed([(path.stem, f"{heading.title} ({heading.minutes} minutes)")])
        output.show(plain_text(title, indented(heading.about), width=width).encode())
    return Exit.DONE
