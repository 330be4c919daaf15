"""Every bundled scenario shows what its first lines say it shows."""

from __future__ import annotations

import datetime
from math import atan, cos

import pytest

from engine.comparison.answer import answer_line
from engine.comparison.compare import Column, compare
from engine.comparison.figures import value_of
from engine.comparison.figures.verdict import not_checked, verdict_line
from engine.export.bundle import bundle
from engine.export.stamp import Stamp
from engine.studies.placement import placement
from engine.units import FOOT
from support import SCENARIOS, scenario_of


def columns(name: str, **changes: object) -> dict[str, Column]:
    return {column.id: column for column in compare(scenario_of(name, **changes)).columns}


def weakest(column: Column) -> str:
    assert column.controlling is not None
    return column.controlling.link


@pytest.mark.parametrize("path", sorted(SCENARIOS.glob("*.toml")), ids=lambda path: path.stem)
def test_each_says_what_it_shows_and_that_it_is_invented(path: object) -> None:
    text = path.read_text(encoding="utf-8")  # type: ignore[attr-defined]
    assert "What it shows:" in text[:300]
    assert "(invented)" in text
    assert "An invented job." in text


def test_kestrel_yard() -> None:
    """Spaced by its own span the rail holds and overloads the clips; modules on seams hold at the rule's minimum."""
    by_span, wider = (
        columns("kestrel_yard", methods__rail__spacing=spacing)["rail"] for spacing in ("rail span", "5 ribs")
    )
    assert value_of(by_span, "spacing") == "every 4th seam"
    assert by_span.checks["member"].utilisation <= 1 < wider.checks["member"].utilisation  # type: ignore[operator]
    assert (by_span.status, weakest(by_span)) == ("over", "roof_fastening")
    assert value_of(by_span, "fastening_utilisation") == pytest.approx(1.48, abs=0.005)  # README: 1.5 times
    yard = columns("kestrel_yard")
    assert yard["rail"].status == yard["direct"].status == "holds"
    assert value_of(yard["direct"], "attachments") == value_of(yard["direct"], "attachments_minimum")
    assert value_of(yard["rail"], "attachments") == 2 * value_of(by_span, "attachments")  # type: ignore[operator]
    assert value_of(by_span, "attachments") < value_of(yard["direct"], "attachments")  # type: ignore[operator]


@pytest.mark.slow
def test_kestrel_yard_wherever_the_array_lies() -> None:
    """Its first lines say at how many of 40 places each method holds, also set out inaccurately."""
    maps = {each.column.id: each for each in placement(compare(scenario_of("kestrel_yard"))).maps}
    assert {method: each.holding for method, each in maps.items()} == {"rail": 40, "tilted_rack": 40, "direct": 40}
    assert {round(place.up / FOOT) for place in maps["rail"].places} == {0, 1, 2, 3, 4}
    pairs = zip(maps["rail"].places, maps["tilted_rack"].places, strict=True)
    assert all(rack.attachments > rail.attachments for rail, rack in pairs)


@pytest.mark.slow
def test_kestrel_yards_rails_by_their_own_span_are_over_wherever_the_array_lies() -> None:
    (rail,) = placement(compare(scenario_of("kestrel_yard", methods__rail__spacing="rail span"), ("rail",))).maps
    assert len(rail.places) == 40
    assert rail.holding == 0
    assert round(min(place.verdict.utilisation for place in rail.places), 1) == 1.4
    assert round(max(place.verdict.utilisation for place in rail.places), 1) == 1.7


@pytest.mark.slow
def test_kestrel_yards_rails_fail_at_some_places_below_the_setback() -> None:
    (rail,) = placement(compare(scenario_of(array__setbacks=None, array__origin=["40 ft", "13.5 ft"]), ("rail",))).maps
    lowest = [place for place in rail.places if place.up == 0]
    assert 0 < sum(place.verdict.status == "over" for place in lowest) < len(lowest)


def test_dunlin_hall() -> None:
    """By EN 1991: the rail's own span overloads the clips; attached as the roof allows rails hold, and modules on seams.

    The rack is outside: the standard has no wind on tilted modules.
    """
    by_span = columns("dunlin_hall", methods__rail__spacing="rail span")["rail"]
    assert (by_span.status, weakest(by_span)) == ("over", "roof_fastening")
    hall = columns("dunlin_hall")
    assert [column.status for column in hall.values()] == ["holds", "outside scope", "holds"]
    assert "no wind on tilted modules" in hall["tilted_rack"].flags[0].text


def test_dunlin_hall_without_coefficients_for_its_array() -> None:
    """The cautious fallback is from no standard: nothing holds, whatever the utilisation, and there is no answer."""
    comparison = compare(scenario_of("dunlin_hall", site__cp_net="cautious fallback"))
    for column in comparison.columns:
        if column.candidate:
            assert column.status in ("incomplete", "over")
            assert "net coefficients from no standard" in " ".join(flag.text for flag in column.flags)
    assert answer_line(comparison).startswith("No answer: wind on modules by net coefficients from no standard")
    for file in bundle(comparison, Stamp(datetime.date(2026, 3, 4), "si")):
        written = file.make()
        if isinstance(written, str) and not file.name.endswith(".schema.json"):
            assert "net coefficients from no standard" in written, file.name


