"""loadpath new: a commented scenario, or lesson, to start from."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.exit import Exit
from tui.verbs import arguments

WORDS = "write a commented scenario, or lesson, to start from"


def takes(verb: ArgumentParser) -> None:
    """Which of the two, and where to."""
    verb.add_argument("--lesson", action="store_true", help="a lesson instead of a scenario")
    verb.add_argument("path", nargs="?", metavar="PATH", type=arguments.path, help="where to write it (default: to the terminal)")
    arguments.overwrite(verb)


def run(options: Namespace) -> int:
    """Write a template that passes `check` as it stands."""
    from tui.verbs import terminal

    text, then = _lesson() if options.lesson else _scenario()
    if options.path is None:
        print(text, end="")
        return Exit.DONE
    words = f"written; see what it gives with: loadpath {then} {options.path}"
    return terminal.write(options.path, text.encode(), overwrite=options.overwrite, words=words)


def _scenario() -> tuple[str, str]:
    """The text, and what to do with it next."""
    from engine.methods import METHODS
    from engine.scenario import fields_of
    from engine.standards import STANDARDS
    from engine.template import template
    from tui import files

    example = files.parse(files.read_text(files.bundled()[0]), files.DEFAULT)
    tables = fields_of(METHODS, STANDARDS[example["site"]["standard"]])
    return template(example | {"title": "My roof (invented figures: replace them)"}, tables), "compare"


def _lesson() -> tuple[str, str]:
    from engine.template import lesson_template
    from tui import files

    path = files.bundled_lessons()[0]
    return lesson_template(files.parse(files.read_text(path), path.name) | {"title": "My lesson"}), "check"
