"""One figure of every method: how it is found, shown, and told apart from an earlier one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from engine.comparison.compare import Column
from engine.units import System, text

Value = float | str | None


@dataclass(frozen=True)
class Row:
    """One figure for each method: its group, name, dimension, where it is found, and what it means.

    `key` is the name of its story and in JSON: a method's key, or a link's id; empty where it has neither.
    """

    group: str
    label: str
    dimension: str
    value: Callable[[Column], Value]
    help: str
    key: str = ""

    def cell(self, column: Column, system: System) -> str:
        """The figure as every screen and table shows it; a dash where there is none."""
        value = self.value(column)
        if isinstance(value, str):
            return value or "–"
        return text(value, self.dimension, system)

    def change(self, column: Column, before: Column | None, system: System) -> str:
        """How the figure differs from an earlier column's, with a sign and a word; "same" where it does not."""
        if before is None:
            return "new"
        return change(self.value(column), self.value(before), self.dimension, system)


def change(now: Value, before: Value, dimension: str, system: System) -> str:
    """How one figure differs from an earlier one: "+32 more", "−0.10 less", "was OVER", "same"."""
    if now == before:
        return "same"
    if isinstance(now, str | None) or isinstance(before, str | None):
        return f"was {before if isinstance(before, str) else text(before, dimension, system)}"
    size = text(abs(now - before), dimension, system)
    if size == text(0.0, dimension, system):
        return "nearly the same"
    return f"+{size} more" if now > before else f"−{size} less"


def by_group(rows: Sequence[Row]) -> Iterator[tuple[str, tuple[Row, ...]]]:
    """The rows under their groups, both in reading order."""
    for group, members in groupby(rows, key=lambda row: row.group):
        yield group, tuple(members)
