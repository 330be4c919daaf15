"""Validation of written tables: all problems at once, each with its path, in one sentence."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping
from typing import Any, TypeVar

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from engine.common.errors import Problem
from engine.schema import InputTable, as_given
from engine.strength import BASIS_TITLES

Table = TypeVar("Table", bound=InputTable)


def top_level_problems(written: Mapping[str, Any], allowed: tuple[str, ...], version: int) -> Iterator[Problem]:
    """Unknown keys of a file, and a format of another version."""
    for key in written:
        if key not in allowed:
            yield Problem(key, describe_unknown(key, allowed))
    if written.get("format") != version or not isinstance(written.get("format"), int) or written["format"] is True:
        found = f"{as_given(written['format'])} given" if "format" in written else "missing"
        yield Problem("format", f"{found}; this version reads format = {version}")


def validated(path: str, model: type[Table], table: Any, problems: list[Problem]) -> Table | None:
    """A written table as its model; None if it has problems, which are added to `problems` with their paths."""
    if not isinstance(table, Mapping):
        problems.append(Problem(path, f"{as_given(table)} given; write a table [{path}]"))
        return None
    try:
        return model.model_validate(table)
    except ValidationError as refused:
        problems += [_problem(path, model, error) for error in refused.errors(include_url=False)]
        return None


def _problem(table: str, model: type[InputTable], error: ErrorDetails) -> Problem:
    """The problem of one error of the validator."""
    steps = [step for step in error["loc"] if step not in BASIS_TITLES and step != 0]
    path = ".".join([*filter(None, [table]), *(f"{step + 1}" if isinstance(step, int) else step for step in steps)])
    if error["type"] == "missing":
        return Problem(path, "missing; it has no default")
    if error["type"] == "extra_forbidden":
        return Problem(path, describe_unknown(str(steps[-1]), _siblings(model, steps[:-1])))
    if error["type"] == "loadpath":
        return Problem(path, error["msg"])
    return Problem(path, f"{as_given(error['input'])} given; allowed is a table or list as `loadpath new` shows it")


def _siblings(model: type[InputTable], steps: list[Any]) -> tuple[str, ...]:
    """The keys allowed beside an unknown one."""
    for step in steps:
        field = model.model_fields.get(str(step))
        nested = [part for part in _types(field.annotation) if issubclass(part, InputTable)] if field else []
        if not nested:
            return ()
        model = nested[0]
    return tuple(model.model_fields)


def _types(annotation: Any) -> list[type]:
    if isinstance(annotation, type):
        return [annotation]
    return [part for argument in getattr(annotation, "__args__", ()) for part in _types(argument)]


def describe_unknown(key: str, allowed: tuple[str, ...]) -> str:
    """Refusal of an unknown name: it suggests the nearest allowed name, or lists all."""
    near = difflib.get_close_matches(key, allowed, n=1)
    if near:
        return f"unknown; did you mean '{near[0]}'?"
    return f"unknown; allowed are {', '.join(allowed)}" if allowed else "unknown here"
