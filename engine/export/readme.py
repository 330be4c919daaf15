"""The README of an export: what each file is for, and for whom."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping

from engine.comparison.compare import Comparison
from engine.comparison.figures.verdict import verdict_line
from engine.export.readers import DATA
from engine.export.stamp import Stamp

WIDTH = 100

Files = Mapping[str, Mapping[str, str]]
"""Reader → name of a file → its purpose."""


def readme(comparison: Comparison, stamp: Stamp, files: Files) -> str:
    """The README as plain text."""
    return "\n".join(_lines(comparison, stamp, files)) + "\n"


def _lines(comparison: Comparison, stamp: Stamp, files: Files) -> Iterator[str]:
    for name, words in stamp.of(comparison):
        yield from _wrapped(f"{name}: {words}")
    yield ""
    for column in comparison.columns:
        yield from _wrapped(f"{column.title}: {verdict_line(column)}")
    width = max((len(name) for own in files.values() for name in own), default=0)
    for reader, own in files.items():
        yield from ("", f"For the {reader} (--for {reader})" if reader != DATA else "For programs (--for data)")
        for name, purpose in own.items():
            yield from _wrapped(f"  {name.ljust(width)}  {purpose}", " " * (width + 4))
    yield ""
    for words in comparison.cautions:
        yield from _wrapped(words)


def _wrapped(words: str, indent: str = "  ") -> list[str]:
    return textwrap.wrap(words, WIDTH, subsequent_indent=indent)
