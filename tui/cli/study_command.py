"""What verbs share that find something out about one scenario, and write it as text or JSON with its cautions."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments

TYPE_CHECKING = False
if TYPE_CHECKING:  # by hand, and nothing heavy above `run`: --help stays instant
    from collections.abc import Callable
    from typing import Any

    from engine.common.progress import ProgressListener
    from engine.scenario.read import Scenario
    from tui.cli.exit_codes import Exit

    Find = Callable[[Scenario, tuple[str, ...], ProgressListener], Any]
    Write = Callable[[Any], tuple[dict[str, object], str]]


def takes(verb: ArgumentParser) -> None:
    """A scenario with changes, and how the answer is written."""
    arguments.scenario(verb)
    arguments.changes(verb)
    arguments.form(verb, "text", "json")
    arguments.target(verb)


def answer(options: Namespace, find: Find, write: Write) -> Exit:
    """Find it out for the scenario and methods asked for, and deliver it; `write` gives its values and its words."""
    from engine.export.cautioned import cautioned
    from tui.cli import output, read_options

    scenario, stamp = read_options.scenario(options), read_options.stamp(options)
    with output.heard() as tell:
        found = find(scenario, read_options.methods(options), tell)
    return output.deliver(cautioned(scenario, stamp, options.format, *write(found)), options)
