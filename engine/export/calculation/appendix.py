"""The inputs as a compact table, and the sources to be checked first."""

from __future__ import annotations

from collections.abc import Iterator

from engine.comparison.compare import Comparison
from engine.export.calculation.basis import is_basis
from engine.export.document import Block, Bullets, Grid, Heading, Words, side_by_side
from engine.scenario.listing import NOT_SET, inputs_of


def blocks(comparison: Comparison) -> Iterator[Block]:
    """The values that the scenario sets, the defaults once, then sources."""
    inputs = [row for row in inputs_of(comparison.scenario) if not is_basis(row)]
    stated = [row for row in inputs if row.stated]
    defaults = [row for row in inputs if not row.stated and row.written != NOT_SET]
    yield Heading("Inputs that the scenario sets, besides section 2", 2)
    rows = [(row.path, row.written) for row in stated]
    yield Grid(("input", "as written") * 2, side_by_side(rows), widths=(0, 1) * 2)
    yield Heading("Defaults", 2)
    yield Words("; ".join(f"{row.path} = {row.written}" for row in defaults), quiet=True)
    yield Words("Inputs that are neither named above nor here are not set.", quiet=True)
    yield from _sources(comparison)


def _sources(comparison: Comparison) -> Iterator[Block]:
    standard = comparison.scenario.standard
    yield Heading("Check first against the printed documents", 2)
    yield Bullets(tuple(f"{source} ({source.confidence})" for source in standard.unverified) or ("nothing",))
    yield Heading("Not covered", 2)
    laid = [(column.title, column.design.loads) for column in comparison.columns if column.design]
    limits = [f"{title}: {limit}" for title, loads in laid for limit in loads.outside]
    yield Bullets(
        (
            *limits,
            *standard.not_covered,
            "Fall protection, electrical rules and fire rating are not checked.",
            "The sliding of modules in their clamps is not checked.",
            "Links that are not checked are named in section 1, with who can close them.",
        )
    )
