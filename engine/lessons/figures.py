"""Figures by name: the way to a value in what JSON shows, such as "methods.rail.attachments"."""

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
"""What a name's ending says its value is; the others are counts where whole, ratios where not."""

_DIMENSIONS = {unit: dimension for dimension, unit in units.SI.items()}
_NAMED = re.compile(r"\{([^{}]*)\}")


@dataclass(frozen=True)
class FigureValue:
    """A value in SI, and what it is of; words have no dimension, None is not to be had."""

    value: float | str | None
    dimension: str = ""

    def text(self, system: System) -> str:
        """As every screen, table and file shows it."""
        return self.value if isinstance(self.value, str) else units.text(self.value, self.dimension, system)

    def unit(self, system: System) -> str:
        """The unit it is shown in."""
        return units.unit(self.dimension, system) if self.dimension else ""


FigureLookup = Callable[[str], FigureValue]
"""Gives the figure of a name, or raises ValueError with the sentence that says why there is none."""


def find_figure(tables: Mapping[str, Any], name: str) -> FigureValue:
    """The figure a name leads to; in a list, an entry is called by its first value ("methods.rail", "links.clamp").

    Raises:
        ValueError: it leads nowhere, or to more than one figure; what there is instead.
    """
    table, here, gone = tables, tables, ""
    for step in name.split("."):
        entries = _influence_entries(here)
        if step not in entries:
            raise ValueError(
                f"there is no figure '{name[:80]}': {f'in {gone} ' if gone else ''}'{step[:40]}' is {describe_unknown(step, tuple(entries))}"
            )
        table, here, gone = here, entries[step], f"{gone}.{step}".lstrip(".")
    if _influence_entries(here) or isinstance(here, Mapping | list):
        raise ValueError(
            f"'{name[:80]}' is no single figure: {', '.join(_influence_entries(here)) or 'it is empty'}"[:300]
        )
    return FigureValue(here, "" if isinstance(here, str) else _dimension(table, name.rpartition(".")[2], here))


def _influence_entries(here: Any) -> Mapping[str, Any]:
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
    """The figures that words name in braces."""
    return _NAMED.findall(words)


def fill_in(words: str, find_figure: FigureLookup, system: System) -> str:
    """Words with every figure they name in braces put in its place."""
    return _NAMED.sub(lambda named: find_figure(named[1]).text(system), words)
