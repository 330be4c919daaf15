"""The promise: a fourth method and a second load standard take one new file and one registry line each.

Both doubles pass through comparison and exports; the standard has factored loads and design
resistances, so nothing on the road may assume allowable-stress design.
"""

from __future__ import annotations

import datetime
import json

import pytest

from engine.common.errors import InputError
from engine.comparison.compare import Comparison, compare
from engine.export.bundle import bundle
from engine.export.stamp import Stamp
from engine.export.text import to_text
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.read import read_scenario
from support import laid_over, tables_of
from support.made_up_method import TwinBars
from support.made_up_standard import Factored

METHODS_AND_ONE = {**METHODS, "twin_bars": TwinBars}
STANDARDS_AND_ONE = {**STANDARDS, "Made-up 1": Factored}
SITE = {"standard": "Made-up 1", "gust": "0.5 kPa", "snow": "0.6 kPa"}


def made_up(**changes: object) -> Comparison:
    tables = laid_over(tables_of("kestrel_yard"), **{"site": SITE, **changes})
    return compare(read_scenario(tables, METHODS_AND_ONE, STANDARDS_AND_ONE))


@pytest.fixture(scope="module")
def comparison() -> Comparison:
    return made_up()


def test_four_methods_by_two_strangers(comparison: Comparison) -> None:
    assert [column.id for column in comparison.columns] == ["rail", "tilted_rack", "direct", "twin_bars"]
    twin = comparison.columns[-1]
    assert twin.status == "holds"
    assert twin.member_limit
    assert twin.minimum == 2 * (144 + 24)  # six rows, each in four runs of six


def test_every_export_speaks_of_them(comparison: Comparison) -> None:
    stamp = Stamp(datetime.date(2026, 3, 4), "si")
    assert "twin" in to_text(comparison, stamp)
    made = {file.name: file.make() for file in bundle(comparison, stamp)}
    assert {"attachments_twin_bars.csv", "plan_twin_bars.svg", "plan_twin_bars.dxf"} <= set(made)
    for name, written in made.items():
        if isinstance(written, str):
            assert "Made-up 1" in written, name
            assert "twin" in written or not name.startswith("comparison"), name
    assert json.loads(made["comparison.json"])["methods"][-1]["method"] == "twin_bars"


def test_strengths_answer_with_partial_factors(comparison: Comparison) -> None:
    """The clip's test, 700 lb nominal, over 1.25 instead of 2.0: by hand 560 lb = 2491 N."""
    clip = next(check for check in comparison.columns[0].links if check.link == "roof_fastening")
    assert clip.resistance == pytest.approx(700 * 4.4482216 / 1.25)
    assert clip.demand
    assert clip.utilisation == pytest.approx(clip.demand / clip.resistance)


def test_a_method_may_refuse(comparison: Comparison) -> None:
    refused = made_up(roof__support="wood deck").columns[-1]
    assert refused.status == "refused"
    assert refused.flags[0].text == "Twin bars do not suit a wood deck. Use rails"
    assert refused.attachments is None


def test_a_standard_may_object() -> None:
    with pytest.raises(InputError, match=r"building.slope: 40.0 deg given; Made-up 1 speaks of slopes to 30 deg"):
        made_up(building__slope="40 deg")


def test_an_unknown_key_of_the_strangers_is_refused_too() -> None:
    with pytest.raises(Exception, match=r"did you mean 'gust'"):
        made_up(site=SITE | {"gusts": "1 kPa"})
