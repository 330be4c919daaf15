"""The flags of a comparison under headings, those of all methods once."""

from __future__ import annotations

from engine.comparison.compare import Comparison
from engine.comparison.flags import Flag


def flag_sections(comparison: Comparison) -> tuple[tuple[str, tuple[Flag, ...]], ...]:
    """Headings with their flags: each method's own, then those that all methods laid out share."""
    laid_out = [column for column in comparison.columns if column.design]
    if len(laid_out) < 2:
        return tuple((column.title, column.flags) for column in comparison.columns)
    first, *others = laid_out
    shared = tuple(flag for flag in first.flags if all(flag in column.flags for column in others))
    own = [(column.title, tuple(flag for flag in column.flags if flag not in shared)) for column in comparison.columns]
    together = ", ".join(column.title for column in laid_out)
    return (*own, (f"the same for {together}", shared)) if shared else tuple(own)
