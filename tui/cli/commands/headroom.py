"""loadpath headroom: how much more each method could take."""

from __future__ import annotations

from argparse import Namespace

from tui.cli import study_command

WORDS = "show how much more wind and snow each method could take, and the fastening it needs at the rail's own span"

takes = study_command.takes


def run(options: Namespace) -> int:
    """Print a paragraph a method."""
    from engine.comparison.compare import compare
    from engine.export import what_if as form
    from engine.studies.headroom import headroom

    return study_command.answer(
        options,
        lambda scenario, methods, tell: headroom(compare(scenario, methods, tell), tell),
        lambda found: ({"headroom": form.headroom_mapping(found)}, form.headroom_text(found, options.units)),
    )
