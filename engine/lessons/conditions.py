"""Conditions on figures, "methods.rail.overspan > 1", and wordings of which they choose one.

A lesson says only what the figures bear out: each wording names what it relies on, and the first that holds is said.
"""

from __future__ import annotations

import operator
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import isclose
from typing import Any

from engine import units
from engine.lessons.figures import FigureLookup, FigureValue, MissingStepError
from engine.schema import FieldType, TextBlock, as_given

SIGNS: Mapping[str, Callable[[Any, Any], bool]] = {
    ">=": operator.ge,
    "<=": operator.le,
    ">": operator.gt,
    "<": operator.lt,
    "is not": operator.ne,
    "is": operator.eq,
}
_WRITTEN = re.compile(rf"(.+?)\s+({'|'.join(SIGNS)})\s+(.+)")
_NUMBER = re.compile(r"-?\d+(\.\d+)?")
_FIGURE = re.compile(r"((before|first)\.)?(methods|studies|inputs|explain|loads|standard)\.")


@dataclass(frozen=True)
class Condition:
    """A figure, a sign, and what it is compared with: a number, a quantity with its unit, a word, or a figure."""

    figure: str
    sign: str
    other: str

    def holds(self, find_figure: FigureLookup) -> bool:
        """True if it holds; false where a figure has no value.

        Raises:
            ValueError: there is no such figure, or the two cannot be compared.
        """
        figure = find_figure(self.figure)
        other = self._compared_with(figure, find_figure)
        if self.sign not in ("is", "is not"):
            if figure.value is None or other is None:
                return False
            if isinstance(figure.value, str) or isinstance(other, str):
                raise ValueError(f"'{self}' compares words; write 'is' or 'is not'")
        same = isinstance(figure.value, int | float) and isinstance(other, int | float) and isclose(figure.value, other)
        return SIGNS[self.sign](other if same else figure.value, other)

    def _compared_with(self, figure: FigureValue, find_figure: FigureLookup) -> float | str | None:
        if _FIGURE.match(self.other):
            return find_figure(self.other).value
        if isinstance(figure.value, str):
            return self.other
        if self.other == "none":
            return None
        dimension = figure.dimension.removeprefix("small ")
        if dimension in units.UNITS:
            return units.parse(self.other, dimension)
        if not _NUMBER.fullmatch(self.other):
            raise ValueError(f"'{self}' compares a number with '{self.other}'; write a number")
        return float(self.other)

    def __str__(self) -> str:
        return f"{self.figure} {self.sign} {self.other}"


@dataclass(frozen=True)
class Conditions(FieldType):
    """A list of conditions, of which all have to hold."""

    def read(self, written: object) -> tuple[Condition, ...]:
        """The conditions."""
        if not isinstance(written, list | tuple):
            raise ValueError(f"{as_given(written)} given; write {self.allowed}")
        return tuple(self._condition(each) for each in written)

    def _condition(self, written: object) -> Condition:
        found = _WRITTEN.fullmatch(" ".join(written.split())) if isinstance(written, str) else None
        if found is None:
            raise ValueError(f"{as_given(written)} given; write {self.allowed}")
        return Condition(*found.groups())

    @property
    def allowed(self) -> str:
        """The allowed values, in words."""
        return f'a list of figures, each with {", ".join(SIGNS)} and a value, such as ["methods.rail.overspan > 1"]'


@dataclass(frozen=True)
class Wording:
    """A text, and what it relies on."""

    say: str
    when: tuple[Condition, ...] = ()


@dataclass(frozen=True)
class Wordings(FieldType):
    """A text, or a list of texts, each with the conditions under which it is said: the first that holds is."""

    longest: int = 900

    def read(self, written: object) -> tuple[Wording, ...]:
        """The wordings in order."""
        if written in ((), []):
            return ()
        parts = written if isinstance(written, list | tuple) else [{"say": written}]
        if not parts or not all(isinstance(each, Mapping) and each.keys() <= {"say", "when"} for each in parts):
            raise ValueError(f"{as_given(written)} given; write {self.allowed}")
        return tuple(
            Wording(TextBlock(self.longest).read(each.get("say")), Conditions().read(each.get("when", ())))
            for each in parts
        )

    @property
    def allowed(self) -> str:
        """The allowed values, in words."""
        return f'up to {self.longest} characters, or a list of {{ when = ["figure > value"], say = "text" }}'


def not_holding(conditions: Sequence[Condition], find_figure: FigureLookup) -> str:
    """The conditions that do not hold, each with its figure: "methods.rail.overspan > 1, it is 0.85"; else empty.

    A figure that does not exist is no problem after a condition that does not hold: one standard has it, another not.
    A condition on a calculation step does not hold where that step is no part of the calculation.

    Raises:
        ValueError: there is no such figure, or it cannot be compared.
    """
    failing: list[str] = []
    for each in conditions:
        try:
            if not each.holds(find_figure):
                failing.append(f"{each}, it is {find_figure(each.figure).text('us')}")
        except MissingStepError as missing:
            failing.append(f"{each}, {missing}")
        except ValueError:
            if not failing:
                raise
    return "; ".join(failing)


def chosen(wordings: Sequence[Wording], find_figure: FigureLookup) -> str:
    """The first wording whose conditions hold; empty if none is written.

    Raises:
        ValueError: none holds; the message names what each relies on.
    """
    failing = []
    for wording in wordings:
        reason = not_holding(wording.when, find_figure)
        if not reason:
            return wording.say
        failing.append(reason)
    if failing:
        raise ValueError(f"no wording fits this scenario: {' | '.join(failing)}")
    return ""
