"""Figures by name: the path to a value in the JSON record, such as "methods.rail.attachments"."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from engine import units
from engine.scenario.validation import describe_unknown
from engine.units import System

_ENDINGS = {
    "_n_per_m": "line load",
    "_n": "force",
    "_m": "length",
    "_pa": "pressure",
    "_w": "power",
    "_kg": "mass",
    "_hours": "time",
    "_cost": "money",
    "_per_watt": "unit price",
    "price": "money",
}
"""Ending of a name → dimension of its value; other whole numbers are counts, other numbers ratios."""

SHOWN_OF_LINK = "utilisation"
"""Meaning of a link of a method that is named alone; links of a study are plain utilisations."""

_DIMENSIONS = {unit: dimension for dimension, unit in units.SI.items()}
_NAMED = re.compile(r"\{([^{}]*)\}")


@dataclass(frozen=True)
class FigureValue:
    """A value in SI with its dimension; words have no dimension, a missing value is None.

    `written`: an input as its file has it.
    """

    value: float | str | None
    dimension: str = ""
    written: str = ""

    def text(self, system: System) -> str:
        """The value as every screen, table and file shows it; an input as written, if its unit is of that system."""
        if isinstance(self.value, str):
            return self.value
        if self.written:
            return units.in_system(self.written, self.dimension, system)
        return units.text(self.value, self.dimension, system)

    def unit(self, system: System) -> str:
        """The unit in which it is shown."""
        return units.unit(self.dimension, system) if self.dimension else ""


class MissingStepError(ValueError):
    """A step that is no part of a calculation here: which ones are depends on the governing load."""


FigureLookup = Callable[[str], FigureValue]
"""Returns the figure of a name, or raises ValueError with a sentence that says why there is none."""


def find_figure(tables: Mapping[str, Any], name: str) -> FigureValue:
    """The figure of a name; an entry of a list is named by its first value ("methods.rail", "links.clamp").

    Raises:
        ValueError: there is no such figure, or more than one; the message says what there is instead.
    """
    table, here, gone = tables, tables, ""
    for step in name.split("."):
        entries = _entries(here)
        if not entries and gone and not isinstance(here, Mapping | list):
            raise ValueError(
                f"there is no figure '{name[:80]}': {gone} is one figure by itself, leave .{step[:40]} out"
            )
        if step not in entries:
            raise ValueError(
                f"there is no figure '{name[:80]}': {f'in {gone} ' if gone else ''}'{step[:40]}' is "
                f"{describe_unknown(step, tuple(entries))}"
            )
        table, here, gone = here, entries[step], f"{gone}.{step}".lstrip(".")
    entries = _entries(here)
    if entries or isinstance(here, Mapping | list):
        hint = f"add .{SHOWN_OF_LINK}" if SHOWN_OF_LINK in entries else ", ".join(entries) or "it is empty"
        raise ValueError(f"'{name[:80]}' is not a single figure: {hint}"[:300])
    return FigureValue(here, "" if isinstance(here, str) else _dimension(table, name.rpartition(".")[2], here))


def _entries(here: Any) -> Mapping[str, Any]:
    if isinstance(here, list | tuple):
        named = all(isinstance(entry, Mapping) for entry in here)
        return {
            str(next(iter(entry.values()))) if named else str(number): entry for number, entry in enumerate(here, 1)
        }
    return here if isinstance(here, Mapping) else {}


def _dimension(table: Any, name: str, value: float | None) -> str:
    beside = table if isinstance(table, Mapping) else {}
    if name in ("demand", "resistance"):
        return _DIMENSIONS[beside["unit"]]
    if name == "value" and "quantity" in beside:
        return str(beside["quantity"])
    of_ending = (dimension for ending, dimension in _ENDINGS.items() if name.endswith(ending))
    return next(of_ending, "count" if isinstance(value, int) else "ratio")


def names_in(words: str) -> list[str]:
    """Names of the figures in braces in a text."""
    return _NAMED.findall(words)


def fill_in(words: str, find_figure: FigureLookup, system: System) -> str:
    """The text with every figure in braces filled in."""
    return _NAMED.sub(lambda named: find_figure(named[1]).text(system), words)
