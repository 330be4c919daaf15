"""loadpath lessons: those that come with it."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.exit import Exit

WORDS = "list the lessons that come with loadpath"


def takes(verb: ArgumentParser) -> None:
    """Nothing."""


def run(options: Namespace) -> int:
    """List the bundled lessons by name and title, each with what it is about."""
    import textwrap

    from engine.lesson import read_lesson
    from tui import files

    for path in files.bundled_lessons():
        heading = read_lesson(files.parse(files.read_text(path), path.name)).heading
        print(f"{path.stem:<24}{heading.title} ({heading.minutes} minutes)")
        print(*textwrap.wrap(heading.about, 78, initial_indent="  ", subsequent_indent="  "), sep="\n")
    return Exit.DONE
