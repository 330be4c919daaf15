"""Ways out by other options of a method: its spacing left to the search, a third rail, modules turned, a lower tilt."""

from __future__ import annotations

from collections.abc import Iterator

from engine.comparison.compare import Column, Comparison
from engine.studies.ways_out.proposal import Proposal


def searched_spacing(column: Column, comparison: Comparison) -> Iterator[Proposal]:
    """The spacing left to the search, where it is stated."""
    (method,) = comparison.scenario.methods_named((column.id,))
    if method.spacing.rule != "fewest":
        text = "attach it more closely: let the search choose the spacing"
        yield Proposal(text, {("methods", column.id, "spacing"): "fewest"})


def other_options(kind: str, column: Column) -> Iterator[Proposal]:
    """The method's alternatives of one kind."""
    if column.design is None:
        return
    for alternative in column.design.method.alternatives():
        if alternative.kind == kind:
            options = alternative.options.items()
            yield Proposal(alternative.text, {("methods", column.id, name): value for name, value in options})
