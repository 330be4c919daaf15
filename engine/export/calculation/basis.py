"""The basis of the calculation: standard, edition and the site's values, each with its origin."""

from __future__ import annotations

from collections.abc import Iterator

from engine.common.sentences import capitalized
from engine.comparison.compare import Comparison
from engine.export.document import Block, Grid, Words, side_by_side
from engine.scenario.listing import NOT_SET, ListedInput, inputs_of
from engine.units import both


def is_basis(row: ListedInput) -> bool:
    """True for the inputs listed here: those of the site, set or not."""
    return row.path.startswith("site.")


def blocks(comparison: Comparison) -> Iterator[Block]:
    """The standard, its main loads here, and every input of the site."""
    standard = comparison.scenario.standard
    loads = ", ".join(f"{name} {both(value, dimension, standard.system)}" for name, value, dimension in comparison.site)
    yield Words(f"{standard.title}, {standard.basis}. {capitalized(loads)}.")
    rows = [
        (row.path, row.written, row.origin)
        for row in inputs_of(comparison.scenario)
        if is_basis(row) and row.written != NOT_SET
    ]
    yield Grid(("site", "value", "from") * 2, side_by_side(rows), widths=(0, 1, 0) * 2)
