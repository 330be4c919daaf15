"""Headroom and sensitivity: found on the same road, so a scenario changed by hand must agree."""

from __future__ import annotations

import pytest

from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from engine.design.design import Design, design
from engine.design.status import Status
from engine.scenario.vary import bounds_at, number_at, with_change
from engine.strength import strength
from engine.studies.headroom import find_root, headroom
from engine.studies.sensitivity import RAISED, sensitivity
from engine.units import FOOT, MPH, POUND_FORCE, PSF
from support import scenario_of

FIXED = {
    "methods__rail__spacing": "2 ribs",
    "methods__tilted_rack__spacing": "2 ribs",
    "methods__direct__spacing": "2 per edge",
}


def test_at_the_wind_speed_found_the_weakest_link_is_just_used_up() -> None:
    for found in headroom(compare(scenario_of(**FIXED))):
        wind = found.reaches[0]
        assert wind.at is not None
        column = compare(scenario_of(**FIXED, site__wind_speed=f"{wind.at / MPH:.6f} mph"), (found.id,)).columns[0]
        assert column.controlling is not None
        assert column.controlling.title == wind.link
        assert column.controlling.utilisation == pytest.approx(1.0, abs=2e-4)


def test_the_clip_needed_at_the_rails_own_span_by_hand() -> None:
    """Rails by rail span use the 430 lb clip to u; uplift does not depend on the clip, so it must carry 430 u lb."""
    by_span = compare(scenario_of(methods__rail__spacing="rail span"), ("rail",)).columns[0]
    needed = headroom(compare(scenario_of(), ("rail",)))[0].needed
    assert needed is not None
    assert value_of(by_span, "fastening_utilisation") is not None
    assert needed.stated / POUND_FORCE == pytest.approx(430, rel=1e-9)
    assert needed.needed / POUND_FORCE == pytest.approx(430 * value_of(by_span, "fastening_utilisation"), rel=1e-3)


def test_the_attachment_needed_at_the_rails_own_span_where_it_pierces_the_roof() -> None:
    """Finch Shed's bracket with the needed uplift is at its limit at the rail's span; down load and shear do not control."""
    weak: dict[str, object] = {
        "hardware__attachment_uplift": {"allowable": "100 lb"},
        "hardware__attachment_down": {"allowable": "9000 lb"},
        "hardware__attachment_in_plane": {"allowable": "9000 lb"},
        "methods__rail__spacing": "rail span",
    }
    (found,) = headroom(compare(scenario_of("finch_shed", **weak), ("rail",)))
    needed = found.attachment_needed
    assert needed is not None
    assert needed.stated / POUND_FORCE == pytest.approx(100, rel=1e-9)
    weak["hardware__attachment_uplift"] = {"allowable": f"{needed.needed / POUND_FORCE} lb"}
    (at_limit,) = compare(scenario_of("finch_shed", **weak), ("rail",)).columns
    assert value_of(at_limit, "attachment") == pytest.approx(1.0, abs=2e-3)


def test_no_attachment_is_needed_where_it_does_not_pierce_the_roof() -> None:
    assert headroom(compare(scenario_of(), ("rail",)))[0].attachment_needed is None


def test_snow_that_nothing_can_be_said_about() -> None:
    """Rails by their own span are over by wind whatever the snow; the sentence must not name a snow load."""
    snow = headroom(compare(scenario_of(methods__rail__spacing="rail span"), ("rail",)))[0].reaches[1]
    assert snow.at is None
    assert snow.over


def test_without_snow_it_is_found_how_much_there_may_be() -> None:
    """Nothing times three is nothing: snow is looked for from none on to a stated depth."""
    quiet = {**FIXED, "site__ground_snow": "0 psf", "site__wind_speed": "85 mph"}
    snow = headroom(compare(scenario_of(**quiet), ("direct",)))[0].reaches[1]
    assert snow.stated == 0
    assert snow.at is not None
    column = compare(scenario_of(**quiet | {"site__ground_snow": f"{snow.at / PSF:.9f} psf"}), ("direct",)).columns[0]
    assert column.controlling is not None
    assert max(column.controlling.ratio, value_of(column, "bare_roof_utilisation") or 0) == pytest.approx(1.0, abs=1e-3)


def test_each_input_is_changed_and_nothing_else() -> None:
    scenario = scenario_of()
    faster = with_change(scenario, "site.wind_speed", lambda speed: 1.1 * speed)
    assert faster is not None
    assert number_at(faster, "site.wind_speed") == pytest.approx(1.1 * 105 * MPH)
    assert number_at(faster, "site.ground_snow") == number_at(scenario, "site.ground_snow")
    stronger = with_change(scenario, "roof.fastening.uplift", lambda one: 2 * one)
    assert stronger is not None
    before, after = (strength(each.job.roof.fastening.uplift).modes[0].nominal for each in (scenario, stronger))
    assert after == pytest.approx(2 * before)
    assert with_change(scenario, "roof.fastening.bearing", lambda one: one) is None
    assert (
        with_change(
            scenario_of(site={"standard": "Made-up 1", "gust": "1 kPa", "snow": "1 kPa"}),
            "site.wind_speed",
            lambda one: one,
        )
        is None
    )


