"""loadpath compare: the comparison of one scenario, or of many."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from contextlib import closing

from tui.cli import arguments
from tui.model.exit_codes import Exit

HELP = "print the comparison of one or more scenarios"


def add_arguments(parser: ArgumentParser) -> None:
    """Scenarios with changes, the form of the output, and resuming a long run."""
    arguments.add_scenarios(parser)
    arguments.add_changes(parser)
    arguments.add_format(parser, "text", "md", "csv", "json", "html", "xlsx")
    parser.add_argument("--strict", action="store_true", help="exit with 1 if a method shown does not hold")
    parser.add_argument(
        "--ways",
        action="store_true",
        help="with --format text or json: search the ways out of methods that are over too; takes seconds",
    )
    arguments.add_output(parser)
    parser.add_argument(
        "--resume",
        action="store_true",
        help="with --format json -o PATH: append a line for every file that PATH lacks, as soon as it is done",
    )


def run(options: Namespace) -> int:
    """Print the comparison of every file; the good ones are done even if others are wrong."""
    from tui.cli import output, scenario_files

    is_one = len(options.files) <= 1 and not (options.lists or options.resume or scenario_files.has_folder(options))
    _check_options(options, is_one=is_one)
    if is_one:
        return _one(options)
    names = scenario_files.named_by(options)
    output.refuse_overwrite_of_inputs([*names, *options.lists], options)
    return _several(names, options)


def _check_options(options: Namespace, *, is_one: bool) -> None:
    """Refuse options that do not go together.

    Raises:
        InputError: they do not.
    """
    from engine.common.errors import InputError, Problem

    if options.format in ("html", "xlsx") and not is_one:
        sentence = f"{options.format} holds one scenario; give one file, or choose csv or json for several"
        raise InputError([Problem("--format", sentence)])
    if options.ways and options.format not in ("text", "json"):
        sentence = f"given with --format {options.format}; choose text or json, or the report of loadpath export"
        raise InputError([Problem("--ways", sentence)])
    if options.format == "xlsx" and options.output is None and sys.stdout.isatty():
        raise InputError([Problem("--format", "xlsx cannot be shown in a terminal; name a file with -o PATH")])
    if options.resume and (options.format != "json" or options.output is None or not (options.files or options.lists)):
        sentence = "continues a file of JSON lines; give the scenarios, --format json and -o PATH"
        raise InputError([Problem("--resume", sentence)])


def _one(options: Namespace) -> Exit:
    from tui.cli import output, read_options
    from tui.cli.formats import all_hold, compared, in_format

    request = read_options.request(options)
    name = options.files[0] if options.files else None
    scenarios = read_options.scenarios_at(name, request.changes, request.slope)
    with output.progress_line() as progress:
        comparison = compared(scenarios, request, progress)
    output.deliver(in_format(comparison, request), options)
    return _strict_code(options, holds=all_hold(comparison))


def _several(names: list[str], options: Namespace) -> Exit:
    """Write each comparison in the order given, with --resume at once; a file with errors is reported and skipped."""
    from tui.cli import batch, output, read_options

    request = read_options.request(options)
    left, holds = batch.not_done(names, request, options.output) if options.resume else (names, True)
    code, any_written, separator = _strict_code(options, holds=holds), False, b"\n" if options.format == "text" else b""
    with (
        output.write_chunks(options) as write,
        output.progress_line() as progress,
        closing(batch.outcomes(left, request, in_order=not options.resume)) as outcomes,
    ):
        for number, outcome in enumerate(outcomes, 1):
            for problem in outcome.problems:
                output.say(problem)
            if not outcome.problems:
                write((separator if any_written else b"") + outcome.content)
                any_written = True
            code = max(code, outcome.code, _strict_code(options, holds=outcome.holds))
            if options.output is not None:
                progress(f"{number} of {len(left)}: {outcome.name}")
    if any_written and options.output is not None:
        output.say(f"{options.output} written")
    return code


def _strict_code(options: Namespace, *, holds: bool) -> Exit:
    return Exit.OVER if options.strict and not holds else Exit.DONE
