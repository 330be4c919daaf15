"""The comparison as plain values for JSON: SI, unrounded, the suffix says the unit. The keys are a contract."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from engine.bill.take_off import BillLine
from engine.comparison.alternatives import ranked
from engine.comparison.answer import answer_line
from engine.comparison.attachment_schedule import schedule
from engine.comparison.compare import AlternativeComparison, Column, Comparison
from engine.comparison.figures import figures
from engine.design.acceptance import ShownByOthers
from engine.design.elsewhere import largest_offset
from engine.design.status import Verdict
from engine.links import Check, Unchecked
from engine.links.check import Part
from engine.scenario.sources import Origin
from engine.units import SI

WaysOfMethods = Mapping[str, list[dict[str, Any]]]
"""Id of a method → its ways out as plain values."""


def comparison_record(
    comparison: Comparison, ways_out: WaysOfMethods | None = None, *, with_attachments: bool = False
) -> dict[str, Any]:
    """The comparison as nested dicts and lists of plain values; on request with every attachment of every method.

    Ways out are null where they were not searched.
    """
    schedules = [_attachments(column) if with_attachments else {} for column in comparison.columns]
    return {
        "format": 1,
        "title": comparison.title,
        "standard": comparison.scenario.standard.title,
        "cautions": list(comparison.cautions),
        "answer": answer_line(comparison),
        "loads": [{"name": name, "value": value, "quantity": dimension} for name, value, dimension in comparison.site],
        "methods": [
            _method(column, ways_out) | more for column, more in zip(comparison.columns, schedules, strict=True)
        ],
        "alternatives": [_alternative(each) for each in comparison.alternatives],
        "ranking": [
            {"rank": each.rank, "alternative": each.alternative, "method": each.column.id}
            for each in (ranked(comparison) if comparison.alternatives else ())
        ],
        "sources": [_source(path, origin) for path, origin in comparison.scenario.origins.by_path.items()],
        "scenario": comparison.scenario.written,
    }


def _method(column: Column, ways_out: WaysOfMethods | None) -> dict[str, Any]:
    bill = column.design.bill if column.design else None
    return {
        "method": column.id,
        "title": column.title,
        **{figure.key: figure.value(column) for figure in figures() if figure.in_json},
        "placement": _placement(column),
        "unchecked": [_unchecked(entry) for entry in column.unchecked.still_open],
        "shown_by_others": [_shown(each) for each in column.unchecked.shown],
        "placeholders": [path for path, _ in column.placeholders],
        "links": [_link(check) for check in column.checks.values()],
        "bill": [_bill_line(line) for line in (bill.items if bill else ())],
        "ways_out": None if ways_out is None else ways_out.get(column.id, []),
        "flags": [{"code": flag.code, "severity": flag.severity, "text": flag.text} for flag in column.flags],
    }


def _attachments(column: Column) -> dict[str, Any]:
    """The attachments one by one, in walking order; the loads and ratios of those not checked are null."""
    if column.design is None:
        return {"attachment_schedule": []}
    each = schedule(column.design)
    unknown = [None] * len(each)
    columns = {
        "number": range(1, len(each) + 1),
        "row": each.row.tolist(),
        "rib": each.rib.tolist(),
        "x_m": each.x.tolist(),
        "y_m": each.y.tolist(),
        "wind_zone": each.zone,
        "up_n": unknown if each.up is None else each.up.tolist(),
        "down_n": unknown if each.down is None else each.down.tolist(),
        "utilisation": unknown if each.utilisation is None else each.utilisation.tolist(),
        "link": each.governing_links,
        "verdict": each.verdicts,
    }
    rows = zip(*columns.values(), strict=True)
    return {"attachment_schedule": [dict(zip(columns, row, strict=True)) for row in rows]}


def _placement(column: Column) -> dict[str, Any] | None:
    """Tolerance of setting out, and the verdict within it; null where nothing was laid out."""
    if column.design is None:
        return None
    within, roof = column.design.within_tolerance, column.design.job.roof
    return {
        "tolerance_m": column.design.job.placement.tolerance,
        "largest_offset_m": largest_offset(column.design),
        "within_tolerance": verdict_record(within) if within else None,
        "places_tried": column.design.places_tried,
        "first_rib_m": roof.first_rib,
        "first_support_m": roof.first_support,
        "first_bay_m": roof.first_bay,
    }


def verdict_record(verdict: Verdict) -> dict[str, Any]:
    """A verdict with its largest utilisation."""
    return {"status": str(verdict.status), "weakest_utilisation": verdict.utilisation}


def _link(check: Check) -> dict[str, Any]:
    return {
        "link": check.link,
        "title": check.title,
        "demand": check.demand,
        "resistance": check.resistance,
        "unit": SI[check.dimension],
        "utilisation": check.utilisation,
        "combination": check.combination or None,
        "where": {"name": check.place.name, "x_m": check.place.x, "y_m": check.place.y},
        "note": check.note or None,
        "parts": [_part(part, check.dimension) for part in check.parts],
    }


def _part(part: Part, dimension: str) -> dict[str, Any]:
    return {
        "name": part.name,
        "demand": part.demand,
        "resistance": part.resistance,
        "unit": SI[dimension],
        "utilisation": part.ratio,
    }


def _unchecked(entry: Unchecked) -> dict[str, Any]:
    return {
        "link": entry.link,
        "direction": entry.direction,
        "reason": entry.reason,
        "owner": entry.owner,
        "document": entry.document,
    }


def _shown(each: ShownByOthers) -> dict[str, Any]:
    stated = each.acceptance
    return {
        "link": each.entry.link,
        "direction": each.entry.direction,
        "by": stated.by,
        "document": stated.document,
        "date": stated.date,
    }


def _alternative(each: AlternativeComparison) -> dict[str, Any]:
    return {
        "name": each.name,
        "set": {".".join(path): value for path, value in each.changes.items()},
        "answer": answer_line(each.comparison),
        "methods": [_method(column, None) for column in each.comparison.columns],
    }


def _source(path: str, origin: Origin) -> dict[str, Any]:
    return {
        "input": path,
        "source": origin.source or None,
        "entry": origin.entry or None,
        "shelf": origin.shelf or None,
    }


def _bill_line(line: BillLine) -> dict[str, Any]:
    return {
        "part": line.part,
        "name": line.name,
        "part_number": line.part_number,
        "quantity": line.quantity,
        "unit": line.unit,
        "spares": line.spares,
        "stock_length_m": line.stock_length,
        "lengths_m": list(line.lengths),
        "offcut_m": line.offcut if line.lengths else None,
        "mass_kg": line.mass,
        "unit_price": line.unit_price,
        "price": line.price,
        "labour_hours": line.hours,
    }
