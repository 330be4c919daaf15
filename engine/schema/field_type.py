"""Base of the field types, and the quote of a written value in a refusal."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from typing import Any, ClassVar

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from engine.units import quoted

MAX_QUOTE = 60
"""Longest quote in a sentence [characters]."""

JSON_SCHEMA_DIALECT = "https://json-schema.org/draft/2020-12/schema"


class FieldType(ABC):
    """Type of an input field: it reads the written value and says which values are allowed."""

    structured: ClassVar[bool] = False
    """True if a person may write it as text, or as a list or table."""

    @abstractmethod
    def read(self, written: object) -> Any:
        """The value, in SI.

        Raises:
            ValueError: one sentence: the value given, the values allowed.

        """

    @property
    @abstractmethod
    def allowed(self) -> str:
        """The values allowed, in words."""

    @property
    def json_schema(self) -> dict[str, Any]:
        """The written values as JSON Schema: their types and choices, not every rule of `read`."""
        return {"type": "string"}

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {**self.json_schema, "$comment": self.allowed}

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        def validate(written: object) -> Any:
            try:
                return self.read(written)
            except ValueError as refusal:
                raise PydanticCustomError("loadpath", "{sentence}", {"sentence": str(refusal)}) from None

        return core_schema.no_info_plain_validator_function(validate)


def one_or_several(schema: dict[str, Any]) -> dict[str, Any]:
    """JSON Schema of one value, or of a list of such values."""
    return {"anyOf": [schema, {"type": "array", "items": schema}]}


def as_given(written: object) -> str:
    """The written value, short enough for a sentence."""
    if isinstance(written, str):
        return quoted(written)
    if isinstance(written, bool):
        return str(written).lower()
    if isinstance(written, Mapping):
        return "a table"
    try:
        return shortened(str(written))
    except ValueError:  # Python writes no integer of more than a few thousand digits
        return "a number of thousands of digits"


def shortened(text: str) -> str:
    """The text, cut to 60 characters."""
    return text if len(text) <= MAX_QUOTE else text[: MAX_QUOTE - 3] + "..."
