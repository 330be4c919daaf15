"""loadpath schema: what a scenario or a comparison may hold, as JSON Schema."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments

HELP = "write the JSON Schema of scenario files, or of comparisons as JSON"


def add_arguments(parser: ArgumentParser) -> None:
    """The subject, and the file to write."""
    parser.add_argument(
        "subject",
        choices=("scenario", "comparison"),
        help='"scenario" for editors: begin a file with "#:schema scenario.schema.json"; or "comparison"',
    )
    arguments.add_output(parser)
    parser.set_defaults(format="json")


def run(options: Namespace) -> int:
    """Write a schema; figures are explained in the words of the default scenario."""
    import json

    from tui.cli import output

    made = _scenario() if options.subject == "scenario" else _comparison()
    return output.deliver(json.dumps(made, indent=2, ensure_ascii=False) + "\n", options)


def _scenario() -> dict[str, object]:
    from engine.loads import STANDARDS
    from engine.mounting import METHODS
    from engine.scenario.json_schema import scenario_schema

    return scenario_schema(METHODS, STANDARDS)


def _comparison() -> dict[str, object]:
    from engine.comparison.record_schema import record_schema
    from tui.cli import read_options

    return record_schema(read_options.scenarios_at(None, (), "")[0].job)
