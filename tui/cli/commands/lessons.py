"""loadpath lessons: the bundled lessons."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli.exit_codes import Exit

HELP = "list the lessons that come with loadpath"


def add_arguments(parser: ArgumentParser) -> None:
    """None."""


def run(options: Namespace) -> int:
    """List the bundled lessons by name and title, each with a summary."""
    import textwrap

    from engine.lessons.file import read_lesson
    from tui.cli import output
    from tui.storage import paths

    for path in paths.bundled_lessons():
        heading = read_lesson(paths.parse(paths.read_text(path), path.name)).heading
        output.show_line(f"{path.stem:<24}{heading.title} ({heading.minutes} minutes)")
        for line in textwrap.wrap(heading.about, 78, initial_indent="  ", subsequent_indent="  "):
            output.show_line(line)
    return Exit.DONE
