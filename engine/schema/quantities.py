"""Quantities with their units, plain numbers, counts, and lists and pairs of lengths."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, ClassVar

from engine import units
from engine.common.tolerances import SAME_RATIO
from engine.schema.field_type import FieldType, as_given, one_or_several


@dataclass(frozen=True)
class Quantity(FieldType):
    """A number with a unit, written as text; `low` and `high` are written the same way.

    `shown` is the dimension of its display where that differs ("small length").
    """

    dimension: str
    low: str = ""
    high: str = ""
    shown: str = ""

    def read(self, written: object) -> float:
        """A quantity in SI, within its bounds."""
        if not isinstance(written, str):
            named = f"{units.article(self.dimension)} {self.dimension}"
            raise ValueError(f"{as_given(written)} given; write {named} as text with its unit, such as {self.example}")
        value = units.parse(written, self.dimension)
        low, high = self.bounds
        slack = SAME_RATIO * abs(value)  # 120 in is 10 ft, but differs in the last bit
        if not low - slack <= value <= high + slack:
            allowed = units.in_words_of(units.system_of(written, "us"), self.allowed, self.dimension)
            raise ValueError(f"{as_given(written)} given; allowed is {allowed}")
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
    def json_schema(self) -> dict[str, Any]:
        """Text, with an example."""
        return {"type": "string", "examples": [self.example]}

    @property
    def example(self) -> str:
        """An example of such a quantity."""
        return units.EXAMPLE[self.dimension]


@dataclass(frozen=True)
class Number(FieldType):
    """A plain number within bounds."""

    low: float
    high: float

    def read(self, written: object) -> float:
        """A finite number within its bounds."""
        if isinstance(written, bool) or not isinstance(written, int | float):
            raise ValueError(f"{as_given(written)} given; write a number from {self.allowed}")
        if not self.low <= written <= self.high:
            raise ValueError(f"{as_given(written)} given; allowed is {self.allowed}")
        return float(written)

    @property
    def allowed(self) -> str:
        """The range in words."""
        return f"{self.low:.10g} to {self.high:.10g}"

    @property
    def json_schema(self) -> dict[str, Any]:
        """A number within its bounds."""
        return {"type": "number", "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True)
class Count(FieldType):
    """A whole number within bounds."""

    low: int
    high: int

    def read(self, written: object) -> int:
        """A whole number within its bounds."""
        if isinstance(written, bool) or not isinstance(written, int):
            raise ValueError(f"{as_given(written)} given; write a whole number from {self.allowed}")
        if not self.low <= written <= self.high:
            raise ValueError(f"{as_given(written)} given; allowed is {self.allowed}")
        return written

    @property
    def allowed(self) -> str:
        """The range in words."""
        return f"{self.low} to {self.high}"

    @property
    def json_schema(self) -> dict[str, Any]:
        """A whole number within its bounds."""
        return {"type": "integer", "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True)
class LengthRange(FieldType):
    """A pair of lengths, from and to: `["250 mm", "500 mm"]`."""

    ordered: bool = True
    low: str = "0 mm"
    high: str = "10000 ft"

    def read(self, written: object) -> tuple[float, float]:
        """Two lengths in SI."""
        if not isinstance(written, list | tuple) or len(written) != 2:
            raise ValueError(f"{as_given(written)} given; write two lengths, such as {self.example}")
        length = Quantity("length", self.low, self.high)
        first, second = (length.read(item) for item in written)
        if self.ordered and not first < second:
            raise ValueError(f"{as_given(written)} given; the second length must be larger than the first")
        return first, second

    @property
    def allowed(self) -> str:
        """The values allowed, in words."""
        return f"two lengths, {self.low} to {self.high}" + (", the second larger" if self.ordered else "")

    @property
    def example(self) -> str:
        """An example of such a pair."""
        return '["250 mm", "500 mm"]'

    @property
    def json_schema(self) -> dict[str, Any]:
        """Two texts."""
        return {"type": "array", "items": {"type": "string"}, "minItems": 2, "maxItems": 2}


@dataclass(frozen=True)
class Lengths(FieldType):
    """Lengths one after another: `"25 ft"`, `["20 ft", "25 ft"]` or `"20 ft, 25 ft"`.

    `rising`: they are distances from one place, each larger than the one before it, and there may be none.
    """

    structured: ClassVar[bool] = True
    low: str = "1 ft"
    high: str = "100 ft"
    rising: bool = False

    def read(self, written: object) -> tuple[float, ...]:
        """The lengths in SI."""
        parts = written.split(",") if isinstance(written, str) else written
        if not isinstance(parts, list | tuple) or not (parts or self.rising):
            raise ValueError(f"{as_given(written)} given; write a length or a list of lengths, such as {self.example}")
        length = Quantity("length", self.low, self.high)
        found = tuple(length.read(part.strip() if isinstance(part, str) else part) for part in parts)
        if self.rising and any(second <= first for first, second in pairwise(found)):
            raise ValueError(f"{as_given(written)} given; each length must be larger than the one before it")
        return found

    @property
    def allowed(self) -> str:
        """The values allowed, in words."""
        rising = ", each larger than the one before it" if self.rising else ""
        return f"one length or several, {self.low} to {self.high} each{rising}"

    @property
    def example(self) -> str:
        """An example of such lengths."""
        return '["20 ft", "40 ft"]' if self.rising else '["20 ft", "25 ft", "20 ft"]'

    @property
    def json_schema(self) -> dict[str, Any]:
        """A text, or a list of texts."""
        return one_or_several({"type": "string"})
