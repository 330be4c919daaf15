"""The attachment schedule: what an installer carries onto the roof."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from engine.common.arrays import Floats
from engine.comparison.attachment_schedule import Schedule
from engine.comparison.compare import Column, Comparison
from engine.export.stamp import Stamp, harmless
from engine.export.table import Cell, Heading, Subject, figure, measured
from engine.units import System

BOTH: tuple[System, System] = ("us", "si")


def attachments(column: Column, points: Schedule, rib_word: str) -> Subject:
    """One row an attachment, in walking order; distances and forces in both systems.

    What the whole method comes to stands on every row: an attachment may hold where the method does not.
    """
    used, governing, weakest = points.utilisation, points.governing, column.weakest
    columns: list[tuple[Heading, Sequence[Cell]]] = [
        (Heading("number"), range(1, len(points) + 1)),
        (Heading("row"), points.row.tolist()),
        (Heading(rib_word), points.rib.tolist()),
        *_both("from rake", "length", points.x, len(points)),
        *_both("from eave", "length", points.y, len(points)),
        (Heading("wind zone"), points.zone),
        *_both("pull", "force", points.up, len(points)),
        *_both("push", "force", points.down, len(points)),
        (Heading("governing link"), [words or None for words in governing]),
        (Heading("utilisation", 2), [None] * len(points) if used is None else used.tolist()),
        (Heading("verdict"), points.verdicts),
        (Heading("method verdict"), [column.status] * len(points)),
        (Heading("weakest link"), [weakest.title if weakest else None] * len(points)),
        (Heading("weakest utilisation", 2), [weakest.utilisation if weakest else None] * len(points)),
        (Heading("bare roof utilisation", 2), [column.bare_roof] * len(points)),
    ]
    headings, values = zip(*columns, strict=True)
    return Subject("attachments", headings, list(zip(*values, strict=True)))


def _both(words: str, dimension: str, values: Floats | Sequence[None] | None, count: int) -> list[tuple[Heading, Sequence[Cell]]]:
    """A measure in both systems, a column each; empty where nothing was checked."""
    values = [None] * count if values is None else values
    return [(measured(words, dimension, system), [figure(value, dimension, system) for value in values]) for system in BOTH]


def to_csv(comparison: Comparison, column: Column, points: Schedule, stamp: Stamp) -> str:
    """The schedule; what it is of follows below it in a column of its own, so that the others hold one kind of value."""
    subject = attachments(column, points, comparison.scenario.job.roof.rib_word)
    about = [f"{name}: {words}" for name, words in stamp.of_method(comparison, column)]
    lines = [[*(heading.title for heading in subject.headings), "about"]]
    lines += [[*map(_written, row), ""] for row in subject.rows]
    lines += [["" for _ in subject.headings] + [harmless(words)] for words in about]
    written = io.StringIO()
    csv.writer(written, lineterminator="\n").writerows(lines)
    return written.getvalue()


def _written(cell: Cell) -> str:
    return "" if cell is None else str(cell)
