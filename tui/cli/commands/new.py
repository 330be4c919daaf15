"""loadpath new: a commented scenario, or lesson, to start from."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.model.exit_codes import Exit

HELP = "write a commented scenario, or lesson, to start from"


def add_arguments(parser: ArgumentParser) -> None:
    """The kind of template, and the file to write."""
    kind = parser.add_mutually_exclusive_group()
    kind.add_argument("--lesson", action="store_true", help="a lesson instead of a scenario")
    kind.add_argument("--standard", metavar="NAME", help="the load standard, such as 'EN 1991' (default: ASCE 7-16)")
    parser.add_argument(
        "path", nargs="?", metavar="PATH", type=arguments.path, help="file to write (default: the terminal)"
    )
    arguments.add_overwrite(parser)


def run(options: Namespace) -> int:
    """Write a template that passes `check` unchanged."""
    from tui.cli import output

    text, then = _lesson() if options.lesson else _scenario(options.standard)
    if options.path is None:
        print(text, end="")
        return Exit.DONE
    message = f"written; next: loadpath {then} {options.path}"
    return output.write_file(options.path, text.encode(), overwrite=options.overwrite, message=message)


def _scenario(standard: str | None) -> tuple[str, str]:
    """The text, by the first bundled scenario of a load standard, and the command to run next.

    Where no bundled scenario is by that standard, its site is left to be filled in: each key says what it is.

    Raises:
        InputError: there is no such standard.
    """
    from engine.common.errors import InputError, Problem
    from engine.loads import STANDARDS
    from engine.mounting import METHODS
    from engine.scenario.read import fields_of
    from engine.scenario.template import template
    from engine.schema.wording import Wording
    from engine.units import quoted
    from tui.storage import paths

    examples = [paths.parse(paths.read_text(path), path.name) for path in paths.bundled()]
    of_standard = [each for each in examples if standard in (None, each["site"]["standard"])]
    if standard is not None and standard not in STANDARDS:
        allowed = " or ".join(f"'{title}'" for title in STANDARDS)
        raise InputError([Problem("--standard", f"{quoted(standard)} given; allowed is {allowed}")])
    example = of_standard[0] if of_standard else examples[0] | {"site": {"standard": standard}}
    its_standard = STANDARDS[example["site"]["standard"]]
    tables, wording = fields_of(METHODS, its_standard), Wording(its_standard.system, its_standard.words)
    example.pop("accepted", None)  # nobody has shown anything of the user's roof
    return template(
        example | {"title": "My roof (invented figures: replace them)"}, tables, wording
    ), "compare" if of_standard else "check"


def _lesson() -> tuple[str, str]:
    from engine.lessons.template import lesson_template
    from tui.storage import paths

    path = paths.named("how_often")
    example = paths.parse(paths.read_text(path), path.name)
    example.pop("ruler")  # it compares steps that the template does not have
    return lesson_template(example | {"title": "My lesson"}), "check"
