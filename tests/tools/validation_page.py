"""Write `.docs/validation.md`: every figure that `tests/validation` compares.

    .venv/bin/python tests/tools/validation_page.py [--check]

Runs those tests, the frame library's among them (install ".[test,beams]"). With `--check` nothing is written: the exit
code is 1 where the page is not what the tests note today.
"""

from __future__ import annotations

import argparse
import sys
from dataclasses import replace
from importlib.util import find_spec
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
sys.path.append(str(ROOT / "tests"))

from support import published
from support.published import ComparedFigure, Source

VALIDATION = ROOT / "tests" / "validation"
PAGE = ROOT / ".docs" / "validation.md"
INTRODUCTION = """\
# Figures held against others'

Every figure that `tests/validation/` compares with somebody else's. `.venv/bin/python tests/tools/validation_page.py`
writes this page once the tests pass; do not edit it by hand. The first line of a test's docstring, or of its file's,
names the kind of evidence and the source. The permitted difference, and why, is beside each test. Of many figures with
one name two are shown. A difference of none is under a millionth.
"""
HEADER = "| figure | theirs | ours | difference |\n|---|---:|---:|---:|"
ROUNDING = 1e-6
"""Differences under this part of a figure are rounding, and vary from machine to machine."""


def table_row(figure: ComparedFigure) -> str:
    """One figure as a row of a table."""
    difference = f"{figure.difference:+z.2%}" if abs(figure.difference) > ROUNDING else "none"
    unit = f" {figure.unit}" if figure.unit else ""
    return f"| {figure.what} | {figure.theirs:g}{unit} | {figure.ours:.6g}{unit} | {difference} |"


def representatives(alike: list[ComparedFigure]) -> list[ComparedFigure]:
    """Of many figures with one name the largest and the one furthest apart."""
    if len(alike) == 1:
        return alike
    largest = max(alike, key=lambda figure: abs(figure.theirs))
    furthest = max(alike, key=lambda figure: abs(figure.ours - figure.theirs))
    if furthest == largest or abs(furthest.ours - furthest.theirs) <= ROUNDING * abs(largest.theirs):
        named = {largest: "the largest and furthest apart"}
    else:
        named = {largest: "the largest", furthest: "the furthest apart"}
    return [replace(figure, what=f"{figure.what}, {which} of {len(alike)}") for figure, which in named.items()]


def section(source: Source, figures: list[ComparedFigure]) -> str:
    """A source's table, folded."""
    names = dict.fromkeys(figure.what for figure in figures)
    shown = [
        figure for name in names for figure in representatives([figure for figure in figures if figure.what == name])
    ]
    largest = max(abs(figure.difference) for figure in shown)
    summary = f"{source.name.rstrip('.')}: {len(figures)} figures, at most {largest:.2%} apart"
    place = f"[tests/validation/{source.file}](../tests/validation/{source.file})"
    lines = [f"<details><summary>{summary}</summary>", "", place, "", HEADER, *map(table_row, shown), "", "</details>"]
    return "\n".join([*lines, ""])


def page(figures: list[ComparedFigure]) -> str:
    """The whole page, kind by kind and source by source."""
    parts = [INTRODUCTION]
    for kind, heading in published.KINDS.items():
        parts.append(f"## {heading}\n")
        for source in dict.fromkeys(figure.source for figure in figures if figure.source.kind == kind):
            parts.append(section(source, [figure for figure in figures if figure.source == source]))
    return "\n".join(parts)


def noted_by_tests() -> list[ComparedFigure]:
    """The figures noted by the validation tests, in order; ends the process where one fails or a file notes none."""
    if not find_spec("Pynite"):
        sys.exit('the frame library is not installed: pip install --editable ".[test,beams]"')
    if pytest.main([str(VALIDATION), "-q", "-p", "no:xdist", "-p", "no:cacheprovider"]) != 0:
        sys.exit("a test fails; nothing was written")
    silent = {path.name for path in VALIDATION.glob("test_*.py")} - {each.source.file for each in published.FIGURES}
    if silent:
        sys.exit(f"no figure was noted by {', '.join(sorted(silent))}")
    return published.FIGURES


def main() -> None:
    """Write the page, or say whether it is up to date."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true", help="write nothing; fail where the page is not up to date")
    check = parser.parse_args().check
    text = page(noted_by_tests())
    if not check:
        PAGE.write_text(text, encoding="utf-8")
    elif not PAGE.exists() or PAGE.read_text(encoding="utf-8") != text:
        sys.exit(f"{PAGE.relative_to(ROOT)} is not up to date: run this without --check")


if __name__ == "__main__":
    main()
