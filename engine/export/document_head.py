"""The head of a document about a comparison: title, file, version, date, preparer and revision."""

from __future__ import annotations

from collections.abc import Iterator

from engine.comparison.building_comparison import BuildingComparison
from engine.comparison.compare import Comparison
from engine.export.document import Block, Document
from engine.export.stamp import ScenarioFile, Stamp
from engine.scenario.read import Scenario

Statements = tuple[tuple[str, str], ...]

TO_FILL_IN = "____________"
"""A field that nobody has filled in."""


def document_of(
    comparison: Comparison, stamp: Stamp, subtitle: str, blocks: tuple[Block, ...], *, numbered: bool = True
) -> Document:
    """A document about a comparison; `numbered` are its pages."""
    statements = stamp.of(comparison)
    return _document(statements, comparison.scenario, comparison.cautions, stamp, subtitle, blocks, numbered=numbered)


def building_document(
    building: BuildingComparison, stamp: Stamp, subtitle: str, blocks: tuple[Block, ...], *, numbered: bool = True
) -> Document:
    """A document about all slopes of a building."""
    statements, first = stamp.of_building(building), building.slopes[0].scenario
    return _document(statements, first, building.cautions, stamp, subtitle, blocks, numbered=numbered)


def _document(
    statements: Statements,
    scenario: Scenario,
    cautions: tuple[str, ...],
    stamp: Stamp,
    subtitle: str,
    blocks: tuple[Block, ...],
    *,
    numbered: bool,
) -> Document:
    (_, title), *others = statements
    return Document(
        title=title,
        subtitle=subtitle,
        facts=(*others, *_facts(scenario, stamp)),
        cautions=cautions,
        blocks=blocks,
        foot=f"{stamp.made}. {cautions[0]}",
        date=(stamp.date.year, stamp.date.month, stamp.date.day),
        system=stamp.system,
        numbered=numbered,
    )


def _facts(scenario: Scenario, stamp: Stamp) -> Iterator[tuple[str, str]]:
    heading = scenario.job.report
    yield "prepared by", heading.preparer or TO_FILL_IN
    yield "revision", " of ".join(filter(None, (heading.revision or TO_FILL_IN, heading.date)))
    if stamp.file:
        yield from _file(stamp.file)


def _file(file: ScenarioFile) -> Iterator[tuple[str, str]]:
    yield "scenario", file.name
    yield "its SHA-256", file.sha256
    if file.changes:
        yield "changed", "; ".join(file.changes)
