"""Sources beside values: read as the value alone, kept beside it, and refused where half of it is missing."""

from __future__ import annotations

import pytest

from engine.common.errors import InputError
from engine.comparison.compare import compare
from engine.comparison.permit_checklist import permit_checklist
from engine.comparison.record import comparison_record
from engine.scenario.changed import changed
from engine.scenario.changes import value_at
from engine.scenario.listing import inputs_of
from support import scenario_of

MAP = {"value": "115 mph", "source": "county map, 2026-05-02, read by N. N."}


def sourced(value: object, source: str = "survey") -> dict[str, object]:
    return {"value": value, "source": source}


def test_any_value_may_have_its_source_beside_it() -> None:
    """Quantities, words, numbers, strengths, lists and parts of them, in every table."""
    plain = scenario_of(site__wind_speed="115 mph")
    scenario = scenario_of(
        title=sourced(plain.job.title),
        site__standard=sourced("ASCE 7-16"),
        site__wind_speed=MAP,
        array__rows=sourced(6),
        module__clamp_zone=[sourced("250 mm", "manual"), "500 mm"],
        roof__fastening__uplift=sourced(plain.written["roof"]["fastening"]["uplift"], "test report"),
        methods__rail__rails_per_row=sourced(2),
    )
    one, other = (comparison_record(compare(each)) for each in (plain, scenario))
    assert one.pop("sources") == []
    by_path = {each["input"]: each["source"] for each in other.pop("sources")}
    assert one == other
    assert by_path["site.wind_speed"] == MAP["source"]
    assert by_path["module.clamp_zone.1"] == "manual"
    rows = {row.path: row for row in inputs_of(scenario)}
    assert (rows["site.wind_speed"].written, rows["site.wind_speed"].origin) == ("115 mph", f"file: {MAP['source']}")
    assert rows["module.clamp_zone"].origin == "file: manual"


def test_the_permit_checklist_lists_sources_where_there_are_any() -> None:
    listed = permit_checklist(compare(scenario_of(site__wind_speed=MAP, site__exposure=sourced("C", "site visit")), ()))
    assert listed[-1].requirement == "Sources of inputs, as far as they are stated"
    assert listed[-1].statement == f"{MAP['source']}: site.wind_speed; site visit: site.exposure"
    assert "Sources" not in permit_checklist(compare(scenario_of(), ()))[-1].requirement


def test_a_changed_value_no_longer_has_that_source() -> None:
    """Also where only a part of it changes."""
    scenario = scenario_of(site__wind_speed=MAP, roof__panel=sourced(scenario_of().written["roof"]["panel"]))
    after = changed(
        scenario, {("site", "wind_speed"): "120 mph", ("roof", "panel", "moment_pan_compressed"): "1 lb ft"}
    )
    assert after.origins.by_path == {}
    assert value_at(scenario.written, ("roof", "panel", "moment_pan_compressed")) == "470 lb ft"


@pytest.mark.parametrize(
    ("value", "path", "sentence"),
    [
        ({"value": "115 mph"}, "site.wind_speed", "a value in a table given without its source; "
         'write { value = ..., source = "..." }, or the value alone'),
        ({"value": "115 mph", "source": 3}, "site.wind_speed.source", "3 given; write a line of text in quotes"),
        ({"value": "115 mph", "source": " "}, "site.wind_speed.source", "nothing given; write a line of text in quotes"),
        ({"value": "115 mph", "source": "a\x1b[2Jb"}, "site.wind_speed.source",
         "a control character or line break given; write one line of plain text"),
        ({"value": "115 mph", "source": "x" * 301}, "site.wind_speed.source", "301 characters given; allowed are 300"),
    ],
)  # fmt: skip
def test_half_a_source_is_refused(value: object, path: str, sentence: str) -> None:
    with pytest.raises(InputError) as refused:
        scenario_of(site__wind_speed=value)
    assert {each.path: each.message for each in refused.value.problems} == {path: sentence}


def test_a_wrong_value_is_refused_as_without_a_source() -> None:
    with pytest.raises(InputError) as refused:
        scenario_of(site__wind_speed=sourced("fast"))
    with pytest.raises(InputError) as alone:
        scenario_of(site__wind_speed="fast")
    assert refused.value.problems == alone.value.problems
