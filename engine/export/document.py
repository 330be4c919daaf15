"""A document as data: its title and its blocks in reading order. HTML and PDF are made from the same one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from engine.common.calculation import CalculationStep, Confidence, Reference
from engine.explain.print import in_its_unit, in_other_system, in_system
from engine.units import System


@dataclass(frozen=True)
class Heading:
    """A heading; its number is part of the text. Level 1 and 2 are listed in the contents; `new_page` begins a page."""

    text: str
    level: int = 1
    new_page: bool = False
    kind: ClassVar[str] = "heading"

    @property
    def anchor(self) -> str:
        """Its name as the target of a link in the page."""
        return "".join(letter if letter.isalnum() else "-" for letter in self.text.lower())


@dataclass(frozen=True)
class Words:
    """A paragraph: `strong` for the answer, `quiet` for remarks on how to read what follows."""

    text: str
    strong: bool = False
    quiet: bool = False
    kind: ClassVar[str] = "words"


@dataclass(frozen=True)
class Bullets:
    """A list of short statements."""

    items: tuple[str, ...]
    kind: ClassVar[str] = "bullets"


@dataclass(frozen=True)
class Blanks:
    """Lines to be filled in by hand, by their labels."""

    labels: tuple[str, ...]
    kind: ClassVar[str] = "blanks"


@dataclass(frozen=True)
class Grid:
    """A table of text. `numeric` are the numbers of right-aligned columns, `marked` those of rows in bold type.

    `widths` are shares of the page for each column; 0 is as wide as its text. Without headings it has none. On a sheet
    to print, columns of `boxes` are ticked and those in `to_fill` have room to write by hand.
    """

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numeric: tuple[int, ...] = ()
    marked: tuple[int, ...] = ()
    widths: tuple[int, ...] = ()
    boxes: tuple[int, ...] = ()
    to_fill: tuple[int, ...] = ()
    kind: ClassVar[str] = "grid"


def side_by_side(rows: Sequence[tuple[str, ...]]) -> tuple[tuple[str, ...], ...]:
    """Rows of a table in two halves, the second beside the first."""
    half = (len(rows) + 1) // 2
    filled = [*rows, *([("",) * len(rows[0])] if len(rows) % 2 else [])]
    return tuple((*left, *right) for left, right in zip(filled[:half], filled[half:], strict=True))


@dataclass(frozen=True)
class StepLine:
    """One step of a calculation as it is printed; `beside` is its result in the other system of units."""

    symbol: str
    result: str
    beside: str
    meaning: str
    equation: str
    values: tuple[str, ...]
    source: str


@dataclass(frozen=True)
class Steps:
    """Steps of a calculation, from the loads to the result."""

    lines: tuple[StepLine, ...]
    kind: ClassVar[str] = "steps"


@dataclass(frozen=True)
class Drawing:
    """A drawing as SVG; `landscape` gives it a page of its own, `rest_of_page` all room that is left on the page."""

    svg: str
    caption: str = ""
    landscape: bool = False
    rest_of_page: bool = False
    kind: ClassVar[str] = "drawing"


@dataclass(frozen=True)
class Contents:
    """The list of headings, with their pages in print."""

    kind: ClassVar[str] = "contents"


Block = Heading | Words | Bullets | Blanks | Grid | Steps | Drawing | Contents


@dataclass(frozen=True)
class Document:
    """A document of one job: what stands at its head, and its blocks.

    `facts` are statements by name, `foot` is the line at the foot of every page. `system` sets the size of the paper.
    """

    title: str
    subtitle: str
    facts: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    blocks: tuple[Block, ...]
    foot: str
    date: tuple[int, int, int]
    system: System
    numbered: bool = True

    @property
    def headings(self) -> tuple[Heading, ...]:
        """The headings that the contents list."""
        return tuple(block for block in self.blocks if isinstance(block, Heading) and block.level <= 2)


def steps_block(steps: Sequence[CalculationStep], system: System) -> Steps:
    """Steps as they are printed: in the units of their equations, in SI where any units will do and SI is shown."""
    return Steps(tuple(_line(in_system(step, system), system) for step in steps))


def _line(step: CalculationStep, system: System) -> StepLine:
    return StepLine(
        step.symbol,
        in_its_unit(step.result, system),
        in_other_system(step.result, system),
        step.meaning,
        step.equation,
        tuple(f"{name} = {in_its_unit(term, system)}" for name, term in step.terms.items()),
        _source(step.reference),
    )


MARKS = {
    Confidence.SEVERAL: "s",
    Confidence.SINGLE: "1",
    Confidence.MEMORY: "m",
    Confidence.PRACTICE: "p",
    Confidence.CHOICE: "c",
}
"""Marks behind a source, by how well it is confirmed; the others speak for themselves."""


def _source(reference: Reference) -> str:
    mark = MARKS.get(reference.confidence)
    return f"{reference} ({mark})" if mark and str(reference) else str(reference) or str(reference.confidence)


def legend_of_marks() -> str:
    """The marks behind sources, in words."""
    return ", ".join(f"({mark}) {confidence}" for confidence, mark in MARKS.items())
