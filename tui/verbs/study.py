"""loadpath study: every link as attachments move apart."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.verbs import arguments

WORDS = "show every link as attachments move apart, and where each gives out"


def takes(verb: ArgumentParser) -> None:
    """A scenario with changes, and how its study is written."""
    arguments.scenario(verb)
    arguments.changes(verb)
    arguments.form(verb, "text", "json")
    arguments.target(verb)


def run(options: Namespace) -> int:
    """Print a block a method."""
    from engine.export import study as form
    from engine.export.cautioned import cautioned
    from engine.span_study import study
    from tui.verbs import asked, terminal

    scenario, stamp = asked.scenario(options), asked.stamp(options)
    with terminal.heard() as tell:
        found = study(scenario, asked.methods(options), tell)
    values, words = {"studies": form.as_mapping(found)}, form.to_text(found, options.units)
    return terminal.deliver(cautioned(scenario, stamp, options.format, values, words), options)
