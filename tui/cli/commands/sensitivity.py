"""loadpath sensitivity: which input moves the verdict."""

from __future__ import annotations

from argparse import Namespace

from tui.cli import study_command

WORDS = "show which input moves the verdict: each main one a step down and up, ranked"

takes = study_command.takes


def run(options: Namespace) -> int:
    """Print a table a method."""
    from engine.comparison.compare import compare
    from engine.export import what_if as form
    from engine.studies.sensitivity import sensitivity

    return study_command.answer(
        options,
        lambda scenario, methods, tell: sensitivity(compare(scenario, methods, tell), tell),
        lambda found: ({"sensitivity": form.sensitivity_mapping(found)}, form.sensitivity_text(found)),
    )
