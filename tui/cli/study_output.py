"""Output that the studies share: one scenario, text or JSON, with its cautions."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments

TYPE_CHECKING = False
if TYPE_CHECKING:  # by hand, and nothing heavy above `run_study`: --help stays instant
    from collections.abc import Callable, Iterable
    from typing import Any

    from rich.console import RenderableType

    from engine.common.progress import ProgressListener
    from engine.scenario.read import Scenario
    from tui.model.exit_codes import Exit

    Study = Callable[[Scenario, tuple[str, ...], ProgressListener], Any]
    Record = Callable[[Any], dict[str, object]]
    Parts = Callable[[Any, int], Iterable[RenderableType]]


def add_arguments(parser: ArgumentParser) -> None:
    """A scenario with changes, and the form of the output."""
    arguments.add_scenario(parser)
    arguments.add_changes(parser)
    arguments.add_format(parser, "text", "json")
    arguments.add_output(parser)


def run_study(options: Namespace, study: Study, record: Record, parts: Parts) -> Exit:
    """Run a study on the scenario and methods of the options and write its record as JSON, or its parts as text."""
    from engine.comparison.compare import cautions_of, standard_line
    from tui.cli import output, read_options

    scenario, stamp = read_options.scenario(options), read_options.stamp(options)
    methods = read_options.methods(options)
    with output.progress_line() as progress:
        found = study(scenario, methods, progress)
    cautions = cautions_of(scenario, methods)
    if options.format == "json":
        from engine.export.study_json import study_json

        return output.deliver(study_json(scenario, stamp, record(found), cautions), options)
    from tui.render.plain_text import plain_text

    heading, width = (scenario.title, standard_line(scenario)), output.text_width(options)
    text = plain_text(*heading, "", *parts(found, width), "", *cautions, stamp.made, width=width)
    return output.deliver(text, options)
