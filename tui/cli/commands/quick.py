"""loadpath quick: the loads on a roof that nobody has seen, from a dozen values."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments

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
    from engine.studies.quick import named_values, question_as_file, question_scenario, roof_loads
    from tui.cli import output, read_options
    from tui.render.plain_text import plain_text
    from tui.render.quick import NOT_A_DESIGN, quick_parts

    values = named_values(options.values)
    scenario = question_scenario(values, METHODS, STANDARDS)
    read_options.choose_units(options, scenario)
    stamp = read_options.stamp(options)
    if options.output is not None:
        text = question_as_file(values, METHODS, scenario)
        message = f"written; fill in what loadpath check {options.output} asks for"
        return output.write_file(options.output, text.encode(), overwrite=options.overwrite, message=message)
    with output.progress_line() as progress:
        comparison = compare(scenario, tell=progress)
    found = roof_loads(comparison)
    if options.format == "json":
        from engine.export.study_json import study_json
        from engine.studies.record import quick_record

        return output.deliver(study_json(scenario, stamp, {"quick": quick_record(found)}, comparison.cautions), options)
    width = output.text_width(options)
    parts = quick_parts(found, comparison, options.units, width)
    return output.deliver(plain_text(NOT_A_DESIGN, *parts, "", *comparison.cautions, stamp.made, width=width), options)
