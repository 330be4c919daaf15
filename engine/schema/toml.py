"""Values and tables as TOML, with each key's meaning above it."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping
from typing import Any

from pydantic.fields import FieldInfo

from engine.schema.introspection import defaults, must_be_stated, nested_table
from engine.schema.table import InputTable
from engine.schema.wording import Wording

COMMENT_WIDTH = 98
US = Wording()


def table_lines(path: str, model: type[InputTable], written: Mapping[str, Any], wording: Wording = US) -> Iterator[str]:
    """The keys of one table, then its nested tables; a nested table that holds only defaults is commented out.

    Args:
        path: of the table in the file ("roof.panel").
        model: the table's model.
        written: the values to write; every other key is shown as a comment with its default.
        wording: that of the load standard.
    """
    nested: list[tuple[str, type[InputTable], Mapping[str, Any], bool]] = []
    for name, field in model.model_fields.items():
        inner = nested_table(field)
        if inner is None:
            yield from _key_lines(name, field, written, wording)
        else:
            nested.append((name, inner, written.get(name, {}), name in written or field.is_required()))
    for name, inner, values, is_written in nested:
        of_table = {
            key: wording.default(inner.model_fields[key], value) for key, value in defaults(model, name).items()
        }
        lines = [f"[{path}.{name}]", *table_lines(f"{path}.{name}", inner, of_table | dict(values), wording)]
        yield ""
        yield from (
            lines if is_written else (line if line.startswith("#") or not line else f"# {line}" for line in lines)
        )


def _key_lines(name: str, field: FieldInfo, written: Mapping[str, Any], wording: Wording) -> Iterator[str]:
    description, allowed = wording.description(field), wording.allowed(field)
    text = f"{description} ({allowed})" if allowed else description
    yield from textwrap.wrap(text, COMMENT_WIDTH, initial_indent="# ", subsequent_indent="#   ")
    if name in written:
        yield from _written_lines(name, written[name])
    elif must_be_stated(field):
        yield f"# {name} is required"
    elif field.default is None:
        yield f"# {name} is not set"
    else:
        yield f"# {name} = {to_toml(wording.default(field, field.default))}"


def _written_lines(name: str, value: Any) -> Iterator[str]:
    """A key with its value; a list that is too long for a line takes a line an entry."""
    line = f"{name} = {to_toml(value)}"
    if isinstance(value, list) and len(line) > COMMENT_WIDTH:
        yield from (f"{name} = [", *(f"    {to_toml(entry)}," for entry in value), "]")
    else:
        yield line


def to_toml(value: Any) -> str:
    """A value as TOML writes it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        escaped = value.replace("\\", "\\\\").replace('"', '\\"')
        return f'"""\n{escaped.strip()}"""' if "\n" in value else f'"{escaped}"'
    if isinstance(value, Mapping):
        entries = ", ".join(f"{_toml_key(key)} = {to_toml(part)}" for key, part in value.items())
        return f"{{ {entries} }}" if entries else "{}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(to_toml(part) for part in value) + "]"
    return str(value)


def _toml_key(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else to_toml(key)
