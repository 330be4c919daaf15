"""loadpath quick: the loads on a roof that nobody has seen, from a dozen values."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.model.exit_codes import Exit

HELP = "answer a question on the phone: the loads on a roof of unknown strength, from a dozen values"

VALUES = (
    "modules=144 seams='24 in' purlins='5 ft' slope=1:12 height='24 ft' wind='105 mph' exposure=B snow='25 psf'; "
    "also standard, length, width and mass of a module, and any key of the standard's [site] table, such as "
    "risk=III, or standard='EN 1991' terrain=III cp_net='cautious fallback'"
)


def add_arguments(parser: ArgumentParser) -> None:
    """The values, the form of the output, and a file for the scenario."""
    parser.add_argument("values", nargs="*", metavar="NAME=VALUE", help=VALUES)
    arguments.add_format(parser, "text", "json")
    parser.add_argument(
        "-o", dest="output", metavar="PATH", type=arguments.path, help="write a scenario to go on with, not the answer"
    )
    arguments.add_overwrite(parser)


def run(options: Namespace) -> int:
    """Print the loads that each method brings to the roof, or write the scenario."""
    from engine.comparison.compare import compare
    from engine.loads import STANDARDS
    from engine.mounting import METHODS
    from engine.studies.quick import question_scenario, roof_loads
    from tui.cli import output, read_options
    from tui.render.plain_text import plain_text
    from tui.render.quick import quick_parts

    scenario = question_scenario(_values(options.values), METHODS, STANDARDS)
    read_options.choose_units(options, scenario)
    stamp = read_options.stamp(options)
    if options.output is not None:
        return _write(options)
    with output.progress_line() as progress:
        comparison = compare(scenario, tell=progress)
    found = roof_loads(comparison)
    if options.format == "json":
        from engine.export.study_json import study_json
        from engine.studies.record import quick_record

        return output.deliver(study_json(scenario, stamp, {"quick": quick_record(found)}, comparison.cautions), options)
    width = output.text_width(options)
    parts = quick_parts(found, comparison, options.units, width)
    return output.deliver(plain_text(*parts, "", *comparison.cautions, stamp.made, width=width), options)


def _values(written: list[str]) -> dict[str, str]:
    """The values by their names.

    Raises:
        InputError: one has no name.
    """
    from engine.common.errors import InputError, Problem
    from engine.units import quoted

    pairs = [each.partition("=") for each in written]
    problems = [
        Problem("NAME=VALUE", f"{quoted(each)} given; write a name, = and a value, such as wind='105 mph'")
        for each, (_, equals, _) in zip(written, pairs, strict=True)
        if not equals
    ]
    if problems:
        raise InputError(problems)
    return {name.strip(): value.strip() for name, _, value in pairs}


def _write(options: Namespace) -> Exit:
    """Write a commented scenario with the values; what nobody knows yet is left to be filled in."""
    from engine.loads import STANDARDS
    from engine.mounting import METHODS
    from engine.scenario.read import fields_of
    from engine.scenario.template import template
    from engine.studies.quick import tables_of
    from tui.cli import output

    tables = tables_of(_values(options.values), STANDARDS)
    del tables["roof"]["panel"]  # its moments stood for an unknown strength
    text = template(tables, fields_of(METHODS, STANDARDS[tables["site"]["standard"]]))
    message = f"written; fill in what loadpath check {options.output} asks for"
    return output.write_file(options.output, text.encode(), overwrite=options.overwrite, message=message)
