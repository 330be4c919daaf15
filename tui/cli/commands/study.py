"""loadpath study: every link as attachments move apart."""

from __future__ import annotations

from argparse import Namespace

from tui.cli import study_command

WORDS = "show every link as attachments move apart, and where each gives out"

takes = study_command.takes


def run(options: Namespace) -> int:
    """Print a block a method."""
    from engine.export import study as form
    from engine.studies.spacing import study

    return study_command.answer(
        options,
        study,
        lambda found: ({"studies": form.as_mapping(found)}, form.to_text(found, options.units)),
    )
