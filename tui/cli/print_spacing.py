"""The spacing study as plain text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rich.console import RenderableType

from engine.common.vocabulary import ALLOWABLES
from engine.studies.spacing import SpacingRow, SpacingStudy
from engine.units import System, text
from tui.render.plain_text import side_by_side

OVER = "*"


def spacing_parts(studies: Sequence[SpacingStudy], system: System, width: int) -> Iterator[RenderableType]:
    """A table a method with a column a spacing; a utilisation above 1.00 carries a star."""
    for study in studies:
        yield study.title.upper()
        yield study.sentence
        if study.rows:
            yield ""
            yield from side_by_side(*_cells(study.rows, system), width)
        if study.first_failure:
            yield ""
            yield from (f"{title} fails first at: {spacing}" for title, spacing in study.first_failure.items())
        yield ""
    words = next((row.design.job.words for study in studies for row in study.rows), ALLOWABLES)
    left_out = "Uniform spacings; single attachments added to reach the minimum are left out."
    yield f"{OVER} over its {words.resistance}. {left_out}"


def _cells(rows: Sequence[SpacingRow], system: System) -> tuple[list[str], list[list[str]]]:
    """The labels, and a column of cells for each spacing."""
    components = [check.title for check in rows[0].checks.values()]
    words = rows[0].design.job.words
    loads = (f"largest {words.of(load)}" for load in ("uplift", "down load"))
    labels = ["spacing", "longest span", "attachments", *loads]
    return [*labels, *components, "hardware"], [_column(row, system) for row in rows]


def _column(row: SpacingRow, system: System) -> list[str]:
    return [
        row.label.removeprefix("every "),
        text(row.span, "length", system),
        text(row.attachments, "count", system),
        text(row.attachment_up, "force", system),
        text(row.attachment_down_load, "force", system),
        *(_utilisation(check.utilisation) for check in row.checks.values()),
        text(row.hardware_cost, "money", system),
    ]


def _utilisation(utilisation: float | None) -> str:
    if utilisation is None:
        return "not checked"
    return f"{text(utilisation, 'ratio', 'us')}{OVER if utilisation > 1 else ' '}"
