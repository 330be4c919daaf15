"""loadpath headroom: the wind and snow at which each method reaches its limit."""

from __future__ import annotations

from argparse import Namespace

from tui.cli import study_output

HELP = "show the wind and snow at which each method reaches its limit, and the strength needed at the rail's own span"

add_arguments = study_output.add_arguments


def run(options: Namespace) -> int:
    """Print a paragraph a method."""
    from engine.comparison.compare import compare
    from engine.studies.headroom import headroom
    from engine.studies.record import headroom_record
    from tui.render.what_if import headroom_parts

    return study_output.run_study(
        options,
        study=lambda scenario, methods, progress: headroom(compare(scenario, methods, progress), progress),
        record=lambda found: {"headroom": headroom_record(found)},
        parts=lambda found, _: headroom_parts(found, options.units),
    )
