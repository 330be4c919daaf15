"""What the tests hold against print: `.venv/bin/python tests/verified.py` writes the table in DEVELOPERS.md anew.

A test says `assert verified("what", printed, ours, "unit") == pytest.approx(…)`; the source is the first line of its module.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

TESTS = Path(__file__).parent
PAGE = TESTS.parent / "DEVELOPERS.md"
BEGIN, END = "<!-- verified: written by tests/verified.py -->", "<!-- verified: end -->"
HEADER = "| what | printed | ours | difference |\n|---|---:|---:|---:|"


@dataclass(frozen=True)
class Row:
    """One figure as its source prints it and as loadpath has it."""

    source: str
    what: str
    printed: float
    ours: float
    unit: str

    def __str__(self) -> str:
        apart = f"{self.ours / self.printed - 1:+.2%}" if self.printed else f"{self.ours:+.2g}"
        unit = f" {self.unit}" if self.unit else ""
        return f"| {self.what} | {self.printed:g}{unit} | {self.ours:.6g}{unit} | {apart} |"


ROWS: list[Row] = []


def verified(what: str, printed: float, ours: float, unit: str = "") -> float:
    """Note a printed figure beside ours; gives ours back, for the test to judge."""
    source = str(sys._getframe(1).f_globals["__doc__"]).splitlines()[0]
    ROWS.append(Row(source, what, float(printed), float(ours), unit))
    return float(ours)


def table(rows: list[Row]) -> str:
    """The rows, source by source."""
    parts = []
    for source in dict.fromkeys(row.source for row in rows):
        parts += [f"\n{source}\n\n{HEADER}", *dict.fromkeys(str(row) for row in rows if row.source == source)]
    return "\n".join([BEGIN, *parts, "", END])


def with_table(page: str, rows: list[Row]) -> str:
    """The page with the table between its two marks."""
    before, after = page.split(BEGIN, maxsplit=1)[0], page.split(END)[1]
    return before + table(rows) + after


def checked() -> list[Row]:
    """What the tests that pass note, in their order."""
    import verified as noted  # noqa: PLC0415  (as the tests import it, not as the command that runs)

    noting = [str(path) for path in sorted((TESTS / "validation").glob("*.py")) if "verified(" in path.read_text(encoding="utf-8")]
    if pytest.main([*noting, "-q", "-p", "no:xdist", "-p", "no:cacheprovider"]) != 0:
        sys.exit("a test fails; nothing was written")
    return noted.ROWS


if __name__ == "__main__":
    text = with_table(PAGE.read_text(encoding="utf-8"), checked())
    if "--check" in sys.argv:
        sys.exit("DEVELOPERS.md: the table is not up to date" if text != PAGE.read_text(encoding="utf-8") else 0)
    PAGE.write_text(text, encoding="utf-8")
