"""Drifts at a step: the cut-off, both editions, a filled step, a separate roof, and laws of height and fetch."""

from __future__ import annotations

import pytest
from standards_fields import site

from engine.loads.asce7 import snow
from engine.loads.asce7.references import clause

EDITIONS = ("ASCE 7-16", "ASCE 7-22")
HB = 17.5 / 17.25
"""Depth of the balanced snow on a heated roof, pg 25 psf [ft]."""


def pack(edition: str = "ASCE 7-16", ground: str = "25 psf", balanced: float = 17.5) -> snow.Snowpack:
    return snow.snowpack(site(edition, ground_snow=ground), balanced)


def step(top: float, fetch: float = 55.0) -> snow.Step:
    return snow.Step(top, fetch, clause("ASCE 7-16", "§7.8"), "a step")


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("drifts", [snow.windward_profiles, lambda of, at: snow.leeward_profiles(of, at, 0.0)])
def test_no_drift_if_hc_is_less_than_a_fifth_of_hb(edition: str, drifts: object) -> None:
    """hc/hb = 0.2 has one, 0.199 none; nor has a buried step."""
    for top, expected in ((0.5 * HB, False), (HB, False), (1.199 * HB, False), (1.2 * HB, True), (3 * HB, True)):
        assert bool(drifts(pack(edition), step(top))) == expected  # type: ignore[operator]


def test_bare_roofs_have_no_cut_off() -> None:
    assert snow.windward_profiles(pack(balanced=0.0), step(0.1))
    assert not snow.windward_profiles(pack(balanced=0.0), step(0.0))


def test_the_least_snow_sets_the_step_and_the_most_the_clearance() -> None:
    both = snow.snowpack(site(), 17.5, 21.0)
    assert (both.depth, both.deepest) == pytest.approx((17.5 / 17.25, 21.0 / 17.25))


def test_width_in_both_editions() -> None:
    """h not cut off: 4h in 7-16 and at the lee in both; 8h at windward steps in 7-22."""
    for edition, spread in (("ASCE 7-16", 4), ("ASCE 7-22", 8)):
        (wind,) = snow.windward_profiles(pack(edition), step(40.0))
        (lee,) = snow.leeward_profiles(pack(edition), step(40.0), 0.0)
        assert wind.width == pytest.approx(spread * wind.start / 17.25)
        assert lee.width == pytest.approx(4 * lee.start / 17.25)
        assert wind.start == pytest.approx(0.75 * lee.start)


def test_a_filled_step_in_7_22_takes_the_envelope_of_what_sources_say() -> None:
    """pg 25, W2 .65, lu 55, hc 1 ft: hd 1.5 √(25^.74 x 55^.70 x .65^1.7/17.25), h .75 hd; (hc, 8h²/hc), at a wall (h, 8h)."""
    h = 0.75 * 1.5 * (25**0.74 * 55**0.70 * 0.65**1.7 / 17.25) ** 0.5
    (cut,) = snow.windward_profiles(pack("ASCE 7-22"), step(HB + 1))
    assert (cut.start, cut.width) == pytest.approx((17.25, 8 * h**2))
    assert cut.disputed
    first, whole = snow.windward_profiles(pack("ASCE 7-22"), step(HB + 1), at_wall=True)
    assert (first.start, first.width) == (cut.start, cut.width)
    assert (whole.start, whole.width) == pytest.approx((17.25 * h, 8 * h))
    assert whole.disputed


def test_no_dispute_in_7_16_or_where_the_drift_fits() -> None:
    assert not any(profile.disputed for profile in snow.windward_profiles(pack(), step(HB + 1), at_wall=True))
    assert not any(profile.disputed for profile in snow.windward_profiles(pack("ASCE 7-22"), step(40.0), at_wall=True))


def test_7_22_has_no_shortest_fetch() -> None:
    short, longer = (snow.windward_profiles(pack("ASCE 7-22"), step(40.0, lu))[0].start for lu in (4.0, 8.0))
    assert longer / short == pytest.approx(2**0.35)


def test_from_a_separate_roof() -> None:
    """§7.7.2 (from memory), lu 100: hd .43 x 100^(1/3) x 35^(1/4) - 1.5 = 3.354 ft.

    12 ft below and 12 ft away: min(3.354, 12 - 2) over min(6 x 3.354, 72 - 12). 3 ft below: 3 - 2 = 1 ft over 6 ft.
    """
    (high,) = snow.leeward_profiles(pack(), step(12.0, 100.0), 12.0)
    assert (high.start, high.width) == pytest.approx((3.354 * 17.25, 6 * 3.354), rel=1e-3)
    (low,) = snow.leeward_profiles(pack(), step(3.0, 100.0), 12.0)
    assert (low.start, low.width) == pytest.approx((17.25, 6.0))
    assert not snow.leeward_profiles(pack(), step(12.0, 100.0), 20.0)
    assert not snow.leeward_profiles(pack(), step(2.0, 100.0), 12.0)
    assert snow.leeward_profiles(pack(), step(12.0, 100.0), 19.9)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("kind", ["wind", "wall", "lee"])
def test_a_taller_step_never_has_less_surcharge_beside_it(edition: str, kind: str) -> None:
    """Until the drift's own height, after which it stays the same."""

    def beside(top: float) -> float:
        if kind == "lee":
            found = snow.leeward_profiles(pack(edition), step(top), 0.0)
        else:
            found = snow.windward_profiles(pack(edition), step(top), at_wall=kind == "wall")
        return max((profile.start for profile in found), default=0.0)

    heights = [beside(0.1 * tenths) for tenths in range(1, 100)]
    assert heights == sorted(heights)
    assert heights[0] == 0 < heights[-1] == heights[-2]


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_longer_fetch_and_more_ground_snow_never_drift_less(edition: str) -> None:
    fetches = [snow.windward_profiles(pack(edition), step(40.0, lu))[0].start for lu in range(2, 300, 3)]
    assert fetches == sorted(fetches)
    snows = [snow.windward_profiles(pack(edition, f"{pg} psf"), step(40.0))[0].start for pg in range(2, 100, 3)]
    assert snows == sorted(snows)
