"""A table of the input file, and its fields."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, ConfigDict, Field


class InputTable(BaseModel):
    """A table of the input file: it cannot be changed and refuses unknown keys.

    Its validator is built when it is first used: most commands use a few of all tables.
    """

    model_config = ConfigDict(
        frozen=True, extra="forbid", validate_default=True, arbitrary_types_allowed=True, defer_build=True
    )


def input_field(default: Any = ..., *, description: str) -> Any:
    """A field of an input table; `default` is written as a person would write it in the file."""
    return Field(default, description=description)
