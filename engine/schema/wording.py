"""The words of an input as a job's load standard has them: its help, range and default in the standard's units."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pydantic.fields import FieldInfo

from engine.common.vocabulary import ALLOWABLES, Vocabulary
from engine.schema.introspection import field_type_of
from engine.schema.quantities import Quantity
from engine.units import System, in_words_of


@dataclass(frozen=True)
class Wording:
    """Units, and the words for resistances, of a load standard."""

    system: System = "us"
    words: Vocabulary = ALLOWABLES

    def description(self, field: FieldInfo) -> str:
        """The meaning of an input."""
        return in_words_of(self.system, str(field.description), _dimension(field))

    def allowed(self, field: FieldInfo) -> str:
        """The values allowed; empty for tables and strengths."""
        kind = field_type_of(field)
        return in_words_of(self.system, kind.allowed, _dimension(field)) if kind else ""

    def default(self, field: FieldInfo, value: Any) -> Any:
        """A default as a person would write it; a placeholder strength under the key that the standard takes."""
        if isinstance(value, str):
            return in_words_of(self.system, value, _dimension(field))
        if not isinstance(value, Mapping):
            return value
        keys = {ALLOWABLES.placeholder: self.words.placeholder}
        return {keys.get(key, key): self.default(field, part) for key, part in value.items()}


def _dimension(field: FieldInfo) -> str:
    kind = field_type_of(field)
    return kind.dimension if isinstance(kind, Quantity) else ""
