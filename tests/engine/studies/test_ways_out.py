"""Ways out of a method that is over: each helps when it is applied, and says the right figures."""

from __future__ import annotations

import math
from itertools import product

import numpy as np
import pytest

from engine.comparison.compare import Column, Comparison, compare
from engine.design.design import Design
from engine.design.status import Status
from engine.links import Check, attachment
from engine.studies.ways_out import ALL_KINDS, WayOut, ways_out
from engine.studies.ways_out.whole_box import holds_in_box
from engine.units import FOOT, INCH, POUND_FORCE
from support import WEAKER_ROOF, scenario_of

SURVEYED = WEAKER_ROOF | {"roof__first_rib": "0 in"}
EXACT = {"placement__tolerance": "0 in", "placement__tolerance_per_seam": "0 in"}
"""Nothing is set out inaccurately, so that figures by hand are those of one place."""


def of(method: str, *kinds: str, name: str = "kestrel_yard", **changes: object) -> tuple[Column, dict[str, WayOut]]:
    """A method that is over, and its ways out of some kinds."""
    (found,) = ways_out(compare(scenario_of(name, **changes), (method,)), kinds=kinds)
    return found.column, {way.kind: way for way in found.ways}


def test_the_strength_asked_for_is_the_largest_load() -> None:
    """Statics by hand: only uplift counts against a clip, so the allowable that it needs is its load, rounded up.

    A test to failure with the safety factor of the stated one, 2.0, has to reach twice that.
    """
    column, ways = of("rail", "strength", **WEAKER_ROOF, **EXACT)
    check = column.decisive
    assert check
    assert check.title == "clip"
    needed = math.ceil((check.demand or 0.0) / POUND_FORCE)
    assert needed > 350  # 70 psf x 24 in x 5 ft / 2.0 is stated
    proposal = ways["strength"].proposal
    assert proposal.changes == {("roof", "fastening", "uplift"): {"allowable": f"{needed} lb"}}
    pressure = 2 * needed / (2 * 5)  # the test's load over 24 in x 5 ft
    test = f"a test to failure of {2 * needed} lb or {pressure:.1f} psf at 24.00 in x 5.00 ft, safety factor 2"
    assert proposal.text == f"the roof maker shows {needed} lb for the clip, uplift ({test})"


def test_a_strength_in_newtons_is_asked_for_in_newtons() -> None:
    """By hand: the clip's load in kN, rounded up to 0.01 kN; at a safety factor of 2.0 a test reaches twice that."""
    written = {"tested": "3.11 kN", "safety_factor": 2.0}
    column, ways = of("rail", "strength", **WEAKER_ROOF | {"roof__fastening__uplift": written}, **EXACT)
    check = column.decisive
    assert check
    needed = math.ceil((check.demand or 0.0) / 10) / 100
    proposal = ways["strength"].proposal
    assert proposal.changes == {("roof", "fastening", "uplift"): {"allowable": f"{needed:.2f} kN"}}
    test = f"a test to failure of {2 * needed:.2f} kN, safety factor 2"
    assert proposal.text == f"the roof maker shows {needed:.2f} kN for the clip, uplift ({test})"


def test_a_new_roof_is_chosen_stronger_or_with_closer_purlins() -> None:
    """Every wider spacing of the purlins in steps of 6 in is over; on a roof that stands nobody moves them."""
    assert not of("rail", "closer_supports", **WEAKER_ROOF)[1]
    _, ways = of("rail", "closer_supports", "strength", **WEAKER_ROOF, roof__existing=False)
    assert ways["strength"].text.startswith("choose a roof with ")
    way = ways["closer_supports"]
    (written,) = way.proposal.changes.values()
    inches = int(written.removesuffix(" in"))
    assert inches in (54, 48, 42, 36, 30)
    assert way.text == f"space the purlins of the new roof {inches / 12:.2f} ft apart"
    assert np.diff(way.design.job.roof.supports(way.design.job.building))[1] == pytest.approx(inches * INCH)
    for wider in range(inches + 6, 60, 6):
        there = compare(scenario_of(**WEAKER_ROOF, roof__support_spacing=f"{wider} in"), ("rail",)).columns[0]
        assert there.design
        assert not holds_in_box(there.design, scenario_of().standard)


def test_a_layout_that_an_inch_off_would_break_comes_closer() -> None:
    """The tilted rack holds at its place alone; a closer uniform spacing, counted by hand, holds an inch off too."""
    column, ways = of("tilted_rack", "closer", **WEAKER_ROOF)
    assert column.status.nothing_over
    way = ways["closer"]
    assert way.proposal.changes["methods", "tilted_rack", "spacing"] == "2 ribs"
    assert way.text == "attach it more closely: every 2nd seam, staggered"
    before = column.design
    assert before
    assert len(way.design.layout.attachments) > len(before.layout.attachments)


