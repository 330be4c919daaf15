"""loadpath study: every link as attachments move apart."""

from __future__ import annotations

from argparse import Namespace

from tui.verbs import answered

WORDS = "show every link as attachments move apart, and where each gives out"

takes = answered.takes


def run(options: Namespace) -> int:
    """Print a block a method."""
    from engine.export import study as form
    from engine.span_study import study

    return answered.answer(
        options,
        study,
        lambda found: ({"studies": form.as_mapping(found)}, form.to_text(found, options.units)),
    )
