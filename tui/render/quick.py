"""The answer to a quick question as text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rich.console import RenderableType

from engine.common.vocabulary import ALLOWABLES, Vocabulary
from engine.comparison.compare import Comparison, standard_line
from engine.links.roof_fastening import TEST_SAFETY_FACTOR
from engine.project.job import Job
from engine.studies.quick import RoofLoads
from engine.units import System, in_one, text
from tui.render.plain_text import side_by_side

NOT_A_DESIGN = "NOT A DESIGN: the strength of the roof and the places of its seams and purlins are unknown."


def quick_parts(
    found: Sequence[RoofLoads], comparison: Comparison, system: System, width: int
) -> Iterator[RenderableType]:
    """The loads of each method, and what to ask for; `NOT_A_DESIGN` belongs above."""
    job = comparison.scenario.job
    (array,) = job.arrays
    yield standard_line(comparison.scenario)
    yield (
        f"{array.rows} rows of {array.columns} modules on one slope of a gable roof, into its corners. "
        "Seams and purlins lie where they are worst of the places tried."
    )
    yield ""
    if found:
        yield from side_by_side(*_cells(found, job.words, system), width)
        yield ""
        yield from _to_ask(found, job, system)
    for column in comparison.columns:
        if not column.candidate:
            reason = column.flags[0].text if column.flags else column.status.word
            yield in_one(f"{column.title}: {reason}.", system)


def _in_test(each: RoofLoads, job: Job, system: System) -> str:
    """The same strength as a pressure in a roof uplift test."""
    pressure, roof = text(each.test_pressure, "pressure", system), job.roof
    seams, clips = text(roof.rib_spacing, "small length", system), text(roof.support_spacing, "length", system)
    factor = f"which with a safety factor of {TEST_SAFETY_FACTOR:g}"
    return f"{factor} is {pressure} in an uplift test with seams {seams} and clips {clips} apart"


def _cells(found: Sequence[RoofLoads], words: Vocabulary, system: System) -> tuple[list[str], list[list[str]]]:
    zones = sorted({zone for each in found for zone in each.uplift_by_zone})
    labels = [
        "",
        "minimum by rule of practice",
        "attachments here",
        *(f"largest {words.of('uplift')}, zone {zone}" for zone in zones),
        f"largest {words.of('down load')}",
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


def _to_ask(found: Sequence[RoofLoads], job: Job, system: System) -> Iterator[str]:
    """Requests to the roof maker and to the building's engineer."""
    words = job.words
    yield "To ask the roof maker for, by method:"
    for each in found:
        needed = text(max(each.with_array, each.without), "force", system)
        test = f", {_in_test(each, job, system)}" if words is ALLOWABLES else ""
        yield (
            f"- {each.column.title}: {words.a_resistance.removesuffix(words.resistance)}{words.against('uplift')} of "
            f"{needed} a clip{test}; {words.a_resistance} of the seam in bending of "
            f"{text(each.seam_moment, 'moment', system)}"
        )
    yield "- the gauge of the panel, and a pull test of a clamp on this profile and gauge, up and down"
    yield "- the down load that a clip may carry, where the panel does not bear on the purlin"
    yield "To ask the building's engineer for: drawings of the purlins, and the load that they may carry in addition."
