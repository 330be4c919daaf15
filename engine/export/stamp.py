"""The stamp of every output: job, standard, version, date, units."""

from __future__ import annotations

import datetime
import hashlib
from collections.abc import Iterable
from dataclasses import dataclass

from engine import __version__
from engine.comparison.building_comparison import BuildingComparison
from engine.comparison.compare import Column, Comparison, standard_line
from engine.comparison.figures.verdict import verdict_line
from engine.units import System, feet_and_inches, text

UNITS: dict[System, str] = {"us": "US customary (ft, in, lb, psf)", "si": "SI (m, mm, kN, kPa)"}


@dataclass(frozen=True)
class ScenarioFile:
    """The file that a scenario was read from: its name, the SHA-256 of its text, and the inputs changed since."""

    name: str
    sha256: str
    changes: tuple[str, ...] = ()

    @classmethod
    def of_text(cls, name: str, text: str, changes: Iterable[str] = ()) -> ScenarioFile:
        """The file of a text in UTF-8, with line feeds as ends of lines; a name may be in no encoding at all."""
        digest = hashlib.sha256(text.encode()).hexdigest()
        return cls(_encodable(name), digest, tuple(map(_encodable, changes)))


def _encodable(words: str) -> str:
    """Words with a mark for every character that UTF-8 does not have, as a name from a system may contain."""
    return words.encode(errors="replace").decode()


@dataclass(frozen=True)
class Stamp:
    """The date, given by the caller, the units shown, and the file it is about, where there is one.

    `both_systems`: on sheets that show them side by side; `feet_and_inches`: lengths on drawings, in US units.
    """

    date: datetime.date
    system: System = "us"
    version: str = f"loadpath {__version__}"
    both_systems: bool = False
    feet_and_inches: bool = False
    file: ScenarioFile | None = None

    @property
    def made(self) -> str:
        """Version and date, in one line."""
        return f"{self.version}, {self.date.isoformat()}"

    def length(self, metres: float) -> str:
        """A length on a drawing: in feet and inches or with decimals, as set."""
        in_inches = self.feet_and_inches and self.system == "us"
        return feet_and_inches(metres) if in_inches else text(metres, "length", self.system)

    def of(self, comparison: Comparison) -> tuple[tuple[str, str], ...]:
        """Statements about an output by name; the title comes first."""
        return (
            ("title", comparison.title),
            ("standard", standard_line(comparison.scenario)),
            ("made with", self.version),
            ("date", self.date.isoformat()),
            ("units", " and ".join(UNITS.values()) if self.both_systems else UNITS[self.system]),
        )

    def of_building(self, building: BuildingComparison) -> tuple[tuple[str, str], ...]:
        """Statements about an output of all slopes of a building by name; the title comes first."""
        return ("title", building.title), *self.of(building.slopes[0])[1:]

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


FORMULA_SIGNS = "=+-@＝＋－＠"
"""Signs with which a formula begins in some spreadsheet."""


def harmless(words: str) -> str:
    """Text for a CSV file that no spreadsheet takes for a formula."""
    return f"'{words}" if words and words[0] in f"{FORMULA_SIGNS}\t\r\n" else words
