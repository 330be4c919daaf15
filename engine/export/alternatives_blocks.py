"""The alternatives of a scenario in a document: what each changes, and all ranked with the scenario as stated."""

from __future__ import annotations

from collections.abc import Iterator

from engine.comparison.alternatives import RankedMethod, ranked, ranking_rule
from engine.comparison.compare import AlternativeComparison, Comparison
from engine.comparison.figures import figure_named
from engine.comparison.figures.verdict import verdict_and_component
from engine.export.document import Block, Bullets, Grid, Heading, Words
from engine.export.svg import shortened
from engine.schema.toml import to_toml
from engine.units import System

COUNTS = ("modules", "attachments", "total_cost")
LONGEST = 300
"""Letters of what an alternative changes."""


def alternatives_blocks(comparison: Comparison, system: System, most: int | None = None) -> Iterator[Block]:
    """A heading, what each alternative changes, and the ranked table; nothing where there are no alternatives.

    Args:
        comparison: with its alternatives.
        system: the units shown.
        most: rows of the table; None for all.
    """
    if not comparison.alternatives:
        return
    rows, job = ranked(comparison), comparison.scenario.job
    best = "" if most is None or most >= len(rows) else f", the best {most} of {len(rows)}"
    yield Heading(f"Alternatives{best}", 2)
    yield Words(
        f"Changes laid over the scenario, each compared by the same methods; {ranking_rule(comparison)}.", quiet=True
    )
    listed = {each.alternative for each in rows[:most]}
    yield Bullets(tuple(changed(each) for each in comparison.alternatives if each.name in listed))
    labels = [figure_named(key).label(job) for key in COUNTS]
    yield Grid(
        ("rank", "alternative", "method", "verdict", *labels),
        tuple(_row(each, system) for each in rows[:most]),
        numeric=(0, 4, 5, 6),
        widths=(0, 3, 2, 4, 0, 0, 0),
    )


def changed(alternative: AlternativeComparison) -> str:
    """The name of an alternative, and what it changes: "portrait: array.orientation = portrait"."""
    changes = (f"{'.'.join(path)} = {_written(value)}" for path, value in alternative.changes.items())
    return shortened(f"{alternative.name}: {', '.join(changes) or 'nothing is changed'}", LONGEST)


def _written(value: object) -> str:
    return value if isinstance(value, str) else to_toml(value)


def _row(each: RankedMethod, system: System) -> tuple[str, ...]:
    counts = (figure_named(key).cell(each.column, system) for key in COUNTS)
    return str(each.rank), each.alternative, each.column.title, verdict_and_component(each.column), *counts
