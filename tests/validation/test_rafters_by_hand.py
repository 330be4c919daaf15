"""By hand: Rafters and joists under a deck as beams: even load, the lever rule, a bracket on a rafter, equilibrium."""

from __future__ import annotations

from math import atan, cos
from typing import Any

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.links.roof_member import LINK
from engine.links.trail import CalculationTrail
from engine.units import FOOT, POUND_FORCE, PSF
from support import assert_told, scenario_of
from support.columns import demands, members, number
from support.published import verified

LENGTH, THETA = 15 / cos(atan(6 / 12)), atan(6 / 12)
RAFTERS: dict[str, Any] = {
    "kind": "rafter 2x8",
    "spans": ["16.77 ft"],
    "moment_down_midspan": "2200 lb ft",
    "moment_down_support": "2200 lb ft",
    "moment_up": "1500 lb ft",
}
JOISTS = RAFTERS | {"runs": "along the eave", "spacing": "3 ft", "first": "1 ft", "spans": ["11 ft"]}
ON_RAFTERS = {
    "hardware__bracket": "rafter",
    "hardware__place": "pan",
    "hardware__attachment_uplift": {"lag": 1, "size": "5/16 in", "thread": "2 in", "specific_gravity": 0.42},
}


def house(method: str = "direct", member: dict[str, Any] | None = None, **changes: object) -> Column:
    return compare(scenario_of("swallow_cottage", roof__member=member or RAFTERS, **changes), (method,)).columns[0]


def test_a_bare_rafter_under_an_even_load() -> None:
    """By hand: w = (1.5 cos θ + 14 cos² θ) psf x 23.625 in, w L²/8; its load acts at the sheet's screws, 2 ft apart.

    Ribs are 9 in apart: those 4.5, 13.5 and 22.5 in beside rafter 7 bring it 19.5/24, 10.5/24 and 1.5/24 of 9 in each, on
    both sides: 23.625 in. Point loads 2 ft apart change the moment at midspan by less than w (2 ft)²/8.
    """
    found = house()
    here = members(found)
    w = (1.5 * cos(THETA) + 14 * cos(THETA) ** 2) * 23.625 / 12
    even = w * LENGTH**2 / 8
    inner = here.bare.moments[6, :, number(found, "D + S")].max() / (POUND_FORCE * FOOT)
    assert abs(verified("a bare rafter, moment in D + S", even, inner, "lb ft") - even) < w * 2**2 / 8
    total = here.without_array[6, :, number(found, "D + S")].sum() / POUND_FORCE
    assert verified("a bare rafter, load in D + S", w * LENGTH, total, "lb") == pytest.approx(w * LENGTH, rel=1e-9)


def test_a_bracket_between_two_rafters_loads_both_by_its_distance() -> None:
    """By hand: ribs every 9 in, rafters at 22.5 + 24 n in: rib 13, at 108 in, is 13.5 in from rafter 4 (94.5) and 10.5 from 5."""
    found = house()
    here, used = members(found), demands(found)
    at, n = used.layout.attachments, number(found, "D + S")
    on_rib = np.flatnonzero(at.rib == 12)
    assert len(on_rib)
    for attachment in on_rib:
        place = int(np.abs(here.along - at.y[attachment]).argmin())
        others = np.isclose(at.y, at.y[attachment]) & (np.abs(at.x - at.x[attachment]) < 0.5)
        assert others.sum() == 1
        force = used.attachment_normal[attachment, n]
        received = here.from_attachments[[3, 4], place, n]
        np.testing.assert_allclose(received, force * np.array([10.5, 13.5]) / 24, rtol=1e-6)


def test_a_bracket_on_a_rafter_loads_that_one_alone() -> None:
    found = house("rail", **ON_RAFTERS)
    here, used = members(found), demands(found)
    forces, n = used.attachment_normal, number(found, "D + S")
    for line, x in enumerate(here.across):
        mine = np.isclose(used.layout.attachments.x, x, atol=1e-6)
        np.testing.assert_allclose(here.from_attachments[line, :, n].sum(), forces[mine, n].sum(), atol=1e-6)
    assert "deck" not in {entry.title for entry in found.unchecked.still_open}


@pytest.mark.parametrize("member", [RAFTERS, JOISTS], ids=["rafters", "joists"])
@pytest.mark.parametrize("method", ["rail", "direct"])
def test_what_the_attachments_bring_reaches_the_members(method: str, member: dict[str, Any]) -> None:
    """Forces, and moments about the edge along the members, in combinations without wind; all stand between members."""
    found = house(method, member)
    here, used = members(found), demands(found)
    calm = [not any(each.factors.get(case) for case in used.loads.wind_cases) for each in used.combinations]
    normal, at = used.attachment_normal[:, calm], used.layout.attachments
    along, across = (at.y, at.x) if here.up_slope else (at.x, at.y)
    given = here.from_attachments[..., calm]
    np.testing.assert_allclose(given.sum(axis=(0, 1)), normal.sum(axis=0), rtol=1e-9)
    np.testing.assert_allclose(here.along @ given.sum(axis=0), along @ normal, rtol=1e-6)
    np.testing.assert_allclose(here.across @ given.sum(axis=1), across @ normal, rtol=1e-6)


def test_the_whole_check_of_a_rafter_by_a_beam_worked_here() -> None:
    """By hand: The controlling rafter as a simple beam of 16.77 ft under the loads on it: R x - the loads before x."""
    found = house()
    check, here = found.checks["roof_member"], members(found)
    assert check.demand
    assert check.combination
    line = int(check.place.name.split()[1].strip(",")) - 1
    n, forces = number(found, check.combination), here.with_array[line]
    length, x = 16.77 * FOOT, float(check.place.y or 0.0)
    left = float(((length - here.along) / length) @ forces[:, n])
    before = here.along < x - 1e-9
    moment = left * x - float((x - here.along[before]) @ forces[before, n])
    assert verified("a rafter with the array, moment", abs(moment), check.demand, "N m") == pytest.approx(abs(moment))
    assert check.utilisation == pytest.approx(check.demand / (2200 * POUND_FORCE * FOOT), rel=1e-6)


def test_wind_on_a_rafter_is_that_of_its_own_area() -> None:
    """By hand: span x span / 3 = 93.8 ft²: less suction than on one screw's area, in the same zones."""
    found = house()
    here, used, n = members(found), demands(found), number(found, "0.6D + 0.6W up")
    of_screws = used.roof.without_array[..., n].sum() + 0.6 * 1.5 * PSF * cos(THETA) * used.roof.area.sum()
    assert of_screws < here.without_array[..., n].sum() < 0


def test_the_calculation_of_a_rafter_can_be_worked_again() -> None:
    for method, changes in (("direct", {}), ("rail", ON_RAFTERS)):
        found = house(method, **changes)
        steps = found_steps(found)
        assert_told(steps)
        assert steps[-1].result.value == pytest.approx(found.checks["roof_member"].utilisation)


def found_steps(of: Column) -> list[Any]:
    return LINK.explain(CalculationTrail(demands(of)), of.checks["roof_member"])


def test_the_deck_itself_is_left_to_its_engineer() -> None:
    shown = {each.entry.title for each in house().unchecked.shown}
    assert shown == {"deck"}
    assert house().checks["roof_member"].title == "rafters"
