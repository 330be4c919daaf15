"""Purlins that do not fit the roof, or whose strength is no strength: each refused in one sentence."""

from __future__ import annotations

from typing import Any

import pytest

from engine.common.errors import InputError
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.project.roof_member import RoofMember
from engine.scenario.read import read_scenario
from engine.units import FOOT, POUND_FORCE
from support import laid_over, scenario_of, tables_of

SECTION = {"section_modulus": "1.8 in3", "yield_strength": "55 ksi"}


def refused(name: str = "kestrel_yard", **member: Any) -> dict[str, str]:
    with pytest.raises(InputError) as refusal:
        read_scenario(laid_over(tables_of(name), roof__member={"spans": "22 ft"} | member), METHODS, STANDARDS)
    return {problem.path.removeprefix("roof.member").strip("."): problem.message for problem in refusal.value.problems}


def member(name: str = "kestrel_yard", **given: Any) -> RoofMember:
    stated = scenario_of(name, roof__member={"spans": "22 ft"} | given).job.roof.member
    assert stated
    return stated


@pytest.mark.parametrize(
    ("changes", "path", "sentence"),
    [
        ({"spans": "25 ft"}, "spans", "25.00 ft (7.620 m) given, repeated; from wall to wall it is 220.00 ft (67.056 m): list spans that fill it"),
        ({"spans": ["25 ft", "25 ft"]}, "spans", "add up to 50.00 ft (15.240 m); from wall to wall it is 220.00 ft (67.056 m): list spans that fill it"),
        ({"spans": 22}, "spans", "22 given; write a length or a list of lengths, such as [\"20 ft\", \"25 ft\", \"20 ft\"]"),
        ({"spams": "22 ft"}, "spams", "unknown; did you mean 'spans'?"),
        ({"moment_up": "900 lb ft", **SECTION}, "section_modulus", "given beside roof.member.moment_up; give allowable moments, or section_modulus and yield_strength"),
        ({"moment_up": "900 lb ft", "moment_down_midspan": "900 lb ft"}, "moment_down_support", "missing; roof.member.moment_down_midspan needs it"),
        ({"section_modulus": "1.8 in3"}, "yield_strength", "missing; roof.member.section_modulus needs it"),
        ({"section_modulus": "1.8 ft2"}, "section_modulus", "'1.8 ft2' given; write a section modulus with its unit, such as '1.8 in3' or '29 cm3'; the unit 'ft2' is not one of in3, cm3, mm3"),
        ({"uplift_factor": 0.6}, "yield_strength", "missing; roof.member.uplift_factor needs it"),
        ({"uplift_factor": 1.7, **SECTION}, "uplift_factor", "1.7 given; allowed is 0.1 to 1"),
        ({"uplift_factor": 0.6, **SECTION}, "uplift_factor", "0.6 given on a standing seam roof; it needs roof.member.uplift_factor_source, such as a test by AISI S908"),
        ({"uplift_factor_source": "a test"}, "uplift_factor_source", "given without roof.member.uplift_factor; give both or neither"),
    ],
)  # fmt: skip
def test_what_is_no_purlin_is_refused(changes: dict[str, Any], path: str, sentence: str) -> None:
    assert refused(**changes)[path] == sentence


def test_decks_and_hip_roofs_have_no_such_purlins() -> None:
    assert refused("sparrow_lane", spans="20 ft")["spacing"] == "missing; rafters under a deck need it"
    joists = refused("sparrow_lane", spans="20 ft", runs="along the eave", spacing="4 ft")
    assert joists["first"] == "missing; joists under a deck need it"
    assert refused("kestrel_yard", spans="22 ft", spacing="5 ft")["spacing"] == (
        "given; purlins lie where the panel is fastened, along the eave"
    )
    far = refused("swallow_cottage", spans="16.77 ft", first="30 in")["first"]
    assert far == "30.00 in (762 mm) given; allowed is at most their spacing, 24.00 in (610 mm)"
    steep = refused("swallow_cottage", spans="44 ft", runs="along the eave", spacing="20 ft", first="18 ft")["first"]
    assert steep.endswith("allowed is at most the length of the roof there, 201.25 in (5,112 mm)")
    short = refused("swallow_cottage", spans="15 ft")["spans"]
    assert short == "15.00 ft (4.572 m) given, repeated; up the slope it is 16.77 ft (5.112 m): list spans that fill it"
    hip = laid_over(tables_of("kestrel_yard"), roof__member={"spans": "22 ft"}, building__roof_shape="hip")
    hip["site"]["standard"] = "ASCE 7-22"
    with pytest.raises(InputError, match="given on a hip roof, where members differ in length; not supported"):
        read_scenario(hip, METHODS, STANDARDS)


