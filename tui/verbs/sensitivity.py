"""loadpath sensitivity: which input moves the verdict."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.verbs import arguments

WORDS = "show which input moves the verdict: each main one a step down and up, ranked"


def takes(verb: ArgumentParser) -> None:
    """A scenario with changes, and how the answer is written."""
    arguments.scenario(verb)
    arguments.changes(verb)
    arguments.form(verb, "text", "json")
    arguments.target(verb)


def run(options: Namespace) -> int:
    """Print a table a method."""
    from engine.comparison import compare
    from engine.export import what_if as form
    from engine.export.cautioned import cautioned
    from engine.sensitivity import sensitivity
    from tui.verbs import asked, terminal

    scenario, stamp = asked.scenario(options), asked.stamp(options)
    with terminal.heard() as tell:
        found = sensitivity(compare(scenario, asked.methods(options), tell), tell)
    values, words = {"sensitivity": form.sensitivity_mapping(found)}, form.sensitivity_text(found)
    return terminal.deliver(cautioned(scenario, stamp, options.format, values, words), options)
