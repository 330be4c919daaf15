"""loadpath study: the utilisation of every component as the attachment spacing grows."""

from __future__ import annotations

from argparse import Namespace

from tui.cli import study_output

HELP = "spacing study: utilisation of every component as the attachment spacing grows"

add_arguments = study_output.add_arguments


def run(options: Namespace) -> int:
    """Print a table a method."""
    from engine.studies.record import spacing_record
    from engine.studies.spacing import study
    from tui.cli.print_spacing import spacing_parts

    return study_output.run_study(
        options,
        study=study,
        record=lambda found: {"studies": spacing_record(found)},
        parts=lambda found, width: spacing_parts(found, options.units, width),
    )