def test_a_corner_left_out_keeps_all_other_modules_where_they_are() -> None:
    """Of 144 modules 143 stay; the one at the end of the lowest row is gone, and nothing else is."""
    column, ways = of("tilted_rack", "leave_out", **WEAKER_ROOF)
    way = ways["leave_out"]  # the last of this kind
    assert way.text == "leave out the module at the left end of the lowest row, and check the strings"
    assert column.design
    before, after = (places_of(design) for design in (column.design, way.design))
    assert before - after == {min(before)}
    assert after < before


def places_of(design: Design) -> set[tuple[float, float]]:
    """Lower left corners of the modules, those of the lowest row first."""
    at = design.field.outlines
    return set(zip(at.low.round(6).tolist(), at.left.round(6).tolist(), strict=True))


def test_no_place_but_the_roof_itself_helps_a_roof_that_fails_alone() -> None:
    """Clips that the wind on the bare roof overloads: only a stronger roof, or another one, is offered."""
    weak = {"roof__fastening__uplift": {"allowable": "200 lb"}, "roof__existing": False}
    column, ways = of("rail", *ALL_KINDS, **weak)
    assert column.roof_alone
    assert not column.roof_alone.holds
    assert set(ways) <= {"strength", "closer_supports"}
    assert "strength" in ways


def test_by_design_values_a_design_resistance_is_asked_for() -> None:
    """EN 1991: what the clip must carry is the design load itself, rounded up to 0.01 kN, with no safety factor."""
    weaker = {"roof__fastening__uplift": {"characteristic": "1.6 kN", "gamma_m": 1.33}}
    column, ways = of("rail", "strength", name="dunlin_hall", **weaker, **EXACT)
    way, check = ways["strength"], column.decisive
    assert check
    needed = math.ceil((check.demand or 0.0) / 10) / 100
    assert way.proposal.changes == {("roof", "fastening", "uplift"): {"design": f"{needed:.2f} kN"}}
    assert way.text == f"the roof maker shows {needed:.2f} kN (design resistance) for the clip, uplift"


def test_of_uplift_and_shear_only_the_main_load_asks_for_more() -> None:
    """T/Ta + V/Va = 1 by hand: with V/Va as it is, Ta must be T / (1 - V/Va)."""
    column, ways = of("rail", "strength", name="wren_workshop", **EXACT)
    check = column.decisive
    assert check
    uplift, shear = check.parts
    needed = uplift.demand / (1 - shear.ratio) / POUND_FORCE
    assert ways["strength"].proposal.changes == {
        ("roof", "fastening", "uplift"): {"allowable": f"{math.ceil(needed)} lb"}
    }


def test_an_attachment_under_a_single_load_asks_for_both_directions() -> None:
    """Where nothing acts along the slope the check does not say if the load goes up or down."""
    alone = Check("attachment", "attachment", "force", demand=3.0, resistance=2.0, utilisation=1.5)
    paths = attachment.LINK.strengths(scenario_of().job, alone)
    assert paths == ("hardware.attachment_uplift", "hardware.attachment_down")


def test_a_surveyed_roof_moves_the_array_to_the_nearest_place_that_holds_an_inch_around() -> None:
    """Steps of 3 in along the eave and 6 in up the slope; every corner of the square of 2 in is compared anew."""
    column, ways = of("rail", "move", **SURVEYED)
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
    assert not of("rail", "move", **WEAKER_ROOF, roof__first_rib=None)[1]


def test_rails_at_their_own_span_are_told_to_come_closer() -> None:
    _, ways = of("rail", "closer", methods__rail__spacing="rail span", **EXACT)
    assert ways["closer"].proposal.changes == {("methods", "rail", "spacing"): "fewest"}
    assert ways["closer"].column.status == Status.HOLDS


def test_a_rack_is_told_the_highest_lower_tilt_that_holds() -> None:
    """Every degree between the stated tilt and the one that is offered is over."""
    windy = {"array__rows": 2, "array__columns": 12, "site__wind_speed": "115 mph"}

    def at(degrees: int) -> Comparison:
        return compare(scenario_of(**windy, methods__tilted_rack__tilt=f"{degrees} deg"), ("tilted_rack",))

    (found,) = ways_out(at(14), kinds=("tilt",))
    (way,) = found.ways
    (tilt,) = way.proposal.changes.values()
    offered = int(tilt.removesuffix(" deg"))
    assert 3 <= offered < 13
    assert not any(at(degrees).columns[0].holds_within_tolerance for degrees in range(offered + 1, 14))
    assert at(offered).columns[0].holds_within_tolerance


def test_a_row_left_out_keeps_the_others_where_they_are() -> None:
    """Wren Workshop: without its highest row of eight the rails' screws hold, and 24 of 32 modules stay."""
    column, ways = of("rail", "leave_out", name="wren_workshop")
    before, after = column.design, ways["leave_out"].design
    assert before
    assert (before.field.modules, after.field.modules) == (32, 24)
    assert places_of(after) <= places_of(before)


def test_a_strength_also_carries_what_an_inch_off_brings() -> None:
    """Each corner of the square of 2 in is compared anew with the strength shown, and holds with the layout found."""
    column, ways = of("rail", "strength", **WEAKER_ROOF)
    exact = of("rail", "strength", **WEAKER_ROOF, **EXACT)[1]["strength"].proposal.changes
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
