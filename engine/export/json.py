"""A record as JSON text."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from typing import Any

from engine.comparison.building_comparison import BuildingComparison
from engine.comparison.compare import Comparison
from engine.comparison.record_schema import building_schema, record_schema
from engine.export.stamp import Stamp


def to_json(
    record: Mapping[str, Any], stamp: Stamp, source: Mapping[str, str] | None = None, *, indent: int | None = 2
) -> str:
    """One JSON object; in one line where `indent` is None. `source` says what it was made from and stands first."""
    made = {"version": stamp.version, "date": stamp.date.isoformat(), "units": "SI"}
    return json.dumps(_finite({**(source or {}), **record, **made}), indent=indent, ensure_ascii=False, allow_nan=False)


def json_schema(comparison: Comparison) -> str:
    """The JSON Schema of a comparison."""
    return json.dumps(record_schema(comparison.scenario.job), indent=2, ensure_ascii=False) + "\n"


def building_json_schema(building: BuildingComparison) -> str:
    """The JSON Schema of the comparison of a building."""
    job = building.slopes[0].scenario.job
    return json.dumps(building_schema(job), indent=2, ensure_ascii=False) + "\n"


def _finite(value: Any) -> Any:
    """The value with null in place of NaN and infinity, which JSON does not know."""
    if isinstance(value, float) and not math.isfinite(value):
        return None
    if isinstance(value, Mapping):
        return {key: _finite(part) for key, part in value.items()}
    if isinstance(value, list | tuple):
        return [_finite(part) for part in value]
    return value
