"""Ways out of a method that is over: each helps when it is applied, and says the right figures."""

from __future__ import annotations

import math
from itertools import product

import pytest
from hypothesis import assume, given

from engine.comparison.compare import Column, Comparison, compare
from engine.design.status import Status
from engine.links import Check, attachment
from engine.scenario.changed import changed
from engine.studies.ways_out import KINDS, WayOut, needs_way_out, ways_out
from engine.units import FOOT, POUND_FORCE
from support import SCENARIOS, WEAKER_ROOF, scenario_of
from support.generated import JOBS, Changes, cases, comparison_of

SURVEYED = WEAKER_ROOF | {"roof__first_rib": "0 in"}
EXACT = {"placement__tolerance": "0 in"}
"""Nothing is set out inaccurately, so that figures by hand are those of one place."""


def of_rails(**changes: object) -> tuple[Column, dict[str, WayOut]]:
    """The rails, and their ways out by kind."""
    comparison = compare(scenario_of(**changes), ("rail",))
    (found,) = ways_out(comparison)
    return found.column, {way.kind: way for way in found.ways}


def test_the_strength_asked_for_is_the_largest_load() -> None:
    """Statics by hand: only uplift counts against a clip, so the allowable that it needs is its load, rounded up.

    A test to failure with the safety factor of the stated one, 2.0, has to reach twice that.
    """
    column, ways = of_rails(**WEAKER_ROOF, **EXACT)
    check = column.decisive
    assert check
    assert check.title == "clip"
    needed = math.ceil((check.demand or 0.0) / POUND_FORCE)
    assert needed > 350  # 70 psf x 24 in x 5 ft / 2.0 is stated
    proposal = ways["strength"].proposal
    assert proposal.changes == {("roof", "fastening", "uplift"): {"allowable": f"{needed} lb"}}
    expected = (
        f"the roof maker shows {needed} lb for the clip, uplift (a test to failure of {2 * needed} lb, safety factor 2)"
    )
    assert proposal.text == expected


def test_by_design_values_a_design_resistance_is_asked_for() -> None:
    """EN 1991: what the clip must carry is the design load itself, rounded up to 0.01 kN, with no safety factor."""
    weaker = {"roof__fastening__uplift": {"characteristic": "1.6 kN", "gamma_m": 1.33}}
    found = {each.column.id: each for each in ways_out(compare(scenario_of("dunlin_hall", **weaker), ("rail",)))}[
        "rail"
    ]
    way = next(way for way in found.ways if way.kind == "strength")
    check = found.column.decisive
    assert check
    needed = math.ceil((check.demand or 0.0) / 10) / 100
    assert way.proposal.changes == {("roof", "fastening", "uplift"): {"design": f"{needed:.2f} kN"}}
    assert way.proposal.text == f"the roof maker shows {needed:.2f} kN (design resistance) for the clip, uplift"


def test_of_uplift_and_shear_only_the_main_load_asks_for_more() -> None:
    """T/Ta + V/Va = 1 by hand: with V/Va as it is, Ta must be T / (1 - V/Va)."""
    comparison = compare(scenario_of("wren_workshop", **EXACT), ("rail",))
    (found,) = ways_out(comparison)
    check = found.column.decisive
    assert check
    uplift, shear = check.parts
    needed = uplift.demand / (1 - shear.ratio) / POUND_FORCE
    (way,) = (each for each in found.ways if each.kind == "strength")
    assert way.proposal.changes == {("roof", "fastening", "uplift"): {"allowable": f"{math.ceil(needed)} lb"}}


def test_an_attachment_under_a_single_load_asks_for_both_directions() -> None:
    """Where nothing acts along the slope the check does not say if the load goes up or down."""
    alone = Check("attachment", "attachment", "force", demand=3.0, resistance=2.0, utilisation=1.5)
    paths = attachment.LINK.strengths(scenario_of().job, alone)
    assert paths == ("hardware.attachment_uplift", "hardware.attachment_down")


def test_a_surveyed_roof_moves_the_array_to_the_nearest_place_that_holds_an_inch_around() -> None:
    """Steps of 3 in along the eave and 6 in up the slope; every corner of the square of 2 in is compared anew."""
    column, ways = of_rails(**SURVEYED)
    x, y = (float(text.split()[0]) for text in ways["move"].proposal.changes["array", "origin"])
    assert column.design
    before = column.design.job.origin
    assert (x - before[0] / FOOT) * 12 % 3 == pytest.approx(0, abs=1e-3)
    assert (y - before[1] / FOOT) * 12 % 6 == pytest.approx(0, abs=1e-3)
    for right, higher in product((-1, 1), (-1, 1)):
        origin = [f"{x + right / 12} ft", f"{y + higher / 12} ft"]
        there = compare(scenario_of(**SURVEYED, array__origin=origin), ("rail",)).columns[0]
        assert there.status.nothing_over


