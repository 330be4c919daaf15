"""The JSON Schema of a comparison, read by an independent validator (jsonschema): it is complete and strict."""

from __future__ import annotations

import datetime
import json
from functools import cache
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from engine.comparison.compare import compare
from engine.comparison.record import comparison_record
from engine.comparison.record_schema import record_schema
from engine.export.json import to_json
from engine.export.stamp import Stamp
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.json_schema import scenario_schema
from support import SCENARIOS, scenario_of

BUNDLED = sorted(path.stem for path in SCENARIOS.glob("*.toml"))


@cache
def record(name: str) -> dict[str, Any]:
    written = to_json(
        comparison_record(compare(scenario_of(name)), with_attachments=True), Stamp(datetime.date(2026, 3, 4))
    )
    found: dict[str, Any] = json.loads(written)
    return found


@cache
def validator() -> Draft202012Validator:
    schema = record_schema(scenario_of("kestrel_yard").job)
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


@pytest.mark.parametrize("name", BUNDLED)
def test_every_comparison_follows_it(name: str) -> None:
    assert [(error.json_path, error.message) for error in validator().iter_errors(record(name))] == []


@pytest.mark.parametrize("key", ["answer", "methods", "scenario"])
def test_a_missing_key_is_refused(key: str) -> None:
    answer = {name: value for name, value in record("sparrow_lane").items() if name != key}
    assert [error.validator for error in validator().iter_errors(answer)] == ["required"]


def test_a_key_of_a_method_that_it_does_not_know_is_refused() -> None:
    answer = json.loads(json.dumps(record("sparrow_lane")))
    answer["methods"][0]["invented"] = 1
    assert [error.json_path for error in validator().iter_errors(answer)] == ["$.methods[0]"]


def test_the_scenario_within_follows_its_own_schema() -> None:
    Draft202012Validator(scenario_schema(METHODS, STANDARDS)).validate(record("sparrow_lane")["scenario"])


def test_every_attachment_is_in_it() -> None:
    for method in record("kestrel_yard")["methods"]:
        each = method["attachment_schedule"]
        assert len(each) == method["attachments"]
        assert max(one["up_n"] for one in each) == pytest.approx(method["point_load_up_n"], rel=1e-12)
    outside = next(one for one in record("sparrow_lane")["methods"] if one["status"] == "outside scope")
    assert {one["verdict"] for one in outside["attachment_schedule"]} == {"not checked"}
