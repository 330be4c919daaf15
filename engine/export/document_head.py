"""The head of a document about a comparison: title, file, version, date, preparer and revision."""

from __future__ import annotations

from collections.abc import Iterator

from engine.comparison.compare import Comparison
from engine.export.document import Block, Document
from engine.export.stamp import ScenarioFile, Stamp

TO_FILL_IN = "____________"
"""A field that nobody has filled in."""


def document_of(
    comparison: Comparison, stamp: Stamp, subtitle: str, blocks: tuple[Block, ...], *, numbered: bool = True
) -> Document:
    """A document about a comparison; `numbered` are its pages."""
    return Document(
        title=comparison.title,
        subtitle=subtitle,
        facts=tuple(_facts(comparison, stamp)),
        cautions=comparison.cautions,
        blocks=blocks,
        foot=f"{stamp.made}. {comparison.cautions[0]}",
        date=(stamp.date.year, stamp.date.month, stamp.date.day),
        system=stamp.system,
        numbered=numbered,
    )


def _facts(comparison: Comparison, stamp: Stamp) -> Iterator[tuple[str, str]]:
    heading = comparison.scenario.job.report
    yield from stamp.of(comparison)[1:]
    yield "prepared by", heading.preparer or TO_FILL_IN
    yield "revision", " of ".join(filter(None, (heading.revision or TO_FILL_IN, heading.date)))
    if stamp.file:
        yield from _file(stamp.file)


def _file(file: ScenarioFile) -> Iterator[tuple[str, str]]:
    yield "scenario", file.name
    yield "its SHA-256", file.sha256
    if file.changes:
        yield "changed", "; ".join(file.changes)
