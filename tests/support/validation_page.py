"""What the tests hold against others' figures: `.venv/bin/python tests/verified.py` writes the tables in DEVELOPERS.md anew.

A test says `assert verified("what", theirs, ours, "unit") == pytest.approx(…)`, or the same of two arrays. The first line of its
docstring, or of its module's, names the kind of evidence and the source: "Printed: A table of …".
"""

from __future__ import annotations

import sys
from dataclasses import dataclass, replace
from pathlib import Path
from types import FrameType
from typing import Any

import numpy as np
import pytest

TESTS = Path(__file__).parents[1]
PAGE = TESTS.parent / "DEVELOPERS.md"
BEGIN, END = "<!-- verified: written by tests/verified.py -->", "<!-- verified: end -->"
HEADER = "| what | theirs | ours | difference |\n|---|---:|---:|---:|"
KINDS = {
    "Printed": "Published print",
    "Library": "Independent libraries and programs",
    "By hand": "By hand",
    "From memory": "From memory",
}
"""First word of a docstring → heading, in the page's order."""
NONE = 1e-6
"""Differences under this part of a figure are rounding, and fall out differently from machine to machine."""


@dataclass(frozen=True)
class Source:
    """Where figures come from: kind of evidence, its name, the test file that holds them."""

    kind: str
    name: str
    file: str


@dataclass(frozen=True)
class Row:
    """One figure as its source has it and as loadpath has it."""

    source: Source
    what: str
    theirs: float
    ours: float
    unit: str

    @property
    def apart(self) -> float:
        """Difference, as a part of their figure; of nothing as it stands."""
        return self.ours / self.theirs - 1 if self.theirs else self.ours

    def __str__(self) -> str:
        apart = f"{self.apart:+z.2%}" if abs(self.apart) > NONE else "none"
        unit = f" {self.unit}" if self.unit else ""
        return f"| {self.what} | {self.theirs:g}{unit} | {self.ours:.6g}{unit} | {apart} |"


ROWS: list[Row] = []


def verified(what: str, theirs: Any, ours: Any, unit: str = "") -> Any:
    """Note a figure, or an array of them, beside ours; gives ours back, for the test to judge."""
    source = source_of(sys._getframe(1))
    for one, other in zip(np.ravel(theirs), np.ravel(ours), strict=True):
        ROWS.append(Row(source, what, float(one), float(other), unit))
    return ours


def source_of(test: FrameType) -> Source:
    """What the test's docstring, or else its module's, says of its source."""
    for said in (test.f_globals[test.f_code.co_name].__doc__, test.f_globals["__doc__"]):
        kind, _, name = str(said).splitlines()[0].partition(": ")
        if kind in KINDS:
            return Source(kind, name, Path(test.f_code.co_filename).name)
    raise ValueError(f"{test.f_code.co_name}: no docstring begins with one of {', '.join(KINDS)}")


def standing_for(alike: list[Row]) -> list[Row]:
    """Of many rows of one name the largest and the one furthest apart."""
    if len(alike) == 1:
        return alike
    largest = max(alike, key=lambda row: abs(row.theirs))
    furthest = max(alike, key=lambda row: abs(row.ours - row.theirs))
    if furthest == largest or abs(furthest.ours - furthest.theirs) <= NONE * abs(largest.theirs):
        named = {largest: "the largest and furthest apart"}
    else:
        named = {largest: "the largest", furthest: "the furthest apart"}
    return [replace(row, what=f"{row.what}, {which} of {len(alike)}") for row, which in named.items()]


def folded(source: Source, rows: list[Row]) -> str:
    """A source's table, to be opened."""
    alike = [[row for row in rows if row.what == what] for what in dict.fromkeys(row.what for row in rows)]
    shown = [row for group in alike for row in standing_for(group)]
    apart = max(abs(row.apart) for row in shown)
    summary = f"{source.name.rstrip('.')}: {len(rows)} figures, at most {apart:.2%} apart"
    place = f"[tests/validation/{source.file}](tests/validation/{source.file})"
    return "\n".join(
        [f"<details><summary>{summary}</summary>", "", place, "", HEADER, *map(str, shown), "", "</details>", ""]
    )


def tables(rows: list[Row]) -> str:
    """The rows, kind by kind and source by source."""
    parts = [BEGIN, ""]
    for kind, heading in KINDS.items():
        parts += [f"#### {heading}", ""]
        for source in dict.fromkeys(row.source for row in rows if row.source.kind == kind):
            parts.append(folded(source, [row for row in rows if row.source == source]))
    return "\n".join([*parts, END])


def with_tables(page: str, rows: list[Row]) -> str:
    """The page with the tables between its two marks."""
    before, after = page.split(BEGIN, maxsplit=1)[0], page.split(END)[1]
    return before + tables(rows) + after


def checked() -> list[Row]:
    """What the tests that pass note, in their order."""
    sys.path.insert(0, str(TESTS))
    from support import validation_page as noted  # noqa: PLC0415, PLW0406  (as the tests import it, not as the command that runs)

    if pytest.main([str(TESTS / "validation"), "-q", "-p", "no:xdist", "-p", "no:cacheprovider"]) != 0:
        sys.exit("a test fails; nothing was written")
    return noted.ROWS


if __name__ == "__main__":
    text = with_tables(PAGE.read_text(encoding="utf-8"), checked())
    if "--check" in sys.argv:
        sys.exit("DEVELOPERS.md: the tables are not up to date" if text != PAGE.read_text(encoding="utf-8") else 0)
    PAGE.write_text(text, encoding="utf-8")
