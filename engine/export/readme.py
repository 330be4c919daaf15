"""The README of an export: what each file is for, and for whom."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping

from engine.comparison.building_comparison import BuildingComparison
from engine.comparison.compare import Comparison
from engine.comparison.figures.verdict import verdict_line
from engine.export.readers import DATA
from engine.export.stamp import Stamp

WIDTH = 100

Files = Mapping[str, Mapping[str, str]]
"""Reader → name of a file → its purpose."""


def readme(comparison: Comparison, stamp: Stamp, files: Files) -> str:
    """The README of one slope, or of a job with one, as plain text."""
    verdicts = (f"{column.title}: {verdict_line(column)}" for column in comparison.columns)
    return _text(stamp.of(comparison), verdicts, files, comparison.cautions)


def building_readme(building: BuildingComparison, stamp: Stamp, files: Files) -> str:
    """The README of a building of several slopes as plain text."""
    folders = (f"{name}/: the same for slope {name} alone, with sheets and bills" for name in building.names)
    return _text(stamp.of_building(building), (building.answer, "", *folders), files, building.cautions)


def _text(statements: Iterable[tuple[str, str]], about: Iterable[str], files: Files, cautions: Iterable[str]) -> str:
    return "\n".join(_lines(statements, about, files, cautions)) + "\n"


def _lines(
    statements: Iterable[tuple[str, str]], about: Iterable[str], files: Files, cautions: Iterable[str]
) -> Iterator[str]:
    for name, words in statements:
        yield from _wrapped(f"{name}: {words}")
    yield ""
    for words in about:
        yield from _wrapped(words) or [""]
    width = max((len(name) for own in files.values() for name in own), default=0)
    for reader, own in files.items():
        yield from ("", f"For the {reader} (--for {reader})" if reader != DATA else "For programs (--for data)")
        for name, purpose in own.items():
            yield from _wrapped(f"  {name.ljust(width)}  {purpose}", " " * (width + 4))
    yield ""
    for words in cautions:
        yield from _wrapped(words)


def _wrapped(words: str, indent: str = "  ") -> list[str]:
    return textwrap.wrap(words, WIDTH, subsequent_indent=indent)
