"""JSON Schema of a comparison as JSON: every key of the record with its type, figures with their meaning."""

from __future__ import annotations

from typing import Any

from engine.comparison.building_comparison import SUMMED
from engine.comparison.figures import figures
from engine.comparison.flags import RANK
from engine.design.status import Status
from engine.links.unchecked import DIRECTIONS
from engine.project.job import Job
from engine.schema.field_type import JSON_SCHEMA_DIALECT

Schema = dict[str, Any]

NUMBER: Schema = {"type": "number"}
INTEGER: Schema = {"type": "integer"}
TEXT: Schema = {"type": "string"}
OBJECT: Schema = {"type": "object"}
STATUS: Schema = {"enum": [str(status) for status in Status]}
DIRECTION: Schema = {"enum": list(DIRECTIONS)}
MADE: Schema = {"version": TEXT, "date": {"type": "string", "format": "date"}, "units": {"const": "SI"}}
"""The fields of the output about itself."""

OF_BATCH: Schema = {"file": TEXT, "inputs": {"type": "string", "description": "fingerprint of file and changes"}}
"""The fields that the comparison of many files adds."""


def record_schema(job: Job) -> Schema:
    """The schema of a comparison; figures are explained in the words of a job's roof."""
    schema = _table(optional=OF_BATCH, **_comparison(job), **MADE)
    return {"$schema": JSON_SCHEMA_DIALECT, "title": "loadpath comparison", **schema}


def building_schema(job: Job) -> Schema:
    """The schema of the comparison of a building of several slopes."""
    total = {
        "title": TEXT,
        "status": STATUS,
        **dict.fromkeys(SUMMED, _or_null(NUMBER)),
        "weakest_link": _or_null(TEXT),
        "weakest_utilisation": _or_null(NUMBER),
        "weakest_slope": _or_null(TEXT),
    }
    mix = _table(methods={"type": "object", "additionalProperties": TEXT}, **total)
    top = {
        "format": {"const": 1},
        "title": TEXT,
        "standard": TEXT,
        "cautions": _list(TEXT),
        "answer": TEXT,
        "methods": _list(_table(method=TEXT, **total)),
        "slopes": _list(_table(name=TEXT, **_comparison(job))),
        "best_mix": _or_null(mix) | {"description": "null where a slope has no method that can be checked"},
    }
    schema = _table(optional=OF_BATCH, **top, **MADE)
    return {"$schema": JSON_SCHEMA_DIALECT, "title": "loadpath comparison of a building", **schema}


def _comparison(job: Job) -> Schema:
    """The keys of the comparison of one slope."""
    return {
        "format": {"const": 1},
        "title": TEXT,
        "standard": TEXT,
        "cautions": _list(TEXT),
        "answer": TEXT,
        "loads": _list(_table(name=TEXT, value=NUMBER, quantity=TEXT)),
        "methods": _list(_method(job)),
        "alternatives": _list(_table(name=TEXT, set=OBJECT, answer=TEXT, methods=_list(_method(job)))),
        "ranking": _list(_table(rank=INTEGER, alternative=TEXT, method=TEXT)),
        "sources": _list(_table(input=TEXT, source=_or_null(TEXT), entry=_or_null(TEXT), shelf=_or_null(TEXT))),
        "scenario": {"type": "object", "description": "the scenario as written; it has a schema of its own"},
    }


def _method(job: Job) -> Schema:
    value = {"": _or_null(TEXT), "count": _or_null(INTEGER)}
    shown = {
        figure.key: value.get(figure.dimension, _or_null(NUMBER)) | {"description": figure.help(job)}
        for figure in figures()
        if figure.in_json
    }
    lists = {
        "placement": _or_null(_placement()),
        "unchecked": _list(_table(link=TEXT, direction=DIRECTION, reason=TEXT, owner=TEXT, document=TEXT)),
        "shown_by_others": _list(_table(link=TEXT, direction=DIRECTION, by=TEXT, document=TEXT, date=TEXT)),
        "placeholders": _list(TEXT),
        "links": _list(_link()),
        "bill": _list(_bill_line()),
        "ways_out": _or_null(_list(_way_out())) | {"description": "null where they were not searched"},
        "flags": _list(_table(code=TEXT, severity={"enum": list(RANK)}, text=TEXT)),
    }
    attachments = _list(_attachment()) | {"description": "every attachment, in exported files only"}
    return _table(
        {"attachment_schedule": attachments}, **{"method": TEXT, "title": TEXT, **shown, "status": STATUS, **lists}
    )


def _way_out() -> Schema:
    result = _table(status=STATUS, attachments=INTEGER, modules=INTEGER, weakest_utilisation=_or_null(NUMBER))
    return _table(kind=TEXT, text=TEXT, set=OBJECT, result=result)


def _placement() -> Schema:
    return _table(
        tolerance_m=NUMBER,
        largest_offset_m=NUMBER,
        within_tolerance=_or_null(_table(status=STATUS, weakest_utilisation=_or_null(NUMBER))),
        places_tried=INTEGER,
        first_rib_m=NUMBER,
        first_support_m=NUMBER,
        first_bay_m=_or_null(NUMBER),
    )


def _link() -> Schema:
    part = _table(name=TEXT, demand=NUMBER, resistance=NUMBER, unit=TEXT, utilisation=NUMBER)
    return _table(
        link=TEXT,
        title=TEXT,
        demand=_or_null(NUMBER),
        resistance=_or_null(NUMBER),
        unit=TEXT,
        utilisation=_or_null(NUMBER),
        combination=_or_null(TEXT),
        where=_table(name=TEXT, x_m=_or_null(NUMBER), y_m=_or_null(NUMBER)),
        note=_or_null(TEXT),
        parts=_list(part),
    )


def _bill_line() -> Schema:
    numbers = dict.fromkeys(("quantity", "mass_kg", "unit_price", "price", "labour_hours"), NUMBER)
    bars = {"stock_length_m": _or_null(NUMBER), "lengths_m": _list(NUMBER), "offcut_m": _or_null(NUMBER)}
    return _table(part=TEXT, name=TEXT, part_number=_or_null(TEXT), unit=TEXT, spares=NUMBER, **bars, **numbers)


def _attachment() -> Schema:
    loads = dict.fromkeys(("up_n", "down_n", "utilisation"), _or_null(NUMBER))
    counts = dict.fromkeys(("number", "row", "rib"), INTEGER)
    verdict = {"enum": ["holds", "over", "not checked"]}
    return _table(**counts, x_m=NUMBER, y_m=NUMBER, wind_zone=TEXT, **loads, link=_or_null(TEXT), verdict=verdict)


def _table(optional: dict[str, Schema] | None = None, **keys: Schema) -> Schema:
    """An object with these keys and no others."""
    return {
        "type": "object",
        "properties": {**keys, **(optional or {})},
        "required": list(keys),
        "additionalProperties": False,
    }


def _list(entry: Schema) -> Schema:
    return {"type": "array", "items": entry}


def _or_null(schema: Schema) -> Schema:
    return {"anyOf": [schema, {"type": "null"}]}