def test_no_move_is_offered_where_nobody_knows_the_seams() -> None:
    assert "move" in of_rails(**SURVEYED)[1]
    assert "move" not in of_rails(**WEAKER_ROOF, roof__first_rib=None)[1]


def test_rails_at_their_own_span_are_told_to_come_closer() -> None:
    _, ways = of_rails(methods__rail__spacing="rail span")
    assert ways["closer"].proposal.changes == {("methods", "rail", "spacing"): "fewest"}
    assert ways["closer"].column.status == Status.HOLDS


def test_a_rack_is_told_the_highest_lower_tilt_that_holds() -> None:
    """Every degree between the stated tilt and the one that is offered is over."""
    windy = {"array__rows": 2, "array__columns": 12, "site__wind_speed": "115 mph"}

    def at(degrees: int) -> Comparison:
        return compare(scenario_of(**windy, methods__tilted_rack__tilt=f"{degrees} deg"), ("tilted_rack",))

    (found,) = ways_out(at(14))
    (way,) = (each for each in found.ways if each.kind == "tilt")
    (tilt,) = way.proposal.changes.values()
    offered = int(tilt.removesuffix(" deg"))
    assert 3 <= offered < 13
    assert not any(at(degrees).columns[0].holds_within_tolerance for degrees in range(offered + 1, 14))
    assert at(offered).columns[0].holds_within_tolerance


def test_a_row_left_out_keeps_the_others_where_they_are() -> None:
    """Wren Workshop: without its highest row of eight the rails' screws hold, and 24 of 32 modules stay."""
    (found,) = ways_out(compare(scenario_of("wren_workshop"), ("rail",)))
    (way,) = (each for each in found.ways if each.kind == "leave_out")
    before, after = found.column.design, way.design
    assert before
    assert (before.field.modules, after.field.modules) == (32, 24)
    stay = set(zip(after.field.outlines.left.round(6), after.field.outlines.low.round(6), strict=True))
    assert stay <= set(zip(before.field.outlines.left.round(6), before.field.outlines.low.round(6), strict=True))


def test_a_strength_also_carries_what_an_inch_off_brings() -> None:
    """Each corner of the square of 2 in is compared anew with the strength shown, and holds with the layout found."""
    column, ways = of_rails(**WEAKER_ROOF)
    exact = of_rails(**WEAKER_ROOF, **EXACT)[1]["strength"].proposal.changes
    asked = ways["strength"].proposal.changes
    path = ("roof", "fastening", "uplift")
    assert allowable(asked[path]) > allowable(exact[path])
    assert ways["strength"].column.holds_within_tolerance
    assert column.status == Status.OVER


def allowable(written: object) -> int:
    """The pounds of a strength as a way out writes it."""
    assert isinstance(written, dict)
    return int(written["allowable"].removesuffix(" lb"))


def test_methods_that_hold_need_no_way_out() -> None:
    assert ways_out(compare(scenario_of())) == ()


def applied(comparison: Comparison) -> int:
    """Apply every way out to the scenario as its file has it; the number of ways."""
    found = [(each.column, way) for each in ways_out(comparison) for way in each.ways]
    for column, way in found:
        after = compare(changed(comparison.scenario, way.proposal.changes), (column.id,)).columns[0]
        assert after.holds_within_tolerance, (column.id, way.proposal.text)
        assert [way.kind for _, way in found if _ is column] == sorted(
            (way.kind for each, way in found if each is column), key=list(KINDS).index
        )
    return len(found)


@pytest.mark.parametrize("name", sorted(path.stem for path in SCENARIOS.glob("*.toml")))
def test_every_way_out_of_a_bundled_scenario_helps(name: str) -> None:
    comparison = compare(scenario_of(name))
    over = [column for column in comparison.columns if needs_way_out(column)]
    assert len(ways_out(comparison)) == len(over)
    applied(comparison)


@cases(6)
@given(JOBS)
def test_every_way_out_of_a_generated_job_helps(job: tuple[str, Changes]) -> None:
    name, changes = job
    comparison = comparison_of(name, changes)
    assume(any(map(needs_way_out, comparison.columns)))
    applied(comparison)
