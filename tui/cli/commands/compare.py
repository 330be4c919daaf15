"""loadpath compare: the comparison of one scenario, or of many."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.cli.exit_codes import Exit

WORDS = "print the comparison of one or more scenarios"


def takes(verb: ArgumentParser) -> None:
    """Scenarios with changes, how their comparison is written, and how a long run goes on."""
    arguments.scenarios(verb)
    arguments.changes(verb)
    arguments.form(verb, "text", "md", "csv", "json", "html", "xlsx")
    verb.add_argument("--strict", action="store_true", help="exit with 1 where a method shown does not hold")
    arguments.target(verb)
    verb.add_argument(
        "--resume",
        action="store_true",
        help="add to PATH, line by line, the JSON of every file that it does not have yet",
    )


def run(options: Namespace) -> int:
    """Print the comparison of every file; the good ones are done even where others are wrong."""
    _go_together(options)
    return _several(options) if len(options.files) > 1 or options.resume else _one(options)


def _go_together(options: Namespace) -> None:
    """A page and a workbook are of one scenario, a workbook is nothing for a terminal, and only lines can be gone on with."""
    from engine.common.errors import InputError, Problem

    if options.format in ("html", "xlsx") and len(options.files) > 1:
        raise InputError(
            [Problem("--format", f"{options.format} is of one scenario; give one file, or csv or json for several")]
        )
    if options.format == "xlsx" and options.output is None and sys.stdout.isatty():
        raise InputError(
            [Problem("--format", "xlsx is nothing to read in a terminal; say where to write it with -o PATH")]
        )
    if options.resume and (options.format != "json" or options.output is None or not options.files):
        raise InputError(
            [Problem("--resume", "goes on with a file of JSON lines: give the scenarios, --format json and -o PATH")]
        )


def _one(options: Namespace) -> Exit:
    from engine.comparison.compare import compare
    from tui.cli import output, read_options
    from tui.cli.formats import all_hold, in_form, scenario_at

    wanted = read_options.comparison(options)
    with output.heard() as tell:
        comparison = compare(
            scenario_at(options.files[0] if options.files else None, wanted.changes), wanted.methods, tell
        )
    output.deliver(in_form(comparison, wanted), options)
    return _strictly(options, holds=all_hold(comparison))


def _several(options: Namespace) -> Exit:
    """Each comparison is written as soon as those before it are; what is wrong with a file is said, and the others go on."""
    from tui.cli import batch, output, read_options

    wanted = read_options.comparison(options)
    names, hold = batch.not_done(options.files, wanted, options.output) if options.resume else (options.files, True)
    code, poured, separator = _strictly(options, holds=hold), False, b"\n" if options.format == "text" else b""
    with output.poured(options) as pour, output.heard() as tell:
        for number, outcome in enumerate(batch.outcomes(names, wanted), 1):
            if outcome.problems:
                output.say("\n".join(outcome.problems))
                code = Exit.WRONG_INPUT
            else:
                pour((separator if poured else b"") + outcome.content)
                poured = True
                code = code or _strictly(options, holds=outcome.holds)
            if options.output is not None:
                tell(f"{number} of {len(names)}: {outcome.name}")
    if poured and options.output is not None:
        output.say(f"{options.output} written")
    return code


def _strictly(options: Namespace, *, holds: bool) -> Exit:
    return Exit.OVER if options.strict and not holds else Exit.DONE
