"""Places of attachments along the eave: at ribs, in pans, and where ribs meet rafters.

Ribs meet rafters each least common multiple of their spacings, and only in phase: arithmetic, no source needed.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.comparison.compare import Column, compare
from engine.comparison.figures import value_of
from engine.mounting.places import Places, no_places, places_along_eave
from engine.project.job import Job
from engine.units import INCH
from support import scenario_of
from support.balance import CHECKS
from support.generated import cases

LAG = {"lag": 1, "size": "5/16 in", "thread": "2 in", "specific_gravity": 0.42}
RAFTER = {"hardware__bracket": "rafter", "hardware__attachment_uplift": LAG}
IN_PAN = RAFTER | {"hardware__place": "pan"}


def house(ribs: float = 9, rafters: float = 24, first: float = 0, **changes: object) -> Job:
    """Swallow Cottage with ribs and rafters at these spacings [in], the first rafter at `first` [in]."""
    written = {
        "roof__rib_spacing": f"{ribs} in",
        "roof__rafters__spacing": f"{rafters} in",
        "roof__rafters__first": f"{first} in",
    }
    return scenario_of("swallow_cottage", **{**RAFTER, **written, **changes}).job


def inches(places: Places) -> np.ndarray:
    return places.x / INCH


@pytest.mark.parametrize(("ribs", "rafters", "each"), [(12, 16, 48), (16, 24, 48), (9, 24, 72), (24, 16, 48)])
def test_ribs_meet_rafters_each_least_common_multiple(ribs: float, rafters: float, each: float) -> None:
    places = places_along_eave(house(ribs, rafters))
    np.testing.assert_allclose(inches(places), np.arange(0, 44 * 12 + 1, each))
    np.testing.assert_allclose(places.rib, np.arange(len(places)) * each / ribs)
    assert places.pitch / INCH == pytest.approx(each)


@pytest.mark.parametrize(("size", "off", "meet"), [("5/16 in", 0.28, 8), ("5/16 in", 0.29, 0), ("1/4 in", 0.37, 8)])
def test_a_rib_meets_a_rafter_within_the_edge_distance_of_its_screw(size: str, off: float, meet: int) -> None:
    """0.75 - 1.5 D: 0.28 in for 5/16 in, 0.375 in for 1/4 in. 44 ft have 8 meetings, 72 in apart."""
    job = house(first=off, hardware__attachment_uplift={**LAG, "size": size})
    assert len(places_along_eave(job)) == meet
    assert (no_places(job) is None) == bool(meet)


def test_out_of_phase_nothing_meets_and_the_miss_is_said() -> None:
    """Rafters at 22.5 + 24 k in: ribs at 45 and 72 in are 1.5 in off, that at 18 in is 4.5 in off."""
    refused = no_places(house(first=22.5))
    assert refused
    assert refused.reason == (
        "No rib meets a rafter: ribs are 9.00 in (229 mm) apart and rafters 24.00 in (610 mm); the nearest rib misses "
        "a rafter's middle by 1.50 in (38 mm), allowed is 0.28 in (7 mm). Put the holes in the flat pan "
        '(hardware.place = "pan"), or screw the brackets to the deck'
    )
    columns = compare(scenario_of("swallow_cottage", **RAFTER)).columns
    assert [column.status for column in columns] == ["refused"] * 3


def test_midway_between_two_ribs_the_one_nearer_the_middle_counts() -> None:
    """Ribs 9 in and rafters 36 in apart, from 4.5 in on: all are midway, and a roof of 44 ft has its middle at 264 in."""
    places = places_along_eave(house(rafters=36, first=4.5, hardware__place="pan"))
    nearer = np.where(inches(places) < 264, inches(places) + 4.5, inches(places) - 4.5)
    np.testing.assert_allclose(places.rib * 9, nearer)


def test_the_pan_frees_the_brackets_to_the_rafters() -> None:
    """At every rafter that is 1.5 in or more from the middle of a rib (judgement)."""
    places = places_along_eave(house(first=22.5, hardware__place="pan"))
    np.testing.assert_allclose(inches(places), np.arange(22.5, 44 * 12, 24))
    np.testing.assert_allclose(np.abs(places.rib * 9 - inches(places)).max(), 4.5)
    in_phase = places_along_eave(house(hardware__place="pan"))
    assert not np.isin(inches(in_phase).round(6), np.arange(0, 529, 72)).any()
    every = house(ribs=24, first=1, hardware__place="pan")
    assert "Every rafter lies within 1.50 in" in no_places(every).reason  # type: ignore[union-attr]


def test_on_a_deck_every_rib_or_pan_is_a_place() -> None:
    at_ribs = places_along_eave(house(hardware__bracket="deck", hardware__attachment_uplift=None))
    np.testing.assert_allclose(inches(at_ribs), np.arange(0, 529, 9)[: len(at_ribs)])
    changes = {"hardware__bracket": "deck", "hardware__place": "pan", "hardware__attachment_uplift": None}
    in_pans = places_along_eave(house(**changes))  # type: ignore[arg-type]
    np.testing.assert_allclose(inches(in_pans), inches(at_ribs)[:-1] + 4.5)


@given(st.sampled_from([9, 12, 16]), st.sampled_from([16, 24]), st.integers(0, 64))
@cases(30)
def test_the_mirror_image_has_the_mirrored_places(ribs: float, rafters: float, quarters: int) -> None:
    """Ribs from rake to rake, 48 ft: the mirror image of rafters begins as far from the other rake.

    A first rafter one whole spacing from the rake has no image: the other roof would have to lack its last one.
    """
    length, first = 48 * 12, quarters / 4 % rafters
    for place in ("rib", "pan"):
        changes = {"building__length": "48 ft", "hardware__place": place}
        places, image = (
            places_along_eave(house(ribs, rafters, at, **changes)) for at in (first, (length - first) % rafters)
        )
        np.testing.assert_allclose(inches(places), length - inches(image)[::-1], atol=1e-9)


def columns(**changes: object) -> dict[str, Column]:
    return {column.id: column for column in compare(scenario_of("swallow_cottage", **changes)).columns}


def assert_over_rafters(x: np.ndarray) -> None:
    """Swallow Cottage's rafters are at 22.5 + 24 k in."""
    bays = (x / INCH - 22.5) / 24
    np.testing.assert_allclose(bays, np.rint(bays), atol=1e-9)


