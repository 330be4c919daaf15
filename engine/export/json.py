"""The comparison as JSON text."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping, Sequence
from typing import Any

from engine.comparison.compare import Comparison
from engine.comparison.record import comparison_record
from engine.export.stamp import Stamp
from engine.studies.record import ways_by_method
from engine.studies.ways_out import WaysOut


def to_json(
    comparison: Comparison,
    stamp: Stamp,
    source: Mapping[str, str] | None = None,
    *,
    indent: int | None = 2,
    ways: Sequence[WaysOut] | None = None,
) -> str:
    """One JSON object; in one line where `indent` is None. `source` says what it was made from and stands first.

    Ways out are null where `ways` is None: they were not searched.
    """
    made = {"version": stamp.version, "date": stamp.date.isoformat(), "units": "SI"}
    searched = None if ways is None else ways_by_method(ways)
    record = _finite({**(source or {}), **comparison_record(comparison, searched), **made})
    return json.dumps(record, indent=indent, ensure_ascii=False, allow_nan=False)


def _finite(value: Any) -> Any:
    """The value with null in place of NaN and infinity, which JSON does not know."""
    if isinstance(value, float) and not math.isfinite(value):
        return None
    if isinstance(value, dict):
        return {key: _finite(part) for key, part in value.items()}
    if isinstance(value, list):
        return [_finite(part) for part in value]
    return value
