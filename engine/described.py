"""What a person describes: frozen tables whose fields know their unit, range and help.

The same field metadata reads the file, words the complaint and drives the input form.
"""

from __future__ import annotations

import math
import re
from abc import ABC, abstractmethod
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ConfigDict, Field, GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from engine import units


class Described(BaseModel):
    """A table of the scenario file: frozen, and strict about unknown keys."""

    model_config = ConfigDict(frozen=True, extra="forbid", validate_default=True, arbitrary_types_allowed=True)


def entry(default: Any = ..., *, description: str) -> Any:
    """A field of a described table; `default` is written as a person would write it."""
    return Field(default, description=description)


class Kind(ABC):
    """What a field holds: how it is read from what was written, and what is allowed."""

    @abstractmethod
    def read(self, written: object) -> Any:
        """The value, in SI.

        Raises:
            ValueError: one sentence: what was given, what is allowed.

        """

    @property
    @abstractmethod
    def allowed(self) -> str:
        """What may be written, in words."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        def validate(written: object) -> Any:
            try:
                return self.read(written)
            except ValueError as refusal:
                raise PydanticCustomError("loadpath", "{sentence}", {"sentence": str(refusal)}) from None

        return core_schema.no_info_plain_validator_function(validate)


ROUNDING = 1e-9
"""What a quantity may lie beyond its bound, as a part of itself: 120 in is 10 ft, whatever the last bit says."""


@dataclass(frozen=True)
class Quantity(Kind):
    """A number with a unit, written as a string; `low` and `high` are written the same way.

    `shown` is the dimension it is displayed in where that differs ("small length").
    """

    dimension: str
    low: str = ""
    high: str = ""
    shown: str = ""

    def read(self, written: object) -> float:
        """A quantity in SI, within its bounds."""
        if not isinstance(written, str):
            named = f"{units.article(self.dimension)} {self.dimension}"
            raise ValueError(f"{_given(written)} given; write {named} as text with its unit, such as {self.example}")
        value = units.parse(written, self.dimension)
        low, high = self.bounds
        slack = ROUNDING * abs(value)
        if not low - slack <= value <= high + slack:
            raise ValueError(f"'{written.strip()[:60]}' given; allowed is {self.allowed}")
        return value

    @property
    def bounds(self) -> tuple[float, float]:
        """Lowest and highest value allowed, in SI."""
        low = units.parse(self.low, self.dimension) if self.low else -math.inf
        high = units.parse(self.high, self.dimension) if self.high else math.inf
        return low, high

    @property
    def allowed(self) -> str:
        """The range in words."""
        if self.low and self.high:
            return f"{self.low} to {self.high}"
        if self.low or self.high:
            return f"at least {self.low}" if self.low else f"at most {self.high}"
        return f"any {self.dimension}"

    @property
    def example(self) -> str:
        """How such a quantity is written."""
        return units.EXAMPLE[self.dimension]


@dataclass(frozen=True)
class Number(Kind):
    """A plain number within bounds."""

    low: float
    high: float

    def read(self, written: object) -> float:
        """A finite number within its bounds."""
        if isinstance(written, bool) or not isinstance(written, int | float):
            raise ValueError(f"{_given(written)} given; write a number from {self.allowed}")
        if not self.low <= written <= self.high:
            raise ValueError(f"{_given(written)} given; allowed is {self.allowed}")
        return float(written)

    @property
    def allowed(self) -> str:
        """The range in words."""
        return f"{self.low:g} to {self.high:g}"


@dataclass(frozen=True)
class Count(Kind):
    """A whole number within bounds."""

    low: int
    high: int

    def read(self, written: object) -> int:
        """A whole number within its bounds."""
        if isinstance(written, bool) or not isinstance(written, int):
            raise ValueError(f"{_given(written)} given; write a whole number from {self.allowed}")
        if not self.low <= written <= self.high:
            raise ValueError(f"{_given(written)} given; allowed is {self.allowed}")
        return written

    @property
    def allowed(self) -> str:
        """The range in words."""
        return f"{self.low} to {self.high}"


@dataclass(frozen=True)
class Choice(Kind):
    """One of a few words."""

    options: tuple[str, ...]

    def read(self, written: object) -> str:
        """The chosen word."""
        if written not in self.options:
            raise ValueError(f"{_given(written)} given; allowed is {self.allowed}")
        return str(written)

    @property
    def allowed(self) -> str:
        """The options in words."""
        return " or ".join(f"'{option}'" for option in self.options)


@dataclass(frozen=True)
class Words(Kind):
    """A line of text of the user's own."""

    longest: int = 200

    def read(self, written: object) -> str:
        """The text as it was written."""
        if not isinstance(written, str):
            raise ValueError(f"{_given(written)} given; write a line of text in quotes")
        if not written.strip():
            raise ValueError("nothing given; write a line of text in quotes")
        if len(written) > self.longest:
            raise ValueError(f"{len(written)} characters given; allowed are {self.longest}")
        if not written.isprintable():
            raise ValueError("a control character or line break given; write one line of plain text")
        return written

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return f"up to {self.longest} characters"


@dataclass(frozen=True)
class Passage(Kind):
    """A few sentences; a blank line begins a new paragraph, other line breaks do not matter."""

    longest: int = 1000

    def read(self, written: object) -> str:
        """The paragraphs, a line each."""
        if not isinstance(written, str) or not written.strip():
            raise ValueError(f"{_given(written)} given; write a few sentences in quotes")
        if len(written) > self.longest:
            raise ValueError(f"{len(written)} characters given; allowed are {self.longest}")
        paragraphs = [" ".join(part.split()) for part in re.split(r"\n[ \t]*\n", written.strip())]
        if not all(part.isprintable() for part in paragraphs):
            raise ValueError("a control character given; write plain text")
        return "\n".join(filter(None, paragraphs))

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return f"up to {self.longest} characters"


@dataclass(frozen=True)
class Stretch(Kind):
    """A pair of lengths, from and to: `["250 mm", "500 mm"]`."""

    ordered: bool = True
    low: str = "0 mm"
    high: str = "10000 ft"

    def read(self, written: object) -> tuple[float, float]:
        """Two lengths in SI."""
        if not isinstance(written, list | tuple) or len(written) != 2:
            raise ValueError(f"{_given(written)} given; write two lengths, such as {self.example}")
        length = Quantity("length", self.low, self.high)
        first, second = (length.read(item) for item in written)
        if self.ordered and not first < second:
            raise ValueError(f"{_given(written)} given; the second length must be larger than the first")
        return first, second

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return f"two lengths, {self.low} to {self.high}" + (", the second larger" if self.ordered else "")

    @property
    def example(self) -> str:
        """How such a pair is written."""
        return '["250 mm", "500 mm"]'


def _given(written: object) -> str:
    if isinstance(written, str):
        return f"'{written[:60]}'"
    if isinstance(written, bool):
        return str(written).lower()
    if isinstance(written, dict):
        return "a table"
    shown = str(written)
    return shown if len(shown) <= 60 else shown[:57] + "..."
