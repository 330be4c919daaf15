"""The answer to a quick question as text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rich.console import RenderableType

from engine.comparison.compare import Comparison
from engine.links.roof_fastening import TEST_SAFETY_FACTOR
from engine.studies.quick import RoofLoads
from engine.units import System, both, text
from tui.render.plain_text import side_by_side

NOT_A_DESIGN = "NOT A DESIGN: the strength of the roof and the places of its seams and purlins are unknown."


def quick_parts(
    found: Sequence[RoofLoads], comparison: Comparison, system: System, width: int
) -> Iterator[RenderableType]:
    """The loads of each method, and what to ask for."""
    job = comparison.scenario.job
    (array,) = job.arrays
    yield NOT_A_DESIGN
    yield (
        f"{array.rows} rows of {array.columns} modules on one slope of a gable roof, into its corners. "
        "Seams and purlins lie where they are worst of the places tried."
    )
    yield ""
    if found:
        yield from side_by_side(*_cells(found, system), width)
        yield ""
        yield from _to_ask(found, job.roof.rib_spacing, job.roof.support_spacing)
    for column in comparison.columns:
        if not column.candidate:
            yield f"{column.title}: {column.flags[0].text if column.flags else column.status.word}."


def _cells(found: Sequence[RoofLoads], system: System) -> tuple[list[str], list[list[str]]]:
    zones = sorted({zone for each in found for zone in each.uplift_by_zone})
    labels = [
        "",
        "minimum by rule of practice",
        "attachments here",
        *(f"largest uplift, zone {zone}" for zone in zones),
        "largest down load",
        "clip uplift with the array",
        "clip uplift without it",
        "seam moment",
    ]
    return labels, [_column(each, zones, system) for each in found]


def _column(each: RoofLoads, zones: Sequence[str], system: System) -> list[str]:
    design = each.column.design
    assert design
    return [
        each.column.title,
        text(design.field.minimum_attachments, "count", system),
        text(len(design.layout.attachments), "count", system),
        *(text(each.uplift_by_zone.get(zone), "force", system) for zone in zones),
        text(each.down, "force", system),
        text(each.with_array, "force", system),
        text(each.without, "force", system),
        text(each.seam_moment, "moment", system),
    ]


def _to_ask(found: Sequence[RoofLoads], rib_spacing: float, support_spacing: float) -> Iterator[str]:
    """Requests to the roof maker and the building's engineer for."""
    yield "To ask the roof maker for, by method:"
    for each in found:
        needed = max(each.with_array, each.without)
        yield (
            f"- {each.column.title}: an allowable uplift of {both(needed, 'force')} a clip, which with a safety factor "
            f"of {TEST_SAFETY_FACTOR:g} is {both(each.test_pressure, 'pressure')} in an uplift test with seams "
            f"{both(rib_spacing, 'small length')} and clips {both(support_spacing, 'length')} apart; an allowable seam "
            f"moment of {both(each.seam_moment, 'moment')}"
        )
    yield "- the gauge of the panel, and a pull test of a clamp on this profile and gauge, up and down"
    yield "- the down load that a clip may carry, where the panel does not bear on the purlin"
    yield "To ask the building's engineer for: drawings of the purlins, and the load that they may carry in addition."