def test_nothing_is_asked_beyond_what_an_input_may_be() -> None:
    """The clauses end at 60 ft, and the map of wind speeds at what the field allows: 300 mph."""
    at_the_end = scenario_of(**FIXED, building__mean_roof_height="60 ft")
    assert bounds_at(at_the_end, "building.mean_roof_height")[1] == pytest.approx(60 * FOOT)
    compared = compare(at_the_end, ("direct",))
    height = next(
        effect
        for effect in sensitivity(compared)[0].effects
        if effect.perturbation.input.path == "building.mean_roof_height"
    )
    assert (height.up, height.down is None) == (None, False)
    assert headroom(compared)[0].reaches[0].searched == pytest.approx(300 * MPH)


def test_effects_are_ranked_and_agree_with_a_scenario_changed_by_hand() -> None:
    found = sensitivity(compare(scenario_of(**FIXED), ("direct",)))[0]
    changes = [effect.largest_change(found.now) for effect in found.effects]
    assert changes == sorted(changes, reverse=True)
    wind = next(effect for effect in found.effects if effect.perturbation.input.path == "site.wind_speed")
    windier = compare(scenario_of(**FIXED, site__wind_speed="115.5 mph"), ("direct",)).columns[0]
    assert windier.controlling is not None
    assert wind.up is not None
    assert wind.up.used == pytest.approx(windier.controlling.utilisation, rel=1e-9)
    assert wind.up.attachments == value_of(windier, "attachments")


@pytest.mark.parametrize(("power", "root"), [(1, 0.5), (2, 0.5**0.5), (6, 0.5 ** (1 / 6))])
def test_crossings_of_curves_known_by_hand(power: int, root: float) -> None:
    assert find_root(lambda x: 2 * x**power, 0.0, 3.0) == pytest.approx(root, abs=1e-3)
    assert find_root(lambda x: 2 - 2 * x**power, 0.0, 1.0) == pytest.approx(root, abs=1e-3)
    assert find_root(lambda x: 0.5 + 0 * x, 0.0, 3.0) is None


@pytest.mark.parametrize("power", [1, 2])
def test_a_root_takes_few_steps(power: int) -> None:
    """Each is a whole calculation. Snow counts as it is, wind by its square; the bracket is as wide as that of headroom."""
    tried: list[float] = []

    def utilisation(value: float) -> float:
        tried.append(value)
        return max(0.8, 0.5 * value**power)

    assert find_root(utilisation, 1.0, 5.0) == pytest.approx(2 ** (1 / power), abs=1e-3)
    assert len(tried) <= 12


def test_headroom_of_snow_is_sought_above_the_stated_snow() -> None:
    """Less snow than the members were designed for is an allowance less: the rack is over at 1 psf and holds at 25.

    Seen by hand: with the layout stated, the rack holds at 30 psf and is over at 40 psf.
    """
    stated = {"methods__tilted_rack__spacing": "3 ribs", "placement__tolerance": "0 in"}
    (rack,) = headroom(compare(scenario_of(**stated), ("tilted_rack",)))
    snow = next(reach for reach in rack.reaches if reach.input.path == "site.ground_snow")
    assert snow.at is not None
    assert 30 * PSF < snow.at < 40 * PSF
    for factor, is_over in ((0.999, False), (1.001, True)):
        there = {**stated, "site__ground_snow": f"{factor * snow.at / PSF} psf"}
        (column,) = compare(scenario_of(**there), ("tilted_rack",)).columns
        assert (column.status == Status.OVER) is is_over


@pytest.mark.parametrize("method", ["rail", "tilted_rack"])
def test_a_layout_that_still_holds_where_it_is_harder_is_what_a_search_finds(method: str) -> None:
    scenario = scenario_of()
    found, tried = sensitivity(compare(scenario, (method,)))[0], 0
    for effect in found.effects:
        path, harder, part = effect.perturbation.input.path, effect.perturbation.harder, effect.perturbation.part
        outcome = effect.up if harder == RAISED else effect.down
        changed = with_change(scenario, path, lambda value, by=1 + (harder or 0) * part: value * by)
        if harder is None or outcome is None or changed is None:
            continue
        searched = design(changed.job, *changed.methods_named((method,)), changed.standard)
        assert isinstance(searched, Design)
        assert outcome.attachments == len(searched.layout.attachments), path
        assert outcome.holds == searched.status.nothing_over, path
        tried += 1
    assert tried >= 7
