"""The attachment schedule: what an installer carries onto the roof."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from engine.common.arrays import Floats
from engine.comparison.attachment_schedule import Schedule
from engine.comparison.compare import Column, Comparison
from engine.comparison.figures import value_of
from engine.export.stamp import Stamp, harmless
from engine.export.table import Cell, Heading, Subject, figure, measured
from engine.units import System

BOTH: tuple[System, System] = ("us", "si")


def attachment_table(column: Column, schedule: Schedule, rib_word: str) -> Subject:
    """One row an attachment, in walking order; distances and forces in both systems.

    What the whole method comes to stands on every row: an attachment may hold where the method does not.
    """
    used, governing, weakest = schedule.utilisation, schedule.governing, column.controlling
    columns: list[tuple[Heading, Sequence[Cell]]] = [
        (Heading("number"), range(1, len(schedule) + 1)),
        (Heading("row"), schedule.row.tolist()),
        (Heading(rib_word), schedule.rib.tolist()),
        *_both("from rake", "length", schedule.x, len(schedule)),
        *_both("from eave", "length", schedule.y, len(schedule)),
        (Heading("wind zone"), schedule.zone),
        *_both("pull", "force", schedule.up, len(schedule)),
        *_both("push", "force", schedule.down, len(schedule)),
        (Heading("governing link"), [words or None for words in governing]),
        (Heading("utilisation", 2), [None] * len(schedule) if used is None else used.tolist()),
        (Heading("verdict"), schedule.verdicts),
        (Heading("method verdict"), [column.status] * len(schedule)),
        (Heading("weakest link"), [weakest.title if weakest else None] * len(schedule)),
        (Heading("weakest utilisation", 2), [weakest.utilisation if weakest else None] * len(schedule)),
        (Heading("bare roof utilisation", 2), [value_of(column, "bare_roof_utilisation")] * len(schedule)),
    ]
    headings, values = zip(*columns, strict=True)
    return Subject("attachments", headings, list(zip(*values, strict=True)))


def _both(
    words: str, dimension: str, values: Floats | Sequence[None] | None, count: int
) -> list[tuple[Heading, Sequence[Cell]]]:
    """A measure in both systems, a column each; empty where nothing was checked."""
    values = [None] * count if values is None else values
    return [
        (measured(words, dimension, system), [figure(value, dimension, system) for value in values]) for system in BOTH
    ]


def to_csv(comparison: Comparison, column: Column, schedule: Schedule, stamp: Stamp) -> str:
    """The schedule; what it is of follows below it in a column of its own, so that the others hold one kind of value."""
    subject = attachment_table(column, schedule, comparison.scenario.job.roof.rib_word)
    about = [f"{name}: {words}" for name, words in stamp.of_method(comparison, column)]
    lines = [[*(heading.title for heading in subject.headings), "about"]]
    lines += [[*map(_written, row), ""] for row in subject.rows]
    lines += [["" for _ in subject.headings] + [harmless(words)] for words in about]
    written = io.StringIO()
    csv.writer(written, lineterminator="\n").writerows(lines)
    return written.getvalue()


def _written(cell: Cell) -> str:
    return "" if cell is None else str(cell)
