"""The JSON Schema of scenarios, read by an independent validator (jsonschema): it takes what the reader takes."""

from __future__ import annotations

import re
import tomllib
from functools import cache
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.json_schema import scenario_schema
from engine.scenario.read import fields_of
from engine.scenario.template import template
from engine.schema.introspection import nested_table
from support import SCENARIOS, laid_over, tables_of

BUNDLED = sorted(path.stem for path in SCENARIOS.glob("*.toml"))


@cache
def validator() -> Draft202012Validator:
    schema = scenario_schema(METHODS, STANDARDS)
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


def places(tables: dict[str, Any]) -> set[str]:
    """Paths of what the schema refuses."""
    return {error.json_path for error in validator().iter_errors(tables)}


@pytest.mark.parametrize("name", BUNDLED)
def test_every_bundled_scenario_is_allowed(name: str) -> None:
    assert places(tables_of(name)) == set()


@pytest.mark.parametrize("standard", STANDARDS)
def test_the_template_with_every_default_set_is_allowed(standard: str) -> None:
    """Lines of the form "# key = value" or "# [table]" show defaults: without the sign they are set.

    A table without defaults lacks its required key then, and nothing else.
    """
    example = next(tables for tables in map(tables_of, BUNDLED) if tables["site"]["standard"] == standard)
    text = template(example, fields_of(METHODS, STANDARDS[standard]))
    with_defaults = re.sub(r"(?m)^# (?=[a-z_]+ = |\[)", "", text)
    assert with_defaults != text
    assert {error.validator for error in validator().iter_errors(tomllib.loads(with_defaults))} <= {"required"}


@pytest.mark.parametrize(
    ("changes", "place"),
    [
        ({"roof__rib_spacng": "24 in"}, "$.roof"),
        ({"array__rows": "6"}, "$.array.rows"),
        ({"array__rows": 0}, "$.array.rows"),
        ({"array__rows": 2.5}, "$.array.rows"),
        ({"building__roof_shape": "dome"}, "$.building.roof_shape"),
        ({"site__standard": "ASCE 7-05"}, "$.site"),
        ({"site__wind_speed": 105}, "$.site"),
        ({"array__origin": ["1 ft"]}, "$.array.origin"),
        ({"methods__glue": {}}, "$.methods"),
        ({"format": 2}, "$.format"),
        ({"building__length": None}, "$.building"),
        ({"hardware__attachment_uplift": {"allowable": "600 lb", "tested": "900 lb"}}, "$.hardware.attachment_uplift"),
    ],
)
def test_what_is_wrong_is_refused_at_its_place(changes: dict[str, Any], place: str) -> None:
    assert places(laid_over(tables_of("kestrel_yard"), **changes)) == {place}


@pytest.mark.parametrize(
    "changes",
    [
        {"hardware__rail": {"price": 60}},
        {"hardware__parts": {"screw": {"mass": "0.03 lb"}}},
        {"hardware__attachment_uplift": [{"allowable": "600 lb"}, {"tested": "1500 lb", "safety_factor": 2.5}]},
        {"methods": None},
        {"array__keep_clear": [{"at": ["60 ft", "20 ft"], "size": ["4 ft", "8 ft"]}]},
        {"accepted": {"roof_member": {"by": "A", "document": "B", "date": "C", "methods": "rail"}}},
    ],
)
def test_tables_given_in_part_and_strengths_in_either_form_are_allowed(changes: dict[str, Any]) -> None:
    assert places(laid_over(tables_of("kestrel_yard"), **changes)) == set()


def test_every_key_has_its_meaning() -> None:
    """An editor shows it beside the key."""
    schema = validator().schema
    assert isinstance(schema, dict)
    for table, model in fields_of(METHODS, STANDARDS["ASCE 7-16"]).items():
        if table and "." not in table and table != "site":
            properties = schema["$defs"][model.__name__]["properties"]
            assert set(properties) == set(model.model_fields)
            for key, field in model.model_fields.items():
                if nested_table(field) is None:
                    assert "description" in str(properties[key]), (table, key)