@pytest.mark.parametrize(
    ("changes", "path", "words"),
    [
        (
            {"runs": "along the eave", "spacing": "4 ft", "first": "1 ft"},
            "runs",
            "brackets on rafters need members that run",
        ),
        (
            {"spacing": "12 in"},
            "spacing",
            "12.00 in (305 mm) given; brackets on rafters need that of roof.rafters, 24.00 in",
        ),
        ({"first": "10.5 in"}, "first", "brackets on rafters need that of roof.rafters, 22.50 in (572 mm)"),
    ],
)
def test_brackets_on_rafters_stand_on_the_members_that_are_stated(
    changes: dict[str, Any], path: str, words: str
) -> None:
    lag = {"lag": 1, "size": "5/16 in", "thread": "2 in", "specific_gravity": 0.42}
    on_rafters = {"hardware__bracket": "rafter", "hardware__place": "pan", "hardware__attachment_uplift": lag}
    tables = laid_over(tables_of("swallow_cottage"), roof__member={"spans": "16.77 ft"} | changes, **on_rafters)
    if path == "runs":
        tables["roof"]["member"]["spans"] = "44 ft"
    with pytest.raises(InputError) as refusal:
        read_scenario(tables, METHODS, STANDARDS)
    messages = {problem.path: problem.message for problem in refusal.value.problems}
    assert words in messages[f"roof.member.{path}"]


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"spans": ["40 ft", "20 ft"]}, "0.7 given for a span of 40.00 ft (12.192 m); beyond 33.00 ft"),
        ({"spans": "20 ft", "yield_strength": "80 ksi"}, "0.7 given for 80.0 ksi (552 MPa); beyond 60.0 ksi"),
    ],
)
def test_an_uplift_factor_beyond_the_limits_of_its_table_needs_a_source(changes: dict[str, Any], words: str) -> None:
    """AISI S100-07 D6.1.1: spans to 33 ft, Fy to 60 ksi (public code texts). Finch Shed has screwed ribs."""
    given = {**SECTION, "uplift_factor": 0.7} | changes
    assert words in refused("finch_shed", **given)["uplift_factor"]
    source = given | {"uplift_factor_source": "a test"}
    assert member("finch_shed", **source).allowable


def test_one_span_is_repeated_and_several_stand_as_they_are() -> None:
    building = scenario_of().job.building
    assert member().supports(building, up_slope=False) / FOOT == pytest.approx([22 * number for number in range(11)])
    listed = member(spans="20 ft, 100 ft, 100 ft")
    assert listed.supports(building, up_slope=False) / FOOT == pytest.approx([0, 20, 120, 220])


def test_frames_stand_between_the_walls() -> None:
    """70 ft between walls 1 ft within the rakes, in four spans."""
    annex = scenario_of("magpie_annex").job
    assert annex.roof.member.supports(annex.building, up_slope=False) / FOOT == pytest.approx([1, 18.5, 36, 53.5, 71])


def test_allowable_moments_of_a_section() -> None:
    """Z 8 in: Se 1.8 in3, Fy 55 ksi, R 0.70: 0.70 x 1.8 x 55 / 1.67 = 41.5 kip in up, 59.3 kip in down."""
    kip_in = 1000 * POUND_FORCE * FOOT / 12
    allowable = member(**SECTION, uplift_factor=0.7, uplift_factor_source="a test").allowable
    assert allowable
    assert allowable.up is not None
    assert allowable.up / kip_in == pytest.approx(41.5, abs=0.05)
    assert allowable.midspan / kip_in == pytest.approx(59.3, abs=0.05)
    assert allowable.support == allowable.midspan
    without = member(**SECTION).allowable
    assert without
    assert without.up is None
    assert member().allowable is None
