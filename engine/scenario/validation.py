"""Validation of written tables: all problems at once, each with its path, in one sentence."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping
from typing import Any, TypeVar

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from engine.common.errors import Problem
from engine.schema import InputTable, as_given, shortened
from engine.strength import BASES, StrengthBasis, tag_of

Table = TypeVar("Table", bound=InputTable)

_BASIS_OF_TAG: Mapping[int | str, type[StrengthBasis]] = {tag_of(basis): basis for basis in BASES}


def top_level_problems(written: Mapping[str, Any], allowed: tuple[str, ...], version: int) -> Iterator[Problem]:
    """Unknown keys of a file, and a format of another version."""
    for key in written:
        if key not in allowed:
            yield Problem(shortened(key), describe_unknown(key, allowed))
    if written.get("format") != version or not isinstance(written.get("format"), int) or written["format"] is True:
        found = f"{as_given(written['format'])} given" if "format" in written else "missing"
        yield Problem("format", f"{found}; this version reads format = {version}")


def validated(
    path: str, model: type[Table], table: Any, problems: list[Problem], *, partial: bool = False
) -> Table | None:
    """A written table as its model; None if it has problems, which are added to `problems` with their paths.

    `partial`: keys that it lacks are no problem.
    """
    if not isinstance(table, Mapping):
        problems.append(Problem(path, f"{as_given(table)} given; write a table [{path}]"))
        return None
    try:
        return model.model_validate(table)
    except ValidationError as refused:
        problems += [
            _problem(path, table, model, error)
            for error in refused.errors(include_url=False)
            if not (partial and error["type"] == "missing")
        ]
        return None


def _problem(table_path: str, table: Mapping[str, Any], model: type[InputTable], error: ErrorDetails) -> Problem:
    """The problem of one error of the validator."""
    location = error["loc"]
    unknown = location[-1] if error["type"] == "extra_forbidden" else None
    steps = _written_steps(table, location if unknown is None else location[:-1])
    path = ".".join([*filter(None, [table_path]), *steps, *([] if unknown is None else [shortened(str(unknown))])])
    if unknown is not None:
        return Problem(path, describe_unknown(str(unknown), tuple(_model_at(model, location[:-1]).model_fields)))
    if error["type"] == "missing":
        return Problem(path, "missing; it has no default")
    if error["type"] == "loadpath":
        return Problem(path, error["msg"])
    return Problem(path, f"{as_given(error['input'])} given; allowed is a table or list as `loadpath new` shows it")


def _written_steps(table: Any, location: tuple[int | str, ...]) -> Iterator[str]:
    """The steps of an error's location that are in the file; entries of a list are counted from 1.

    The validator adds a tag for the basis of a strength, and an index where one strength stands without a list.
    """
    for step in location:
        if step in _BASIS_OF_TAG:
            continue
        if isinstance(step, str):
            yield step
            table = table.get(step) if isinstance(table, Mapping) else None
        elif isinstance(table, list | tuple):
            yield str(step + 1)
            table = table[step]


def _model_at(model: type[InputTable], location: tuple[int | str, ...]) -> type[InputTable]:
    """The model of the table at an error's location."""
    for step in location:
        if step in _BASIS_OF_TAG:
            model = _BASIS_OF_TAG[str(step)]
        elif isinstance(step, str):
            model = next(part for part in _types(model.model_fields[step].annotation) if issubclass(part, InputTable))
    return model


def _types(annotation: Any) -> list[type]:
    if isinstance(annotation, type):
        return [annotation]
    return [part for argument in getattr(annotation, "__args__", ()) for part in _types(argument)]


def describe_unknown(key: str, allowed: tuple[str, ...]) -> str:
    """Refusal of an unknown name: it suggests the nearest allowed name, or lists all."""
    near = difflib.get_close_matches(shortened(key), allowed, n=1)
    if near:
        return f"unknown; did you mean '{near[0]}'?"
    return f"unknown; allowed are {', '.join(allowed)}" if allowed else "unknown here"
