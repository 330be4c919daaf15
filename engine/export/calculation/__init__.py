"""The calculation for a plan reviewer, as one document."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from engine.common.sentences import capitalized
from engine.comparison.answer import answer_line
from engine.comparison.compare import Comparison
from engine.comparison.permit_checklist import permit_checklist
from engine.export.alternatives_blocks import alternatives_blocks
from engine.export.calculation import appendix, basis, components, influence, methods, snow_and_combinations, wind
from engine.export.calculation.shown_once import ShownOnce
from engine.export.document import Block, Bullets, Contents, Document, Grid, Heading, Words, legend_of_marks
from engine.export.document_head import document_of
from engine.export.method_rows import METHOD_HEADINGS, method_rows
from engine.export.stamp import Stamp
from engine.studies.ways_out import NOTHING_HELPS, WaysOut

SUBTITLE = "Calculation of one solar array on one metal roof along the load path"

READING = (
    "Each method carries the same modules. Wind, snow and weight pass from the module through its clamp, the rail "
    "(rack beam, module frame) and the attachment to the roof panel, the roof's own fastenings and the structure. A "
    "method holds if no component carries more than its {resistance}: the limit of utilisation is 1.00. Loads toward "
    "the roof are positive, uplift is negative. Equations are in the units they are printed in; results are in both "
    "systems. A step that an earlier section shows is not repeated. Marks behind sources: {marks}."
)


def calculation(comparison: Comparison, stamp: Stamp, ways: Sequence[WaysOut] = ()) -> Document:
    """The calculation; each step, input and sentence in it once. `ways`: the ways out of methods that are over."""
    of_parts = parts(comparison, stamp, ways, ShownOnce(stamp.system))
    of_parts["Answer"] = (*of_parts["Answer"], Heading("Contents", 3), Contents())
    return document_of(comparison, stamp, SUBTITLE, numbered(of_parts))


def parts(comparison: Comparison, stamp: Stamp, ways: Sequence[WaysOut], once: ShownOnce) -> dict[str, Iterable[Block]]:
    """The sections of a calculation by their titles; steps that are shown already are left out."""
    return {
        "Answer": _answer(comparison, stamp, ways),
        "Basis": basis.blocks(comparison),
        "Wind": wind.blocks(comparison, stamp, once),
        "Snow, weight and combinations": snow_and_combinations.blocks(comparison, stamp, once),
        "Influence coefficients": influence.blocks(comparison, stamp),
        "Components": components.blocks(comparison, stamp, once),
        "Flags": methods.flags(comparison),
        "Inputs and sources": appendix.blocks(comparison),
        "Plans": methods.plans(comparison, stamp),
    }


def numbered(sections: Mapping[str, Iterable[Block]]) -> tuple[Block, ...]:
    """Sections one after another, with their numbers."""
    return tuple(block for item in enumerate(sections.items(), 1) for block in _section(*item))


def _section(number: int, section: tuple[str, Iterable[Block]]) -> Iterator[Block]:
    """A section with its number, and those of its parts."""
    title, blocks = section
    part = 0
    yield Heading(f"{number} {title}")
    for block in blocks:
        if isinstance(block, Heading) and block.level == 2:
            part += 1
            yield Heading(f"{number}.{part} {block.text}", 2)
        else:
            yield block


def _answer(comparison: Comparison, stamp: Stamp, ways: Sequence[WaysOut]) -> Iterator[Block]:
    yield Words(answer_line(comparison, stamp.system), strong=True)
    yield Grid(METHOD_HEADINGS, method_rows(comparison, stamp.system), numeric=(3, 4, 5), widths=(2, 2, 6, 0, 0, 0))
    for each in ways:
        yield from _ways_out(each, stamp)
    yield from alternatives_blocks(comparison, stamp.system)
    resistance = comparison.scenario.job.words.resistance
    yield Words(READING.format(resistance=resistance, marks=legend_of_marks()), quiet=True)
    yield Heading("Outstanding documents", 3)
    yield Words(
        "Documents that a plan reviewer usually requires first. Ticked: stated in the scenario; the statements are not "
        "checked.",
        quiet=True,
    )
    items = [
        ("☑", f"{item.requirement}: {item.statement}") if item.statement else ("☐", f"{item.requirement} (outstanding)")
        for item in permit_checklist(comparison)
    ]
    yield Grid((), tuple(items), widths=(0, 1))


def _ways_out(found: WaysOut, stamp: Stamp) -> Iterator[Block]:
    """The ways out of one method, each with what comes of it."""
    yield Heading(f"Ways out: {found.column.title}", 3)
    if not found.ways:
        yield Words(NOTHING_HELPS)
        return
    yield Words("With any one of these changes the method is no longer over. Each was computed.", quiet=True)
    yield Bullets(tuple(f"{capitalized(way.text)}: {way.result(found.column, stamp.system)}." for way in found.ways))
