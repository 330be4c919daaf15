"""Facts about a model's fields that files, forms and listings are made from."""

from __future__ import annotations

from types import UnionType
from typing import Any, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from engine.schema.field_type import FieldType
from engine.schema.table import InputTable


def field_type_of(field: FieldInfo) -> FieldType | None:
    """The field type that reads a field; None for tables and strengths."""
    found = [part for part in field.metadata if isinstance(part, FieldType)]
    if found:
        return found[0]
    for argument in getattr(field.annotation, "__args__", ()):
        found = [part for part in getattr(argument, "__metadata__", ()) if isinstance(part, FieldType)]
        if found:
            return found[0]
    return None


def must_be_stated(field: FieldInfo) -> bool:
    """True if a file must state a field: it has no default, or its own type refuses the default."""
    own = [part for part in field.metadata if isinstance(part, FieldType)]
    if field.is_required() or not own:
        return field.is_required()
    try:
        own[0].read(field.default)
    except ValueError:
        return True
    return False


def nested_table(field: FieldInfo) -> type[InputTable] | None:
    """The model of a field written as its own table [a.b]; None for values, and for strengths written on one line."""
    parts = get_args(field.annotation) if get_origin(field.annotation) in (Union, UnionType) else (field.annotation,)
    for part in parts:
        if isinstance(part, type) and issubclass(part, InputTable) and not getattr(part, "one_line", False):
            return part
    return None


def defaults(model: type[InputTable], name: str) -> dict[str, Any]:
    """The default values of a nested table, as a person would write them."""
    default = model.model_fields[name].default
    return default if isinstance(default, dict) else {}
