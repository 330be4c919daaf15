"""True or false."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from engine.schema.field_type import FieldType, as_given


@dataclass(frozen=True)
class Switch(FieldType):
    """True or false, without quotes."""

    def read(self, written: object) -> bool:
        """The value."""
        if not isinstance(written, bool):
            raise ValueError(f"{as_given(written)} given; allowed is {self.allowed}")
        return written

    @property
    def allowed(self) -> str:
        """The values allowed, in words."""
        return "true or false, without quotes"

    @property
    def json_schema(self) -> dict[str, Any]:
        """True or false."""
        return {"type": "boolean"}
