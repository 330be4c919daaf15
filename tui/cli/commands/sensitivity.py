"""loadpath sensitivity: the inputs that matter most to the verdict."""

from __future__ import annotations

from argparse import Namespace

from tui.cli import study_output

HELP = "rank the main inputs by their effect: each one lowered and raised by a step"

add_arguments = study_output.add_arguments


def run(options: Namespace) -> int:
    """Print a table a method."""
    from engine.comparison.compare import compare
    from engine.studies.record import sensitivity_record
    from engine.studies.sensitivity import sensitivity
    from tui.render.what_if import sensitivity_parts

    return study_output.run_study(
        options,
        study=lambda scenario, methods, progress: sensitivity(compare(scenario, methods, progress), progress),
        record=lambda found: {"sensitivity": sensitivity_record(found)},
        parts=lambda found, _: sensitivity_parts(found),
    )
