"""Travel of bars by heat: reported, because its force depends on how far attachments give way."""

from __future__ import annotations

from engine.common.calculation import Term
from engine.comparison.compare import Column
from engine.comparison.figure import Figure, FigureContext, Steps, step, words
from engine.comparison.figures.spans import GROUP
from engine.project.heat import EXPANSION, HANDBOOK, lengthening

HELP = "movement of the bar's ends between cold and hot; it pushes the attachments across the seams"


def rail_travel(column: Column) -> float | None:
    """Travel of the ends of the longest bar by heat [m]; None for methods without bars."""
    moving = _moving_part(column)
    if moving is None or column.design is None:
        return None
    length, part, expansion = moving
    return lengthening(expansion, part * length, column.design.job.roof.temperature_range)


def _moving_part(column: Column) -> tuple[float, float, float] | None:
    """Length of the longest bar [m], the part of it that moves one way, and its expansion [1/K].

    Along the eave a bar moves each way from its middle. Up the slope it lies along a panel that moves too: only the
    difference of the metals counts.
    """
    design = column.design
    section = design.job.hardware.section(design.layout.member.section) if design else None
    if design is None or section is None:
        return None
    length, expansion = max(lines.length for lines in design.layout.lines), EXPANSION[section.material]
    if design.layout.member.runs_up_slope:
        return length, 1.0, abs(expansion - EXPANSION[design.job.roof.panel.material])
    return length, 0.5, expansion


def _explain(context: FigureContext) -> Steps:
    moving, travel = _moving_part(context.column), rail_travel(context.column)
    if moving is None or travel is None:
        return ()
    length, part, expansion = moving
    terms = {
        "alpha": Term(expansion, "1/K"),
        "L": context.term(length, "small length"),
        "part": Term(part),
        "dT": Term(context.job.roof.temperature_range, "K"),
    }
    meaning = (
        "travel of the longest bar's ends by heat: along the eave half of it moves each way, up the slope only the "
        "difference of the metals counts"
    )
    return (step("t", meaning, context.term(travel, "small length"), "alpha * L * part * dT", terms, HANDBOOK),)


FIGURES = (
    Figure(
        "rail_travel_m",
        GROUP,
        words("rail travel by heat"),
        words(HELP),
        "small length",
        value=rail_travel,
        explain=_explain,
        better="less",
    ),
)
