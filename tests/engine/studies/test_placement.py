"""Placement: maps of where a method holds, the tolerance of setting out, and roofs that nobody has surveyed."""

from __future__ import annotations

from itertools import product

import pytest

from engine.common.errors import InputError
from engine.comparison.answer import answer_line
from engine.comparison.compare import Column, Comparison, compare
from engine.design.status import Status
from engine.studies.placement import Placement, placement
from engine.units import FOOT, INCH
from support import WEAKER_ROOF, scenario_of

SMALL = {"array__rows": 2, "array__columns": 6, "placement__step": "12 in"}
"""A small array and few places: each is a whole design."""


NO_DRIFT = {"placement__tolerance_per_seam": "0 in"}


def rails(**changes: object) -> Column:
    return compare(scenario_of(**changes), ("rail",)).columns[0]


def moved(right: float, up: float) -> list[str]:
    """The origin of the default scenario, moved [ft]."""
    return [f"{40 + right} ft", f"{15.5 + up} ft"]


@pytest.mark.parametrize(("clip", "parts"), [("600 lb", (-1, 1)), ("405 lb", (-1, -0.5, 0, 0.5, 1))])
def test_the_verdict_within_tolerance_is_that_of_the_worst_place(clip: str, parts: tuple[float, ...]) -> None:
    """Corners of a square of 2 in and, where one is close to the limit, places between them, each compared anew.

    With 405 lb the rails hold at all four corners, and half an inch beside the place they do not.
    """
    small = {**SMALL, **NO_DRIFT, "methods__rail__spacing": "2 ribs", "roof__fastening__uplift": {"allowable": clip}}
    column = rails(**small)
    assert column.within_tolerance
    origins = [moved(part / 12, up / 12) for part, up in product(parts, (-1, 1))]
    there = [rails(**small, array__origin=origin) for origin in origins]
    utilisations = [each.design.verdict.utilisation for each in (column, *there) if each.design]
    assert column.within_tolerance.utilisation == pytest.approx(max(utilisations), rel=1e-9)


def test_a_larger_tolerance_never_uses_less() -> None:
    found = [rails(**SMALL, **NO_DRIFT, placement__tolerance=f"{inches} in").within_tolerance for inches in (0, 1, 3)]
    used = [each.utilisation for each in found if each]
    assert used[0] <= min(used[1:])
    assert rails(**SMALL, **NO_DRIFT, placement__tolerance="0 in").design.verdict.utilisation == used[0]  # type: ignore[union-attr]


def test_what_holds_only_if_set_out_exactly_is_no_answer_and_says_so() -> None:
    """Clips of 390 lb: rails hold at the stated place with 0.97, and an inch beside it they do not."""
    comparison = compare(scenario_of(**HOLDS_EXACTLY), ("rail", "direct"))
    column = comparison.columns[0]
    assert column.status == Status.HOLDS
    assert not column.holds_within_tolerance
    assert [flag.severity for flag in column.flags if flag.code == "tolerance"] == ["warning"]
    assert "Over if set out inaccurately: rails." in answer_line(comparison)


HOLDS_EXACTLY = {"roof__fastening__uplift": {"allowable": "390 lb"}}


def test_an_unsurveyed_roof_has_the_worst_of_the_places_tried() -> None:
    """Each place is compared anew from a scenario that states it: the most attachments of all, and none better shown."""
    column = rails(**SMALL, roof__first_rib=None)
    assert column.design
    assert column.design.places_tried == 4
    stated = [rails(**SMALL, roof__first_rib=f"{inches} in").design for inches in (0, 6, 12, 18)]
    assert len(column.design.layout.attachments) == max(len(each.layout.attachments) for each in stated if each)
    assert "not_surveyed" in [flag.code for flag in column.flags]


def test_unsurveyed_supports_stand_at_the_eave_and_anywhere_beyond() -> None:
    """A purlin every 5 ft after a first bay of 1.25, 2.5, 3.75 or 5 ft."""
    column = rails(**SMALL, roof__first_support=None)
    assert column.design
    roof, building = column.design.job.roof, column.design.job.building
    first, second, third = roof.supports(building)[:3] / FOOT
    assert first == 0
    assert second in (1.25, 2.5, 3.75, 5.0)
    assert third - second == pytest.approx(5)
    assert column.design.places_tried == 4


def map_of(**changes: object) -> tuple[Comparison, Placement]:
    comparison = compare(scenario_of(**SMALL, **changes), ("rail",))
    return comparison, placement(comparison)


def test_each_place_of_the_map_is_the_comparison_there() -> None:
    """Two places along one seam, five up one bay from the setback on, a foot apart; each is compared anew."""
    _, found = map_of(**WEAKER_ROOF | {"roof__first_rib": "0 in"})
    (rail,) = found.maps
    assert [place.along / INCH for place in rail.rows[0]] == pytest.approx([-12, 0])
    assert [row[0].up / FOOT for row in rail.rows] == pytest.approx([0, 1, 2, 3, 4])
    for place in rail.places:
        there = rails(
            **SMALL | WEAKER_ROOF, roof__first_rib="0 in", array__origin=moved(place.along / FOOT, place.up / FOOT)
        )
        assert there.design
        assert place.verdict.status == there.status
        assert place.attachments == len(there.design.layout.attachments)
        assert place.holds == there.holds_within_tolerance


def test_the_best_place_has_the_fewest_attachments_then_the_lowest_utilisation() -> None:
    _, found = map_of()
    (rail,) = found.maps
    usable = [place for place in rail.places if place.holds and place.clear]
    assert rail.best
    assert rail.best.attachments == min(place.attachments for place in usable)
    assert round(rail.best.verdict.utilisation, 2) == min(
        round(place.verdict.utilisation, 2) for place in usable if place.attachments == rail.best.attachments
    )
    assert found.shared == (rail.best.along, rail.best.up)


@pytest.mark.parametrize(
    ("setbacks", "ups"),
    [
        ({}, [-2, -1, 0, 1, 2]),
        ({"eave": "14.5 ft"}, [-1, 0, 1, 2, 3]),
        ({"eave": "16 ft"}, [0, 1, 2, 3, 4]),
        ({"ridge": "28.5 ft"}, [-4, -3, -2, -1, 0]),
        ({"eave": "14.5 ft", "ridge": "28.5 ft"}, [-1, 0]),
    ],
)
def test_the_window_lies_inside_the_setbacks(setbacks: dict[str, str], ups: list[float]) -> None:
    """The rails' two rows of 1,722 mm end 26.84 ft from the eave, 28.36 ft below the ridge; the stated place is kept."""
    _, found = map_of(array__setbacks=setbacks)
    (rail,) = found.maps
    assert [row[0].up / FOOT for row in rail.rows] == pytest.approx(ups)


def test_no_place_is_best_before_the_survey() -> None:
    _, found = map_of(roof__first_support=None)
    (rail,) = found.maps
    assert (rail.along.key, rail.up.key) == ("right", "first_bay")
    assert rail.best is None
    assert found.shared is None


def test_the_window_may_be_stated() -> None:
    _, found = map_of(placement__window=["12 in", "24 in"])
    (rail,) = found.maps
    assert [len(rail.rows), len(rail.rows[0])] == [2, 1]


def test_more_places_than_a_map_has_are_refused() -> None:
    """24 in by 5 ft in steps of 1 in: 1,440 places."""
    with pytest.raises(InputError) as refused:
        scenario_of(placement__step="1 in")
    assert [str(problem) for problem in refused.value.problems] == [
        "placement.step: 1,440 places of the array given; allowed are 400"
    ]
