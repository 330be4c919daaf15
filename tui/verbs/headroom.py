"""loadpath headroom: how much more each method could take."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.verbs import arguments

WORDS = "show how much more wind and snow each method could take, and the fastening it needs at the rail's own span"


def takes(verb: ArgumentParser) -> None:
    """A scenario with changes, and how the answer is written."""
    arguments.scenario(verb)
    arguments.changes(verb)
    arguments.form(verb, "text", "json")
    arguments.target(verb)


def run(options: Namespace) -> int:
    """Print a paragraph a method."""
    from engine.comparison import compare
    from engine.export import what_if as form
    from engine.export.cautioned import cautioned
    from engine.headroom import headroom
    from tui.verbs import asked, terminal

    scenario, stamp = asked.scenario(options), asked.stamp(options)
    with terminal.heard() as tell:
        found = headroom(compare(scenario, asked.methods(options), tell), tell)
    values, words = {"headroom": form.headroom_mapping(found)}, form.headroom_text(found, options.units)
    return terminal.deliver(cautioned(scenario, stamp, options.format, values, words), options)