def test_a_house_with_screwed_sheet_gets_verdicts() -> None:
    """Deck brackets: rails and modules on ribs end at the deck's nails. On rafters the rails hold."""
    on_deck = columns()
    assert [on_deck[method].status for method in ("rail", "direct")] == ["incomplete", "incomplete"]
    on_rafters = columns(**IN_PAN)["rail"]
    assert on_rafters.status == "holds"
    assert value_of(on_rafters, "spacing") == "every 2nd rafter + 2"
    assert on_rafters.checks["attachment"].place.name.startswith("pan at rib ")


def test_attachments_on_rafters_are_at_their_middles_and_load_no_sheet() -> None:
    on_rafters = compare(scenario_of("swallow_cottage", **IN_PAN))
    for column in on_rafters.columns[::2]:
        assert column.design
        assert column.design.candidate
        assert_over_rafters(column.design.layout.attachments.x)
        assert not column.design.candidate.demands.fastening_from_attachments.any()
    for check in CHECKS:
        check(on_rafters)


def test_rails_up_the_slope_lie_over_rafters_anywhere_up_it() -> None:
    """A zone of 750 mm has a rafter, 24 in apart, under every column; the steps up the slope need no purlins."""
    rails = columns(**IN_PAN, methods__rail__runs="up the slope", module__clamp_zone=["100 mm", "850 mm"])["rail"]
    assert rails.design
    attachments = rails.design.layout.attachments
    assert_over_rafters(attachments.x)
    assert "step" in str(value_of(rails, "spacing"))


def test_too_few_meetings_name_the_cure() -> None:
    """72 in apart no module edge of 67.8 in crosses two, and a row of 7.5 ft crosses one."""
    refused = columns(**RAFTER, roof__rafters__first="0 in")
    assert [column.status for column in refused.values()] == ["refused"] * 3
    texts = [column.flags[0].text for column in refused.values()]
    assert "crosses fewer than two ribs on rafters" in texts[0]
    assert texts[1].startswith("Even at every rib on a rafter the array has 16 attachments")
    assert texts[2].startswith("The ribs on rafters are 72.00 in")
    assert all("flat pan" in text for text in texts[1:])


def test_a_rack_is_laid_out_and_priced_and_says_which_coefficient_it_needs() -> None:
    """At 6:12 no public coefficient covers tilted rows; a stated one is used."""
    for changes in ({}, IN_PAN):
        rack = columns(**changes)["tilted_rack"]
        assert rack.status == "outside scope"
        assert value_of(rack, "attachments")
        assert value_of(rack, "penetrations")
        assert value_of(rack, "total_cost")
        needed = next(flag for flag in rack.flags if flag.code == "coefficient_needed")
        assert "state its net_coefficient" in needed.text
    stated = columns(methods__tilted_rack__net_coefficient=1.3)["tilted_rack"]
    assert stated.status in ("holds", "over", "incomplete")


@pytest.mark.parametrize("bracket", [{}, IN_PAN], ids=["deck", "rafter"])
def test_more_wind_and_snow_never_relieve_a_bracket(bracket: dict[str, object]) -> None:
    """At one layout: every rib or rafter."""
    fixed = {**bracket, "methods__rail__spacing": "1 ribs"}
    for key, values in {
        "site__wind_speed": ("90 mph", "105 mph", "130 mph"),
        "site__ground_snow": ("0 psf", "20 psf", "40 psf"),
    }.items():
        used = [columns(**fixed, **{key: value})["rail"].checks["attachment"].utilisation for value in values]
        assert used == sorted(used)  # type: ignore[type-var]
