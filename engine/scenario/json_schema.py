"""JSON Schema of a scenario file, by which editors complete keys and choices and show their meaning."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Literal

from pydantic import create_model

from engine.loads.interface import LoadStandard
from engine.mounting.interface import MountingMethod
from engine.project.array import Array, NamedArray
from engine.scenario.read import ARRAY, ARRAYS, FORMAT, OPTIONAL, Heading, fields_of
from engine.scenario.slopes import OWN, SLOPES, SlopeName
from engine.schema import InputTable, input_field
from engine.schema.field_type import JSON_SCHEMA_DIALECT

Schema = dict[str, Any]


def scenario_schema(methods: Mapping[str, type[MountingMethod]], standards: Mapping[str, type[LoadStandard]]) -> Schema:
    """Keys, types, choices and meanings of a scenario; ranges of quantities are words: the reader checks them."""
    models = dict(fields_of(methods, next(iter(standards.values()))))
    options = {path.removeprefix("methods."): models.pop(path) for path in list(models) if path.startswith("methods.")}
    sites = dict.fromkeys(standard.site_model() for standard in standards.values())
    del models[""]
    fields: dict[str, Any] = {
        "format": (Literal[FORMAT], ...),
        **{name: (model, {} if name in OPTIONAL else ...) for name, model in models.items()},
        "site": (_any_of(tuple(sites)), ...),
        "methods": (create_model("Methods", __base__=InputTable, **_optional(options)), {}),
        **_arrays_and_slopes(),
    }
    made = create_model("Scenario", __base__=Heading, **fields).model_json_schema()
    for table in _partly_given(made):
        made["$defs"][table].pop("required", None)
    return {"$schema": JSON_SCHEMA_DIALECT, **_plain(made), "title": "loadpath scenario"}


def _any_of(models: tuple[type[InputTable], ...]) -> Any:
    found: Any = models[0]
    for model in models[1:]:
        found |= model
    return found


def _optional(models: Mapping[str, type[InputTable]]) -> dict[str, Any]:
    return {name: (model, {}) for name, model in models.items()}


def _arrays_and_slopes() -> dict[str, Any]:
    """One array, or several with their slopes; a slope may state any part of the file's own building and roof."""
    on_slope = (str, input_field("", description="name of the slope that it lies on, where there are several"))
    array: Any = create_model("ArrayOnSlope", __base__=NamedArray, slope=on_slope)
    own: dict[str, Any] = {
        name: (dict[str, Any], input_field({}, description=f"keys of [{name}] that differ on this slope"))
        for name in OWN
    }
    slope: Any = create_model("Slope", __base__=SlopeName, **own)
    return {
        ARRAY: (Array | None, input_field(None, description="the array, if there is one")),
        ARRAYS: (tuple[array, ...], input_field((), description="several arrays, each with its name")),
        SLOPES: (tuple[slope, ...], input_field((), description="several slopes of one building")),
    }


def _partly_given(node: Any) -> Iterator[str]:
    """Names of the tables that have defaults for all their keys where they are used."""
    if isinstance(node, dict):
        if node.get("default") and "$ref" in node:
            yield node["$ref"].rpartition("/")[2]
        for part in node.values():
            yield from _partly_given(part)
    elif isinstance(node, list):
        for part in node:
            yield from _partly_given(part)


def _plain(node: Any) -> Any:
    """The schema without titles made of names and without null, which TOML has not; ranges join the meanings."""
    if isinstance(node, list):
        return [_plain(part) for part in node if part != {"type": "null"}]
    if not isinstance(node, dict):
        return node
    kept = {key: _plain(part) for key, part in node.items() if not (key == "title" and isinstance(part, str))}
    if kept.get("default", "") is None:
        del kept["default"]
    allowed = kept.pop("$comment", None)
    if len(kept.get("anyOf", ())) == 1:
        (only,) = kept.pop("anyOf")
        return only | kept | {"description": f"{kept['description']} {only.get('description', '')}".rstrip()}
    if allowed:
        kept["description"] = " ".join(filter(None, [kept.get("description"), f"({allowed})"]))
    return kept
