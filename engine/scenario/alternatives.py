"""Alternatives: named changes laid over a scenario, each compared beside it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Any

from engine.common.errors import Problem
from engine.scenario.changes import Changes, names_in
from engine.scenario.shelf import USE
from engine.scenario.validation import validated
from engine.schema import FieldType, InputTable, TextLine, as_given, input_field, shortened
from engine.units import quoted

KEY = "alternatives"

AS_STATED = "as stated"
"""Name of the scenario itself among its alternatives."""

MAX_ALTERNATIVES = 20

FIXED = ("format", USE, KEY)
"""Keys of the file as a whole, which no alternative changes."""


@dataclass(frozen=True)
class ChangedInputs(FieldType):
    """A table of inputs by their whole path, `{ "array.rows" = 3 }`; each value replaces the scenario's."""

    def read(self, written: object) -> Changes:
        """Path → value."""
        if not isinstance(written, Mapping):
            raise ValueError(f"{as_given(written)} given; write a table such as {self.example}")
        return {self._path(name, value): value for name, value in written.items()}

    def _path(self, name: str, value: object) -> tuple[str, ...]:
        steps = tuple(step.strip() for step in name.split("."))
        if not all(steps) or (len(steps) == 1 and isinstance(value, Mapping)):
            raise ValueError(f"{as_given(name)} given; write each input's whole path in quotes, such as {self.example}")
        return steps

    @property
    def json_schema(self) -> dict[str, Any]:
        """A table."""
        return {"type": "object"}

    @property
    def allowed(self) -> str:
        """The allowed values, in words."""
        return "inputs, each by its whole path in quotes"

    @property
    def example(self) -> str:
        """An example of such a table."""
        return '{ "array.rows" = 3, "site.wind_speed" = "95 mph" }'


class Alternative(InputTable):
    """`{ name = "rail span", set = { "methods.rail.spacing" = "rail span" } }`."""

    name: Annotated[str, TextLine(40)] = input_field(description="name of the alternative")
    set: Annotated[Changes, ChangedInputs()] = input_field(description="the inputs that differ, by their whole paths")


def alternatives_in(written: Mapping[str, Any], problems: list[Problem]) -> tuple[Alternative, ...]:
    """The alternatives of a file; what is wrong with them is added to the problems."""
    entries = written.get(KEY, ())
    if not isinstance(entries, list | tuple):
        problems.append(Problem(KEY, f"{as_given(entries)} given; write tables [[{KEY}]]"))
        return ()
    found = []
    for number, table in enumerate(entries, 1):
        (name,) = names_in([table]) or [str(number)]
        read = validated(f"{KEY}.{shortened(name)}", Alternative, table, problems)
        found += [read] if read else []
    problems += _problems(found)
    return tuple(found)


def _problems(alternatives: Sequence[Alternative]) -> Iterator[Problem]:
    """Too many alternatives, a name given twice, and changes that belong to the file as a whole."""
    if len(alternatives) > MAX_ALTERNATIVES:
        yield Problem(KEY, f"{len(alternatives)} given; allowed are {MAX_ALTERNATIVES}")
    names = [AS_STATED]
    for each in alternatives:
        if each.name in names:
            yield Problem(f"{KEY}.{each.name}.name", f"{quoted(each.name)} given twice; give each its own name")
        names.append(each.name)
        for path in each.set:
            if path[0] in FIXED:
                yield Problem(
                    f"{KEY}.{each.name}.set", f"{quoted(path[0])} given; an alternative keeps that of its file"
                )


def problem_of(alternative: Alternative, problem: Problem) -> Problem:
    """A problem of the scenario with the changes laid over it, located at the change that it is about, if any."""
    if any(f"{problem.path}.".startswith(f"{'.'.join(path)}.") for path in alternative.set):
        return Problem(f"{KEY}.{alternative.name}.set.{problem.path}", problem.message)
    return Problem(f"{KEY}.{alternative.name}", str(problem))


def stated_alone(written: Mapping[str, Any]) -> dict[str, Any]:
    """A file's tables without its alternatives."""
    return {name: table for name, table in written.items() if name != KEY}
