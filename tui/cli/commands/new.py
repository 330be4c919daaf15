"""loadpath new: a commented scenario, or lesson, to start from."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.model.exit_codes import Exit

HELP = "write a commented scenario, or lesson, to start from"


def add_arguments(parser: ArgumentParser) -> None:
    """The kind of template, and the file to write."""
    parser.add_argument("--lesson", action="store_true", help="a lesson instead of a scenario")
    parser.add_argument(
        "path", nargs="?", metavar="PATH", type=arguments.path, help="file to write (default: the terminal)"
    )
    arguments.add_overwrite(parser)


def run(options: Namespace) -> int:
    """Write a template that passes `check` unchanged."""
    from tui.cli import output

    text, then = _lesson() if options.lesson else _scenario()
    if options.path is None:
        print(text, end="")
        return Exit.DONE
    message = f"written; next: loadpath {then} {options.path}"
    return output.write_file(options.path, text.encode(), overwrite=options.overwrite, message=message)


def _scenario() -> tuple[str, str]:
    """The text, and the command to run next."""
    from engine.loads import STANDARDS
    from engine.mounting import METHODS
    from engine.scenario.read import fields_of
    from engine.scenario.template import template
    from tui.storage import paths

    example = paths.parse(paths.read_text(paths.bundled()[0]), paths.DEFAULT)
    tables = fields_of(METHODS, STANDARDS[example["site"]["standard"]])
    example.pop("accepted", None)  # nobody has shown anything of the user's roof
    return template(example | {"title": "My roof (invented figures: replace them)"}, tables), "compare"


def _lesson() -> tuple[str, str]:
    from engine.lessons.template import lesson_template
    from tui.storage import paths

    path = paths.named("how_often")
    example = paths.parse(paths.read_text(path), path.name)
    example.pop("ruler")  # it compares steps that the template does not have
    return lesson_template(example | {"title": "My lesson"}), "check"
