"""The comparison as JSON: SI, unrounded, the suffix says the unit. The keys are a contract."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from typing import Any

from engine.bill.take_off import BillLine
from engine.comparison.compare import Column, Comparison
from engine.export.stamp import Stamp
from engine.links import Check
from engine.units import SI


def to_json(
    comparison: Comparison, stamp: Stamp, of: Mapping[str, str] | None = None, *, indent: int | None = 2
) -> str:
    """One JSON object, in one line where `indent` is None; `of`, which says what it was made from, stands first."""
    made = {"version": stamp.version, "date": stamp.date.isoformat(), "units": "SI"}
    return json.dumps(
        _finite({**(of or {}), **as_mapping(comparison), **made}), indent=indent, ensure_ascii=False, allow_nan=False
    )


def as_mapping(comparison: Comparison) -> dict[str, Any]:
    """The comparison as plain values."""
    return {
        "format": 1,
        "title": comparison.title,
        "standard": comparison.scenario.standard.title,
        "cautions": list(comparison.cautions),
        "loads": [{"name": name, "value": value, "quantity": dimension} for name, value, dimension in comparison.site],
        "methods": [_method(column) for column in comparison.columns],
    }


def _method(column: Column) -> dict[str, Any]:
    weakest = column.weakest
    bill = column.design.bill if column.design else None
    return {
        "method": column.id,
        "title": column.title,
        "status": column.status,
        "spacing": column.spacing or None,
        "modules": column.modules,
        "power_w": column.power,
        "attachments": column.attachments,
        "attachments_minimum": column.minimum,
        "runs": column.runs,
        "attachments_per_module": column.per_module,
        "point_load_up_n": column.attachment_up,
        "point_load_down_n": column.attachment_down_load,
        "evenness": column.evenness,
        "fastening_utilisation": column.fastening,
        "bare_roof_utilisation": column.bare_roof,
        "weakest_link": weakest.link if weakest else None,
        "weakest_title": weakest.title if weakest else None,
        "weakest_utilisation": weakest.utilisation if weakest else None,
        "links": [_link(check) for check in column.links],
        "rail_span_limit_m": column.member_limit,
        "roof_span_limit_m": column.roof_limit,
        "overspan": column.overspan,
        "penetrations": column.penetrations,
        "mass_kg": column.mass,
        "dead_load_pa": column.dead_load,
        "support_line_load_n_per_m": column.line_load,
        "hardware_cost": column.hardware_cost,
        "labour_hours": column.labour_hours,
        "total_cost": column.total_cost,
        "cost_per_watt": column.cost_per_watt,
        "bill": [_item(item) for item in (bill.items if bill else ())],
        "flags": [{"code": flag.code, "severity": flag.severity, "text": flag.text} for flag in column.flags],
    }


def _link(check: Check) -> dict[str, Any]:
    place = {"name": check.place.name, "x_m": check.place.x, "y_m": check.place.y}
    return {
        "link": check.link,
        "title": check.title,
        "demand": check.demand,
        "resistance": check.resistance,
        "unit": SI[check.dimension],
        "utilisation": check.utilisation,
        "combination": check.combination or None,
        "where": place,
        "note": check.note or None,
    }


def _item(item: BillLine) -> dict[str, Any]:
    return {
        "part": item.part,
        "name": item.name,
        "quantity": item.quantity,
        "unit": item.unit,
        "mass_kg": item.mass,
        "unit_price": item.unit_price,
        "price": item.price,
        "labour_hours": item.hours,
    }


def _finite(value: Any) -> Any:
    """No NaN and no infinity leaves: what is not a number is null."""
    if isinstance(value, float) and not math.isfinite(value):
        return None
    if isinstance(value, dict):
        return {key: _finite(part) for key, part in value.items()}
    if isinstance(value, list):
        return [_finite(part) for part in value]
    return value
