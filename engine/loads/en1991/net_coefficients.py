"""Net pressure coefficients of an array, stated by zone with their source: EN 1991-1-4 has none."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

from engine.schema import as_given
from engine.schema.field_type import FieldType

CAUTIOUS_FALLBACK = "cautious fallback"

ZONES = ("F", "G", "H", "I", "J")

KEYS = ("up", "down", "edge_modules", "source")

COVERED = "covered"

LARGEST = 10.0
"""Largest size of a coefficient that is read [-]."""


@dataclass(frozen=True)
class NetCoefficients:
    """cp,net of modules parallel to the roof, by zone of the roof below them.

    Args:
        up: zone → coefficient of uplift, at most 0.
        down: zone → coefficient of down load, at least 0.
        source: the report or standard that they come from.
    """

    up: Mapping[str, float]
    down: Mapping[str, float]
    source: str

    def missing(self, zones: tuple[str, ...]) -> tuple[str, ...]:
        """The zones of a roof for which a coefficient is missing, up or down."""
        return tuple(zone for zone in zones if zone not in self.up or zone not in self.down)


@dataclass(frozen=True)
class NetCoefficientsByZone(FieldType):
    """A table of coefficients by zone, with their source; or the cautious fallback, by name."""

    structured: ClassVar[bool] = True

    def read(self, written: object) -> NetCoefficients | None:
        """The coefficients; None for the cautious fallback."""
        if written == CAUTIOUS_FALLBACK:
            return None
        if written is None:
            raise ValueError(f"missing; EN 1991-1-4 has no clause for modules above a roof: {self._wanted}")
        if not isinstance(written, Mapping) or set(written) != set(KEYS):
            raise ValueError(f"{as_given(written)} given; {self._wanted}")
        source, edges = written["source"], written["edge_modules"]
        if not isinstance(source, str) or not source.strip():
            raise ValueError(f"{as_given(source)} given as source; name the report or standard of the coefficients")
        if edges != COVERED:
            text = f"{as_given(edges)} given for edge_modules; every array has modules at its edges"
            raise ValueError(f'{text}: give a source that covers them, then write edge_modules = "{COVERED}"')
        return NetCoefficients(_by_zone("up", written["up"], -1), _by_zone("down", written["down"], 1), source)

    @property
    def allowed(self) -> str:
        """The values allowed, in words."""
        return f'coefficients by zone with their source, or "{CAUTIOUS_FALLBACK}"'

    @property
    def json_schema(self) -> dict[str, Any]:
        """A table, or the name of the fallback."""
        by_zone = {"type": "object", "additionalProperties": {"type": "number"}}
        keys = {"up": by_zone, "down": by_zone, "edge_modules": {"enum": [COVERED]}, "source": {"type": "string"}}
        table = {"type": "object", "properties": keys, "required": list(keys), "additionalProperties": False}
        return {"anyOf": [table, {"enum": [CAUTIOUS_FALLBACK]}]}

    @property
    def _wanted(self) -> str:
        keys = "up, down, edge_modules and source"
        return f'state coefficients by zone in a table with {keys}, or ask for "{CAUTIOUS_FALLBACK}"'


def _by_zone(key: str, written: object, sign: int) -> dict[str, float]:
    """Coefficients of one direction, each with the sign of that direction or 0."""
    if not isinstance(written, Mapping) or not written:
        raise ValueError(f"{as_given(written)} given for {key}; write one number for each zone, such as {{ F = -1.5 }}")
    for zone, value in written.items():
        if zone not in ZONES:
            raise ValueError(f"{as_given(zone)} given as a zone of {key}; allowed are {', '.join(ZONES)}")
        number = isinstance(value, int | float) and not isinstance(value, bool)
        if not number or not 0 <= sign * value <= LARGEST:
            limits = f"{-LARGEST:g} to 0" if sign < 0 else f"0 to {LARGEST:g}"
            raise ValueError(f"{as_given(value)} given for {key} in zone {zone}; allowed is {limits}")
    return {zone: float(value) for zone, value in written.items()}
