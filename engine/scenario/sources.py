"""Sources beside values: any value may be written `{ value = "115 mph", source = "county map, 2026-05-02" }`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from engine.schema import TextLine

VALUE, SOURCE = "value", "source"

SOURCE_TEXT = TextLine(300)


@dataclass(frozen=True)
class Origin:
    """The origin of a value: its stated source, and the entry of a shelf that it is taken from, if any."""

    source: str = ""
    entry: str = ""
    shelf: str = ""

    @property
    def words(self) -> str:
        """The origin in words: "'M420' in parts.toml: data sheet, rev. C"; "file" without anything."""
        return f"{self.place}: {self.source}" if self.source else self.place

    @property
    def place(self) -> str:
        """The place where it is written: "'M420' in parts.toml"; "file"."""
        return f"'{self.entry}' in {self.shelf}" if self.shelf else "file"


IN_FILE = Origin()


def is_sourced(value: Any) -> bool:
    """True if a value is written as a table of a value and its source."""
    return isinstance(value, Mapping) and VALUE in value and set(value) <= {VALUE, SOURCE}


def without_source(value: Any) -> Any:
    """A value without the source written beside it, if there is one."""
    return value[VALUE] if is_sourced(value) else value


def source_of(value: Mapping[str, Any]) -> str:
    """The source written beside a value, or in an entry of a shelf; empty if there is none.

    Raises:
        ValueError: it is no line of text.
    """
    return SOURCE_TEXT.read(value[SOURCE]) if SOURCE in value else ""
