"""A scenario's tables: which must be there, and what is said where one is not."""

from __future__ import annotations

import pytest

from engine.common.combination import Combination
from engine.common.errors import InputError
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.project.hardware import Hardware
from engine.project.permit_documents import PermitDocuments
from engine.scenario.read import read_scenario
from engine.strength import strength
from engine.units import FOOT, INCH, POUND_FORCE
from support import laid_over, scenario_of, tables_of


def problems(**changes: object) -> dict[str, str]:
    with pytest.raises(InputError) as refused:
        read_scenario(laid_over(tables_of("kestrel_yard"), **changes), METHODS, STANDARDS)
    return {problem.path: problem.message for problem in refused.value.problems}


@pytest.mark.parametrize("table", ["building", "roof", "module", "array"])
def test_a_table_that_must_be_there(table: str) -> None:
    assert problems(**{table: None}) == {table: f"missing; the scenario needs a table [{table}]"}


def test_tables_that_may_be_left_out() -> None:
    """The defaults stand in for hardware and documents, and every method is compared."""
    scenario = scenario_of(hardware=None, methods=None, papers=None)
    assert (scenario.job.hardware, scenario.job.papers) == (Hardware(), PermitDocuments())
    assert scenario.methods == tuple(method() for method in METHODS.values())


@pytest.mark.parametrize(
    ("changes", "path", "said"),
    [
        ({"site": None}, "site", "missing; the scenario needs a table [site]"),
        ({"site": 4}, "site", "write a table [site]"),
        ({"site__standard": None}, "site.standard", "missing; allowed is 'ASCE 7-16' or 'ASCE 7-22'"),
        ({"site__standard": "ASCE 7-10"}, "site.standard", "'ASCE 7-10' given; allowed is 'ASCE 7-16' or 'ASCE 7-22'"),
        ({"site__standard": 7}, "site.standard", "7 given; allowed is 'ASCE 7-16' or 'ASCE 7-22'"),
        ({"roof__edge_strip": "10 ft", "roof__edge_support_spacing": "5.1 ft"}, "roof.edge_support_spacing", "5.10 ft (1.554 m) given; allowed is at most roof.support_spacing, 5.00 ft"),
        ({"array__height_above_roof": "1.9 in"}, "array.height_above_roof", "1.90 in (48 mm) given; allowed is at least hardware.attachment_height, 2.00 in (51 mm)"),
        ({"roof__panel": "x" * 90}, "roof.panel", "'" + "x" * 57 + "...' given; allowed is a table"),
        ({"roof__panel": "strong"}, "roof.panel", "'strong' given; allowed is a table"),
    ],
)  # fmt: skip
def test_what_is_said(changes: dict[str, object], path: str, said: str) -> None:
    found = problems(**changes)
    assert list(found) == [path]
    assert found[path].startswith(said)


def test_entries_of_a_list_are_counted_from_one() -> None:
    good, bad = {"at": ["1 ft", "1 ft"], "size": ["4 ft", "8 ft"]}, {"at": ["1 ft"], "size": ["4 ft", "8 ft"]}
    assert list(problems(array__keep_clear=[good, bad])) == ["array.keep_clear.2.at"]


def test_what_just_goes() -> None:
    """Bays in the edge strip as wide as all others, and modules at the height of their attachments."""
    close = {"roof__edge_strip": "10 ft", "roof__edge_support_spacing": "5 ft"}
    job = scenario_of(**close, array__height_above_roof="2 in").job
    assert job.roof.edge_support_spacing == job.roof.support_spacing == 5 * FOOT
    assert job.height_above_roof == job.hardware.attachment_height == 2 * INCH


PLYWOOD = {"wood_screws": 2, "size": "#10", "thread": "15/32 in", "specific_gravity": 0.42}
WIND = Combination("wind", {}, "wind")


@pytest.mark.parametrize(
    ("temperature", "pounds"), [(None, 114.6), ("hot", 114.6), ("hot deck", 100.3), ("cool", 143.3)]
)
def test_wood_screws_have_the_temperature_of_the_roof(temperature: str | None, pounds: float) -> None:
    """143 lb times 0.8, 0.7 and 1.0, in roof and hardware alike; hot is the default."""
    changes = {"roof__wood_temperature": temperature, "hardware__attachment_uplift": PLYWOOD}
    if temperature == "cool":
        changes["roof__wood_temperature_source"] = "measured by the owner in July"
    roof = {"roof__fastening__uplift": [PLYWOOD, {"allowable": "900 lb"}]}
    job = scenario_of(**{key: value for key, value in (changes | roof).items() if value is not None}).job
    for capacity in (job.roof.fastening.uplift, job.hardware.attachment_uplift):
        assert strength(capacity).resistance(WIND) / POUND_FORCE == pytest.approx(pounds, abs=0.05)


def test_cool_wood_needs_a_source() -> None:
    found = problems(roof__wood_temperature="cool")
    assert found == {"roof.wood_temperature": "'cool' given; it needs roof.wood_temperature_source too"}


@pytest.mark.parametrize(("seams", "ribs"), [("1 seam", "1 rib"), ("2 seams", "2 ribs"), ("1.5 seams", "1.5 ribs")])
def test_a_spacing_may_be_written_in_seams_as_screens_say_it(seams: str, ribs: str) -> None:
    asked, same = (scenario_of(methods__rail__spacing=words).methods[0].spacing for words in (seams, ribs))
    assert asked == same
    assert asked.rule == "fixed"