def test_magpie_annex() -> None:
    """A drift and sliding snow from the hall's roof, several times that of the open roof; no attachment on an overhang."""
    annex = columns("magpie_annex")
    for method in ("rail", "direct"):
        column = annex[method]
        assert column.status == "holds"
        assert {"snow_drift_step", "snow_sliding", "overhang"} <= {flag.code for flag in column.flags}
        assert column.candidate
        demands = column.candidate.demands
        assert demands.roof_members
        loads = demands.roof_members.without_array.sum(axis=1)
        at = {combination.name: loads[:, number] for number, combination in enumerate(demands.combinations)}
        open_roof, drift, sliding = (at[name] - at["D"] for name in ("D + S", "D + S drift step", "D + S sliding"))
        assert (drift / open_roof).max() > 3
        assert (sliding / open_roof).max() > 2
        assert drift[:4] == pytest.approx(open_roof[:4])
        attachments = demands.layout.attachments
        assert attachments.y.min() > 2 * FOOT / cos(atan(2 / 12))
        assert 1 * FOOT < attachments.x.min() < attachments.x.max() < 71 * FOOT
    assert annex["tilted_rack"].status == "outside scope"


def test_sparrow_lane() -> None:
    """Flush methods hold on close clips; the rack is outside the wind standard's scope at 6:12."""
    house = columns("sparrow_lane")
    assert [house[method].status for method in ("rail", "direct")] == ["holds", "incomplete"]
    assert house["tilted_rack"].status == "outside scope"
    assert "26.57 deg" in house["tilted_rack"].flags[0].text


def test_swallow_cottage() -> None:
    """Brackets on the deck end at its nails; on rafters only in the pan, where no nails of the deck count."""
    house = columns("swallow_cottage")
    assert [house[method].status for method in ("rail", "direct")] == ["incomplete", "incomplete"]
    assert house["tilted_rack"].status == "outside scope"
    lag = {"lag": 1, "size": "5/16 in", "thread": "2 in", "specific_gravity": 0.42}
    changes = {"hardware__bracket": "rafter", "hardware__attachment_uplift": lag}
    assert columns("swallow_cottage", **changes)["rail"].status == "refused"
    assert columns("swallow_cottage", **changes, hardware__place="pan")["rail"].status == "holds"


def test_heron_depot() -> None:
    """Tilted rows meet more wind than modules lying flat, and want more roof for the same modules."""
    depot = columns("heron_depot")
    assert depot["tilted_rack"].status == "holds"
    rack, direct = depot["tilted_rack"].design, depot["direct"].design
    assert rack
    assert direct
    assert rack.candidate
    assert direct.candidate
    assert rack.candidate.demands.module_pressure.min() < 0
    tops = [float(design.field.outlines.high.max() - design.field.outlines.low.min()) for design in (rack, direct)]
    assert tops[0] > tops[1]
    assert (
        abs(rack.candidate.demands.attachment_in_plane).max() > abs(direct.candidate.demands.attachment_in_plane).max()
    )


def test_wren_workshop() -> None:
    """Every bracket makes holes, counted and sealed; the panel's screws pull and shear at once."""
    shop = columns("wren_workshop")["direct"]
    assert shop.status == "incomplete"
    assert value_of(shop, "penetrations") == 4 * value_of(shop, "attachments")  # type: ignore[operator]
    assert (
        "uplift and shear" in next(check for check in shop.checks.values() if check.link == "roof_fastening").place.name
    )


def test_plover_terrace() -> None:
    """The fixed point, not the clip, is the weakest link; the roof is too short for the tilted rows."""
    terrace = columns("plover_terrace")
    assert weakest(terrace["rail"]) == weakest(terrace["direct"]) == "fixed_point"
    assert terrace["tilted_rack"].status == "refused"


def test_finch_shed() -> None:
    """A roof known from pull tests: means divided by three or more; nothing that is checked is over."""
    shed = scenario_of("finch_shed")
    for capacity in (shed.job.roof.fastening.uplift, shed.job.hardware.attachment_uplift):
        assert capacity[0].modes()[0].safety_factor >= 2.9
    assert [column.status for column in columns("finch_shed").values()] == [
        *("incomplete", "outside scope", "incomplete"),
    ]


NOT_CHECKED = {
    ("dunlin_hall", "rail"): "",
    ("dunlin_hall", "direct"): "",
    ("kestrel_yard", "rail"): "",
    ("kestrel_yard", "tilted_rack"): "",
    ("kestrel_yard", "direct"): "",
    ("heron_depot", "rail"): "",
    ("heron_depot", "tilted_rack"): "",
    ("heron_depot", "direct"): "module frame (module maker)",
    ("magpie_annex", "rail"): "",
    ("magpie_annex", "direct"): "",
    ("plover_terrace", "rail"): "",
    ("plover_terrace", "direct"): "module frame (module maker)",
    ("sparrow_lane", "rail"): "",
    ("sparrow_lane", "direct"): "module frame (module maker)",
    ("wren_workshop", "rail"): "rib at the bracket (roof maker); purlins (building engineer)",
    ("wren_workshop", "direct"): "module frame (module maker); rib at the bracket (roof maker); purlins (building engineer)",
    ("swallow_cottage", "rail"): "deck nails, up (building engineer)",
    ("swallow_cottage", "direct"): "deck nails, up (building engineer)",
    ("finch_shed", "rail"): "rib at the bracket, down (roof maker); purlins (building engineer)",
    ("finch_shed", "direct"): "module frame (module maker); rib at the bracket, down (roof maker); purlins (building engineer)",
}  # fmt: skip
"""What each method leaves unchecked, read by hand from the strengths that the file states."""


@pytest.mark.parametrize(("name", "method"), NOT_CHECKED)
def test_what_a_bundled_method_leaves_unchecked(name: str, method: str) -> None:
    column = columns(name)[method]
    assert not_checked(column) == NOT_CHECKED[name, method]
    assert (column.status == "holds") == (not NOT_CHECKED[name, method] and column.status != "over")
    assert verdict_line(column).startswith(f"{column.status.word} ")
