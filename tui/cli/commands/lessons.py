"""loadpath lessons: those that come with it."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli.exit_codes import Exit

WORDS = "list the lessons that come with loadpath"


def takes(verb: ArgumentParser) -> None:
    """Nothing."""


def run(options: Namespace) -> int:
    """List the bundled lessons by name and title, each with what it is about."""
    import textwrap

    from engine.lessons.file import read_lesson
    from tui.storage import paths

    for path in paths.bundled_lessons():
        heading = read_lesson(paths.parse(paths.read_text(path), path.name)).heading
        print(f"{path.stem:<24}{heading.title} ({heading.minutes} minutes)")
        print(*textwrap.wrap(heading.about, 78, initial_indent="  ", subsequent_indent="  "), sep="\n")
    return Exit.DONE
