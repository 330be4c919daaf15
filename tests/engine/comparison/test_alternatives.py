"""Alternatives: read, compared as a scenario with the same changes would be, ranked, and in every export."""

from __future__ import annotations

import io
from datetime import date

import pandas as pd
import pytest

from engine.common.errors import InputError
from engine.comparison.alternatives import BASELINE, beside, ranked, with_alternatives
from engine.comparison.compare import Comparison, compare
from engine.comparison.record import comparison_record
from engine.export.bundle import bundle
from engine.export.html_page import comparison_page
from engine.export.markdown import comparison_markdown
from engine.export.stamp import Stamp
from engine.export.table import alternatives_table
from support import scenario_of

SMALL = {"array__rows": 2, "array__columns": 4}
TWO_SEAMS = {"name": "every second seam", "set": {"methods.rail.spacing": "2 ribs"}}
FASTER = {"name": "hurricane", "set": {"site.wind_speed": "180 mph"}}
STAMP = Stamp(date(2026, 1, 1), "us")


def compared(*alternatives: object, **changes: object) -> Comparison:
    scenario = scenario_of("kestrel_yard", **SMALL, **changes, alternatives=list(alternatives))
    return with_alternatives(compare(scenario, ("rail", "direct")))


def test_an_alternative_is_the_scenario_with_its_changes() -> None:
    found = compared(TWO_SEAMS, FASTER)
    by_hand = compare(scenario_of("kestrel_yard", **SMALL, site__wind_speed="180 mph"), ("rail", "direct"))
    one, other = (comparison_record(each)["methods"] for each in (found.alternatives[1].comparison, by_hand))
    assert one == other
    assert comparison_record(found)["methods"] == comparison_record(compared())["methods"]
    assert compared().alternatives == ()


def test_they_are_ranked_by_verdict_then_attachments_then_the_order_given() -> None:
    """Where prices are placeholders; what is over comes after all that holds, however few attachments it has."""
    rows = ranked(compared(TWO_SEAMS, FASTER))
    assert [row.rank for row in rows] == list(range(1, 7))
    assert sorted({row.alternative for row in rows}) == ["as stated", "every second seam", "hurricane"]
    keys = [(row.column.rank, len(row.column.design.layout.attachments)) for row in rows if row.column.design]
    assert keys == sorted(keys)
    twins = [row.alternative for row in rows if row.column.id == "direct" and row.alternative != "hurricane"]
    assert twins == ["as stated", "every second seam"]


def test_stated_prices_rank_by_price_per_watt() -> None:
    """Two jobs that differ in the modules' power alone: the stronger module makes the same hardware cheaper by watt."""
    parts = {
        part: {"mass": "0.5 lb", "price": 7.77, "minutes": 3}
        for part in ("attachment", "middle_clamp", "end_clamp", "splice", "module_hook")
    }
    hardware = {"parts": parts, "rail": {"price": 99}}
    found = compared({"name": "stronger", "set": {"module.power": "500 W"}}, hardware=hardware)
    direct = [row.alternative for row in ranked(found) if row.column.id == "direct"]
    assert direct == ["stronger", "as stated"]


def test_a_baseline_may_stand_beside_them() -> None:
    other = compare(scenario_of("kestrel_yard", **SMALL, module__mass="30 kg"), ("rail",))
    rows = ranked(beside(compared(TWO_SEAMS), BASELINE, other))
    assert [row.column for row in rows if row.alternative == BASELINE] == list(other.columns)


@pytest.mark.parametrize(
    ("alternatives", "path", "sentence"),
    [
        ([TWO_SEAMS, TWO_SEAMS], "alternatives.every second seam.name", "'every second seam' given twice; give each its own name"),
        ([{"name": "as stated", "set": {}}], "alternatives.as stated.name", "'as stated' given twice; give each its own name"),
        ([{"name": "x"}], "alternatives.x.set", "missing; it has no default"),
        ([{"name": "x", "set": {"use": "p.toml"}}], "alternatives.x.set", "'use' given; an alternative keeps that of its file"),
        ([{"name": "x", "set": 3}], "alternatives.x.set",
         '3 given; write a table such as { "array.rows" = 3, "site.wind_speed" = "95 mph" }'),
        ([{"name": "x", "set": {"modul.mass": "3 kg"}}], "alternatives.x", "modul: unknown; did you mean 'module'?"),
        ([{"name": "x", "set": {"array.rows": 0}}], "alternatives.x.set.array.rows", "0 given; allowed is 1 to 1000"),
        ([{"name": f"a{n}", "set": {}} for n in range(21)], "alternatives", "21 given; allowed are 20"),
    ],
)  # fmt: skip
def test_a_wrong_alternative_is_refused_in_one_sentence(alternatives: list[object], path: str, sentence: str) -> None:
    with pytest.raises(InputError) as refused:
        scenario_of(alternatives=alternatives)
    assert {each.path: each.message for each in refused.value.problems} == {path: sentence}


def test_every_export_has_them() -> None:
    """The table, its CSV, the record, Markdown and the page; without any, the files are as they were."""
    found, none = compared(TWO_SEAMS, {"name": "=1+1", "set": {}}), compared()
    table = alternatives_table(found)
    assert table["alternative"].tolist() == [row.alternative for row in ranked(found)]
    files = {file.name: file for file in bundle(found, STAMP)}
    written = files["alternatives.csv"].make()
    assert isinstance(written, str)
    rows = pd.read_csv(io.StringIO(written), comment="#")
    assert rows["attachments"].tolist() == table["attachments"].tolist()
    assert not rows["alternative"].str.startswith("=").any()
    record = comparison_record(found)
    assert [each["name"] for each in record["alternatives"]] == ["every second seam", "=1+1"]
    assert record["alternatives"][0]["set"] == {"methods.rail.spacing": "2 ribs"}
    assert [each["alternative"] for each in record["ranking"]] == table["alternative"].tolist()
    for write in (comparison_markdown, comparison_page):
        assert "every second seam" in write(found, STAMP)
        assert "lternatives" not in write(none, STAMP)
    assert "alternatives.csv" not in {file.name for file in bundle(none, STAMP)}
    assert comparison_record(none)["alternatives"] == comparison_record(none)["ranking"] == []
