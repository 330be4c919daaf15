"""The span study as text, and as plain values for JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from typing import Any

from engine.export import cells
from engine.studies.spacing import SpacingRow, SpacingStudy
from engine.units import System, text

LABEL_WIDTH = 16
COLUMN_WIDTH = 12
PER_BLOCK = 5
OVER = "*"


def to_text(studies: Sequence[SpacingStudy], system: System) -> str:
    """A block of spacings after another; what is over carries a star."""
    lines = [line for study in studies for line in _study(study, system)]
    return (
        "\n".join(line.rstrip() for line in lines)
        + f"\n{OVER} over its allowable. Every pattern is even: no single points were added.\n"
    )


def _study(study: SpacingStudy, system: System) -> Iterator[str]:
    yield study.title.upper()
    yield from textwrap.wrap(study.sentence, 79)
    for start in range(0, len(study.rows), PER_BLOCK):
        yield ""
        yield from _block(study.rows[start : start + PER_BLOCK], system)
    if study.first_failure:
        yield ""
        yield from (f"{title} gives out at: {words}" for title, words in study.first_failure.items())
    yield ""


def _block(rows: Sequence[SpacingRow], system: System) -> Iterator[str]:
    yield from _lines("stands on", [row.words.replace("every ", "", 1) for row in rows])
    yield from _lines("longest span", [text(row.span, "length", system) for row in rows])
    yield from _lines("attachments", [text(row.attachments, "count", system) for row in rows])
    yield from _lines("largest pull", [text(row.attachment_up, "force", system) for row in rows])
    yield from _lines("largest push", [text(row.attachment_down_load, "force", system) for row in rows])
    for key, check in rows[0].checks.items():
        yield from _lines(check.title, [_used(row.checks[key].utilisation) for row in rows])
    yield from _lines("hardware", [text(row.hardware_cost, "money", system) for row in rows])


def _used(utilisation: float | None) -> str:
    if utilisation is None:
        return "not checked"
    return f"{text(utilisation, 'ratio', 'us')}{OVER if utilisation > 1 else ' '}"


def _lines(label: str, words: Sequence[str]) -> Iterator[str]:
    return cells.row(label, words, LABEL_WIDTH, COLUMN_WIDTH)


def as_mapping(studies: Sequence[SpacingStudy]) -> list[dict[str, Any]]:
    """Plain values in SI, unrounded."""
    return [
        {
            "method": study.id,
            "title": study.title,
            "sentence": study.sentence,
            "rail_span_limit_m": study.limits.member if study.limits else None,
            "roof_span_limit_m": study.limits.roof if study.limits else None,
            "overspan": study.limits.overspan if study.limits else None,
            "gives_out": dict(study.first_failure or {}),
            "spacings": [
                {
                    "spacing": row.words,
                    "sentence": row.sentence,
                    "longest_span_m": row.span,
                    "attachments": row.attachments,
                    "point_load_up_n": row.attachment_up,
                    "point_load_down_n": row.attachment_down_load,
                    "hardware_cost": row.hardware_cost,
                    "links": {check.link: check.utilisation for check in row.checks.values()},
                }
                for row in study.rows
            ],
        }
        for study in studies
    ]
