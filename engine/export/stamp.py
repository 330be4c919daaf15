"""The stamp of every output: job, standard, version, date, units."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from engine import __version__
from engine.comparison.compare import Column, Comparison, standard_line
from engine.comparison.figures.verdict import verdict_line
from engine.units import System

UNITS: dict[System, str] = {"us": "US customary (ft, in, lb, psf)", "si": "SI (m, mm, kN, kPa)"}


@dataclass(frozen=True)
class Stamp:
    """The date, given by the caller, and the units shown."""

    date: datetime.date
    system: System = "us"
    version: str = f"loadpath {__version__}"

    @property
    def made(self) -> str:
        """Version and date, in one line."""
        return f"{self.version}, {self.date.isoformat()}"

    def of(self, comparison: Comparison) -> tuple[tuple[str, str], ...]:
        """Statements about an output by name; the title comes first."""
        return (
            ("title", comparison.title),
            ("standard", standard_line(comparison.scenario)),
            ("made with", self.version),
            ("date", self.date.isoformat()),
            ("units", UNITS[self.system]),
        )

    def of_method(self, comparison: Comparison, column: Column) -> tuple[tuple[str, str], ...]:
        """Statements about the output of one method, with its verdict and the cautions."""
        title, *others = self.of(comparison)
        return (
            title,
            ("method", column.title),
            ("verdict", verdict_line(column)),
            *others,
            *(("caution", words) for words in comparison.cautions),
        )


def harmless(words: str) -> str:
    """Text for a CSV file that no spreadsheet takes for a formula."""
    return f"'{words}" if words[:1] in ("=", "+", "-", "@", "\t", "\r") else words
