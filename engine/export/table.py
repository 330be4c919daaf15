"""A table on its way out: headings with units, and rows of plain values. Sheets, CSV and pages are made from it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.units import SHOWN, System, number, unit

Cell = float | int | str | None


@dataclass(frozen=True)
class Heading:
    """A column: its words with the unit, and how many decimals its numbers are shown with (None: words or whole numbers)."""

    title: str
    decimals: int | None = None


@dataclass(frozen=True)
class Subject:
    """A table under a name; numbers are unrounded."""

    name: str
    headings: tuple[Heading, ...]
    rows: Sequence[Sequence[Cell]]

    def only(self, *titles: str) -> Subject:
        """Some of its columns."""
        kept = [place for place, heading in enumerate(self.headings) if heading.title in titles]
        return Subject(
            self.name,
            tuple(self.headings[place] for place in kept),
            [[row[place] for place in kept] for row in self.rows],
        )


def measured(words: str, dimension: str, system: System) -> Heading:
    """The heading of a column of one dimension."""
    shown, decimals = SHOWN[dimension][system]
    return Heading(f"{words} [{shown}]" if shown else words, decimals)


def figure(value: float | None, dimension: str, system: System) -> float | None:
    """An SI value as the bare number such a column holds."""
    return None if value is None else number(float(value), dimension, system)


def unit_and_figures(dimension: str, system: System, *values: float | None) -> tuple[Cell, ...]:
    """Values of a dimension that only their row knows, behind their unit."""
    return unit(dimension, system), *(figure(value, dimension, system) for value in values)
