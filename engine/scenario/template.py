"""A scenario file that documents every key, made from the fields themselves."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping
from types import UnionType
from typing import Any, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from engine.lessons.file import LessonHeading, LessonStep
from engine.schema import FieldType, InputTable

HEAD = """\
# A loadpath scenario. Every quantity is text with its unit; lengths along the roof are measured in
# the plane of the slope that carries the array, x from its left rake, y from its eave.
# Lines that start with "# key =" show defaults: remove the "# " to change one.
# The figures below are invented. Put in your own: a roof's strength comes from its test report.

format = 1
"""


LESSON_HEAD = """\
# A loadpath lesson: steps that a class walks through. `loadpath check` says what is wrong with it.
# Each step starts from the scenario, with the lesson's `set` and its own `set` laid over it.
# A class sees words and question first; guess made, the screen opens, the answer and `reveal` appear.
#
# Never write an answer or a figure: name it, and it is computed. In recall, words and reveal a name stands
# in braces: {methods.rail.attachments}. Names are ways through what JSON shows (`compare --format json`):
#   methods.rail.attachments               the ways to mount are rail, tilted_rack and direct
#   methods.rail.links.clamp.utilisation   an entry of a list is called by its first value
#   studies.rail.spacings.every 2nd seam.attachments    from `study --format json`
#   inputs.roof.rib_spacing                an input, as the scenario or a `set` writes it
#   before.methods.rail.attachments        a figure as it was in the step before
#
# A question is answered in one of three ways:
#   a number      answer = "methods.direct.attachments"
#   a word        answer = "methods.rail.status"
#                 options = { "it holds" = "holds", "it does not" = "over" }
#   a comparison  options = { "rails" = "methods.rail.attachments", "no rails" = "methods.direct.attachments" }
#                 pick = "smallest"

format = 1
"""


def lesson_template(example: Mapping[str, Any]) -> str:
    """Every key of a lesson with its meaning, filled in from an example's head and first steps."""
    lines = [LESSON_HEAD, *_table("", LessonHeading, example)]
    for step in example["steps"][:1]:
        lines += ["", "[[steps]]", *_table("steps", LessonStep, step)]
    return "\n".join(lines) + "\n"


def template(example: Mapping[str, Any], tables: Mapping[str, type[InputTable]]) -> str:
    """Every table and key with its meaning and range, filled in from an example's values."""
    lines = [HEAD]
    for path, model in tables.items():
        written: Any = example
        for step in filter(None, path.split(".")):
            written = written.get(step, {})
        lines += [*(["", f"[{path}]"] if path else []), *_table(path, model, written)]
    return "\n".join(lines) + "\n"


def _table(path: str, model: type[InputTable], written: Mapping[str, Any]) -> Iterator[str]:
    """The keys of one table, then its own tables; those that have defaults only are commented out."""
    nested: list[tuple[str, type[InputTable], Mapping[str, Any], bool]] = []
    for name, field in model.model_fields.items():
        inner = nested_table(field)
        if inner is None:
            yield from _key(name, field, written)
        else:
            nested.append((name, inner, written.get(name, {}), name in written or field.is_required()))
    for name, inner, values, live in nested:
        lines = [f"[{path}.{name}]", *_table(f"{path}.{name}", inner, defaults(model, name) | dict(values))]
        yield ""
        yield from lines if live else (line if line.startswith("#") or not line else f"# {line}" for line in lines)


def defaults(model: type[InputTable], name: str) -> dict[str, Any]:
    """What a table within a table holds where nothing is written, as one would write it."""
    default = model.model_fields[name].default
    return default if isinstance(default, dict) else {}


def _key(name: str, field: FieldInfo, written: Mapping[str, Any]) -> Iterator[str]:
    kind = field_type_of(field)
    allowed = f" ({kind.allowed})" if kind else ""
    yield from textwrap.wrap(f"{field.description}{allowed}", 98, initial_indent="# ", subsequent_indent="#   ")
    if name in written:
        yield f"{name} = {to_toml(written[name])}"
    elif field.is_required():
        yield f"# {name} = "
    elif field.default is None:
        yield f"# {name} is left out"
    else:
        yield f"# {name} = {to_toml(field.default)}"


def field_type_of(field: FieldInfo) -> FieldType | None:
    """How a field is read; None for tables and capacities."""
    found = [part for part in field.metadata if isinstance(part, FieldType)]
    if found:
        return found[0]
    for argument in getattr(field.annotation, "__args__", ()):
        found = [part for part in getattr(argument, "__metadata__", ()) if isinstance(part, FieldType)]
        if found:
            return found[0]
    return None


def nested_table(field: FieldInfo) -> type[InputTable] | None:
    """The table a field holds, where it is one that is written as [a.b]; ratings and capacities stand in one line."""
    parts = get_args(field.annotation) if get_origin(field.annotation) in (Union, UnionType) else (field.annotation,)
    for part in parts:
        if isinstance(part, type) and issubclass(part, InputTable) and not getattr(part, "one_line", False):
            return part
    return None


def to_toml(value: Any) -> str:
    """A value as TOML writes it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        escaped = value.replace("\\", "\\\\").replace('"', '\\"')
        return f'"""\n{escaped.strip()}"""' if "\n" in value else f'"{escaped}"'
    if isinstance(value, Mapping):
        return (
            "{ " + ", ".join(f"{_toml_key(key)} = {to_toml(part)}" for key, part in value.items()) + " }"
            if value
            else "{}"
        )
    if isinstance(value, list | tuple):
        return "[" + ", ".join(to_toml(part) for part in value) + "]"
    return str(value)


def _toml_key(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else to_toml(key)
