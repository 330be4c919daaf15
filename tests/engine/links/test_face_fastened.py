"""Face-fastened roofs: the panel's screws pull and shear at once; brackets through the sheet bypass it."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.mounting.direct import Direct
from engine.mounting.interface import Refusal
from support import scenario_of


def workshop(method: str, **changes: object) -> Column:
    (column,) = compare(scenario_of("wren_workshop", **changes), (method,)).columns
    return column


def test_pull_and_shear_count_together() -> None:
    """T/Ta + V/Va, V the panel's slide over its fastenings: the engine's own demands, put together by hand."""
    column = workshop("direct")
    assert column.design
    assert column.design.candidate
    demands = column.design.candidate.demands
    check = next(check for check in column.checks.values() if check.link == "roof_fastening")
    pull = np.maximum(-demands.fastening, 0.0)
    shear = np.abs(demands.panel_in_plane)[:, None, :] / len(demands.fastening_y)
    # one #12 screw, 24 ga sheet at 95 % of 0.0239 in, 80 ksi counted as 60: 0.90 t d'w Fu / 2.90, the lower of the two sets
    can = 0.90 * 0.0239 * 0.95 * 0.5 * 60.0 / 2.90 * 1000 * 4.4482216
    assert check.utilisation == pytest.approx((pull / can + shear / (260 * 4.4482216)).max(), rel=1e-6)
    assert "uplift and shear" in check.place.name


def test_bare_snow_shears_the_screws_before_any_array() -> None:
    """By hand: 16.8 psf of balanced snow on a panel of 12 in, 25.35 ft of slope: S A sin cos, and the sheet's 1.5 psf, A sin, over the seven screws of a rib, 6 in to 24.5 ft from the eave.

    In "D + S" nothing pulls: the shear alone is the share used. 2:12, so sin cos is 6/37.
    """
    column = workshop("direct")
    assert column.design
    assert column.design.candidate
    demands = column.design.candidate.demands
    which = next(number for number, one in enumerate(demands.combinations) if one.name == "D + S")
    slope = 25 * np.sqrt(37) / 6
    by_hand = (0.7 * 1.2 * 20 * 6 / 37 + 1.5 / np.sqrt(37)) * slope * 4.4482216
    np.testing.assert_allclose(demands.roof.in_plane_without_array[1:-1, which], by_hand, rtol=1e-6)
    weak = workshop("direct", roof__fastening__in_plane={"allowable": "20 lb"}).design
    assert weak
    assert weak.roof_alone
    assert weak.roof_alone.place.name.endswith("without the array")
    can = 0.90 * 0.0239 * 0.95 * 0.5 * 60.0 / 2.90 * 1000 * 4.4482216
    shear = demands.roof.in_plane_without_array[:, None, :] / 7 / (20 * 4.4482216)
    assert weak.roof_alone.utilisation == pytest.approx(
        (np.maximum(-demands.roof.without_array, 0.0) / can + shear).max(), rel=1e-6
    )


def test_without_a_shear_strength_it_says_so() -> None:
    column = workshop("direct", roof__fastening__in_plane=None)
    assert any("Panel screws, along the slope not checked" in flag.text for flag in column.flags)


def test_a_fixed_panel_has_no_fixed_point_and_shows_no_force_there() -> None:
    column = workshop("direct")
    check = next(check for check in column.checks.values() if check.link == "fixed_point")
    assert check.utilisation is None
    assert "panel screws" in check.note
    assert check.demand is None


def test_brackets_through_the_sheet_stand_over_supports_and_bypass_it() -> None:
    """Purlins every 4 ft: a rail may lie 250 to 500 mm from the module's edges, and some rows miss every purlin."""
    missed = workshop("rail", hardware__bracket="structure")
    assert missed.status == "refused"
    assert "No purlin lies in the clamp zone" in missed.flags[0].text
    met = workshop(
        "rail", hardware__bracket="structure", roof__support_spacing="12 in", module__clamp_zone=["150 mm", "600 mm"]
    )
    assert met.design
    assert met.design.candidate
    demands, attachments = met.design.candidate.demands, met.design.layout.attachments
    assert np.abs(attachments.y[:, None] - demands.fastening_y).min(axis=1).max() < 1e-9
    assert not demands.fastening_from_attachments.any()
    assert met.design.roof_alone is not None


def test_a_third_rail_stands_over_a_support_in_the_middle_half() -> None:
    """Purlins every 12 in under modules of 2 m: the middle one of each row over the purlin nearest to its middle."""
    met = workshop(
        "rail",
        hardware__bracket="structure",
        roof__support_spacing="12 in",
        module__length="2 m",
        module__clamp_zone=["150 mm", "600 mm"],
        methods__rail__rails_per_row=3,
    )
    assert met.design
    assert met.design.candidate
    at, purlins = met.design.field.outlines, met.design.candidate.demands.fastening_y
    for these in met.design.layout.lines:
        low = at.low[these.module[0, 0]]
        middle = np.sort(these.across - low)[1]
        assert 0.5 - 1e-9 <= middle <= 1.5 + 1e-9
        nearest = purlins[np.argmin(np.abs(purlins - low - 1.0))] - low
        assert middle == pytest.approx(nearest)


def test_modules_straight_on_purlins_stand_where_two_share_a_gap() -> None:
    """Columns of 1 m with 20 mm between: purlins 1.02 m apart run beneath every gap, at its middle."""
    spaced = {
        "module__width": "1 m",
        "array__gap": "20 mm",
        "roof__support_spacing": "1.02 m",
        "roof__first_support": "0.5 m",
        "roof__last_support": "0.1 m",
        "hardware__bracket": "structure",
    }
    job = scenario_of("wren_workshop", **spaced).job
    field = Direct().place_modules(job)
    assert not isinstance(field, Refusal)
    start = float(field.outlines.low.min())
    bay = round((start - 0.01 - 0.5) / 1.02)
    moved = {**spaced, "array__origin": ["16 ft", f"{0.5 + 1.02 * bay + 0.01:.6f} m"]}
    assert workshop("direct", **moved).status != "refused"
    missed = workshop("direct", **moved | {"array__origin": ["16 ft", f"{0.5 + 1.02 * bay + 0.031:.6f} m"]})
    assert missed.status == "refused"


def test_modules_straight_on_purlins_seldom_meet_them() -> None:
    missed = workshop("direct", hardware__bracket="structure")
    assert missed.status == "refused"
    assert "No purlin lies in the gap at a module's long edge" in missed.flags[0].text
