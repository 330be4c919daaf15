"""loadpath new: a commented scenario, or lesson, to start from."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.cli.exit_codes import Exit

WORDS = "write a commented scenario, or lesson, to start from"


def takes(verb: ArgumentParser) -> None:
    """Which of the two, and where to."""
    verb.add_argument("--lesson", action="store_true", help="a lesson instead of a scenario")
    verb.add_argument(
        "path", nargs="?", metavar="PATH", type=arguments.path, help="where to write it (default: to the terminal)"
    )
    arguments.overwrite(verb)


def run(options: Namespace) -> int:
    """Write a template that passes `check` as it stands."""
    from tui.cli import output

    text, then = _lesson() if options.lesson else _scenario()
    if options.path is None:
        print(text, end="")
        return Exit.DONE
    words = f"written; see what it gives with: loadpath {then} {options.path}"
    return output.write(options.path, text.encode(), overwrite=options.overwrite, words=words)


def _scenario() -> tuple[str, str]:
    """The text, and what to do with it next."""
    from engine.loads import STANDARDS
    from engine.mounting import METHODS
    from engine.scenario.read import fields_of
    from engine.scenario.template import template
    from tui.storage import paths

    example = paths.parse(paths.read_text(paths.bundled()[0]), paths.DEFAULT)
    tables = fields_of(METHODS, STANDARDS[example["site"]["standard"]])
    return template(example | {"title": "My roof (invented figures: replace them)"}, tables), "compare"


def _lesson() -> tuple[str, str]:
    from engine.lessons.template import lesson_template
    from tui.storage import paths

    path = paths.bundled_lessons()[0]
    return lesson_template(paths.parse(paths.read_text(path), path.name) | {"title": "My lesson"}), "check"
