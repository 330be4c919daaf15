"""Choices, words, lines and blocks of text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, ClassVar

from engine.schema.field_type import FieldType, as_given, one_or_several


@dataclass(frozen=True)
class Choice(FieldType):
    """One of a few words."""

    options: tuple[str, ...]

    def read(self, written: object) -> str:
        """The chosen word."""
        if written not in self.options:
            raise ValueError(f"{as_given(written)} given; allowed is {self.allowed}")
        return str(written)

    @property
    def allowed(self) -> str:
        """The options in words."""
        return " or ".join(f"'{option}'" for option in self.options)

    @property
    def json_schema(self) -> dict[str, Any]:
        """One of the words."""
        return {"enum": list(self.options)}


@dataclass(frozen=True)
class Words(FieldType):
    """One word, or a list of words."""

    structured: ClassVar[bool] = True
    example: str = '["up", "down"]'

    def read(self, written: object) -> tuple[str, ...]:
        """The words, at least one."""
        words = written if isinstance(written, list | tuple) else [written]
        if not words or not all(isinstance(word, str) and word.strip() for word in words):
            raise ValueError(f"{as_given(written)} given; write {self.allowed}")
        return tuple(" ".join(str(word).split()) for word in words)

    @property
    def allowed(self) -> str:
        """The words allowed, in words."""
        return f"a word in quotes, or a list such as {self.example}"

    @property
    def json_schema(self) -> dict[str, Any]:
        """A word, or a list of words."""
        return one_or_several({"type": "string"})


@dataclass(frozen=True)
class ModulePlaces(FieldType):
    """Places in an array, each a row and a column in one text: `["3.7", "3.8"]`."""

    most: int = 2000

    def read(self, written: object) -> tuple[tuple[int, int], ...]:
        """Row and column of each place, counted from 1, in rising order, each once."""
        if not isinstance(written, list | tuple):
            raise ValueError(f"{as_given(written)} given; write {self.allowed}")
        if len(written) > self.most:
            raise ValueError(f"{len(written)} places given; allowed are {self.most}")
        places = [re.fullmatch(r"([1-9]\d{0,3})\.([1-9]\d{0,3})", str(place)) for place in written]
        for place, found in zip(written, places, strict=True):
            if found is None or not isinstance(place, str):
                raise ValueError(f"{as_given(place)} given; write {self.allowed}")
        return tuple(sorted({(int(found[1]), int(found[2])) for found in places if found}))

    @property
    def allowed(self) -> str:
        """The places allowed, in words."""
        return 'a list of row.column in quotes, such as ["3.7", "3.8"]'

    @property
    def json_schema(self) -> dict[str, Any]:
        """A list of places."""
        return {"type": "array", "items": {"type": "string", "pattern": r"^[1-9]\d{0,3}\.[1-9]\d{0,3}$"}}


@dataclass(frozen=True)
class Name(FieldType):
    """Name of an entry in a list, by which paths such as `arrays.A.rows` reach it."""

    longest: ClassVar[int] = 40

    def read(self, written: object) -> str:
        """The name as it was written."""
        if not isinstance(written, str) or not re.fullmatch(r"\w[\w -]*", written) or len(written) > self.longest:
            raise ValueError(f"{as_given(written)} given; write {self.allowed}")
        return written

    @property
    def allowed(self) -> str:
        """The names allowed, in words."""
        return f"a name of up to {self.longest} letters, digits, spaces, hyphens and underscores"


@dataclass(frozen=True)
class TextLine(FieldType):
    """One line of free text."""

    longest: int = 200

    def read(self, written: object) -> str:
        """The text as it was written."""
        if not isinstance(written, str):
            raise ValueError(f"{as_given(written)} given; write a line of text in quotes")
        if not written.strip():
            raise ValueError("nothing given; write a line of text in quotes")
        if len(written) > self.longest:
            raise ValueError(f"{len(written)} characters given; allowed are {self.longest}")
        if not written.isprintable():
            raise ValueError("a control character or line break given; write one line of plain text")
        return written

    @property
    def allowed(self) -> str:
        """The texts allowed, in words."""
        return f"up to {self.longest} characters"


@dataclass(frozen=True)
class TextBlock(FieldType):
    """Paragraphs of free text; a blank line begins a new paragraph, other line breaks are ignored."""

    longest: int = 1000

    def read(self, written: object) -> str:
        """The paragraphs, one line each."""
        if not isinstance(written, str) or not written.strip():
            raise ValueError(f"{as_given(written)} given; write a few sentences in quotes")
        if len(written) > self.longest:
            raise ValueError(f"{len(written)} characters given; allowed are {self.longest}")
        paragraphs = [" ".join(part.split()) for part in re.split(r"\n[ \t]*\n", written.strip())]
        if not all(part.isprintable() for part in paragraphs):
            raise ValueError("a control character given; write plain text")
        return "\n".join(filter(None, paragraphs))

    @property
    def allowed(self) -> str:
        """The texts allowed, in words."""
        return f"up to {self.longest} characters"
