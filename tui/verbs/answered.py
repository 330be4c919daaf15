"""What verbs share that find something out about one scenario, and write it as text or JSON with its cautions."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.verbs import arguments

TYPE_CHECKING = False
if TYPE_CHECKING:  # by hand, and nothing heavy above `run`: --help stays instant
    from collections.abc import Callable
    from typing import Any

    from engine.progress import Tell
    from engine.scenario import Scenario
    from tui.exit import Exit

    Find = Callable[[Scenario, tuple[str, ...], Tell], Any]
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
    from tui.verbs import asked, terminal

    scenario, stamp = asked.scenario(options), asked.stamp(options)
    with terminal.heard() as tell:
        found = find(scenario, asked.methods(options), tell)
    return terminal.deliver(cautioned(scenario, stamp, options.format, *write(found)), options)
