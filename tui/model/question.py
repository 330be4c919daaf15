"""A quick question as the screen asks it: one field for each value that is needed or has a default."""

from __future__ import annotations

import shlex
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache

from engine.common.errors import InputError, Problem
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.read import Scenario
from engine.scenario.resolve import Origins, Resolved
from engine.studies.quick import Asked, asked_under, named_values, question_scenario
from engine.units import System, quoted
from tui.model.input_field import InputField, input_fields

LABELS = {
    "seams": "seam spacing",
    "purlins": "purlin spacing",
    "slope": "roof slope",
    "height": "roof height",
    "length": "module length",
    "width": "module width",
    "mass": "module mass",
    "wind": "wind speed",
    "snow": "ground snow",
}
"""Labels of fields that say more than their names."""


@dataclass(frozen=True)
class QuestionField:
    """One value of a question: its name, what is asked, and the input of a scenario that it becomes."""

    name: str
    asked: Asked
    input: InputField

    @property
    def label(self) -> str:
        """Its label."""
        return LABELS.get(self.name, self.name.replace("_", " "))

    @property
    def help(self) -> str:
        """Its meaning, its allowed range and its units."""
        return f"{self.asked.description[0].upper()}{self.asked.description[1:]}.{self.input.limits}"

    def hint(self, system: System) -> str:
        """The words in the empty field: its default, its options or its unit."""
        return self.asked.default or " | ".join(self.input.options) or self.input.unit(system)


@cache
def _fields_under(standard: str) -> tuple[QuestionField, ...]:
    """The fields under a load standard: read at every key, and always the same."""
    tables = {"site": {"standard": standard}}
    inputs = {".".join(each.path): each for each in input_fields(tables, {}, Resolved(tables, Origins()))}
    asked = asked_under({"standard": standard}, STANDARDS)
    fields = (QuestionField(name, each, inputs[each.path]) for name, each in asked.items() if not each.is_optional)
    return tuple(sorted(fields, key=lambda field: not field.asked.is_needed))


@dataclass(frozen=True)
class Answers:
    """The texts typed: by the names of fields, and `others` as NAME=VALUE with blanks between."""

    typed: Mapping[str, str] = field(default_factory=dict)
    others: str = ""

    @property
    def standard(self) -> str:
        """The load standard that is chosen, by the beginning of its title; the first one where there is none."""
        typed = self.typed.get("standard", "").strip().lower()
        return next((title for title in STANDARDS if title.lower().startswith(typed)), next(iter(STANDARDS)))

    @property
    def system(self) -> System:
        """The units of the load standard."""
        return STANDARDS[self.standard].system

    def fields(self) -> tuple[QuestionField, ...]:
        """The fields under the load standard that is chosen, those without a default first."""
        return _fields_under(self.standard)

    @property
    def missing(self) -> tuple[QuestionField, ...]:
        """The fields of values that are needed and not given."""
        return tuple(
            each for each in self.fields() if each.asked.is_needed and not self.typed.get(each.name, "").strip()
        )

    def values(self) -> dict[str, str]:
        """All values by name, numbers with the units of their fields.

        Raises:
            InputError: the other values are not written as NAME=VALUE.
        """
        given = {
            each.name: each.input.completed(typed, self.system)
            for each in self.fields()
            if (typed := self.typed.get(each.name, "").strip())
        }
        return given | self._other_values()

    def _other_values(self) -> dict[str, str]:
        try:
            return named_values(shlex.split(self.others))
        except ValueError:
            raise InputError([Problem("also", f"{quoted(self.others)} given; close the quotation mark")]) from None

    def scenario(self) -> Scenario:
        """The scenario of the question.

        Raises:
            InputError: everything that is wrong with the values, by their names.
        """
        return question_scenario(self.values(), METHODS, STANDARDS)
