"""By hand: Drifts at steps and sliding snow, ASCE 7-16 and 7-22 §7.7 to §7.9, from the clauses."""

from __future__ import annotations

import pytest

from engine.loads.asce7 import snow
from engine.loads.asce7.references import clause
from engine.loads.asce7.site import Site
from engine.units import FOOT
from support.published import verified


def site(edition: str, ground: str, **more: object) -> Site:
    plain = {"standard": edition, "wind_speed": "100 mph", "exposure": "B", "ground_snow": ground}
    return Site.model_validate(plain | more)


def pack(edition: str, ground: str, depth: float = 0.0, **more: object) -> snow.Snowpack:
    """Balanced snow of a stated depth [ft]."""
    place = site(edition, ground, **more)
    return snow.snowpack(place, depth * snow.density(place))


def step(top: float, fetch: float) -> snow.Step:
    return snow.Step(top, fetch, clause("ASCE 7-16", "§7.8"), "a step")


def values(profile: snow.Profile) -> dict[str, float]:
    return {each.symbol: each.result.value for each in profile.steps}


def test_a_short_fetch_in_7_16() -> None:
    """pg 42.9, lu 15.25 counts as 20: hd 1.648 (at most √(42.9 x 15.25/(4 x 19.58)) = 2.89), h 1.236, w 4.94, 24.2 psf."""
    (found,) = snow.windward_profiles(pack("ASCE 7-16", "42.9 psf"), step(50.0, 15.25))
    assert verified("7-16, pg 42.9 psf, hd", 1.648, values(found)["hd"], "ft") == pytest.approx(1.648, abs=5e-4)
    assert verified("7-16, pg 42.9 psf, windward height", 1.236, values(found)["h"], "ft") == pytest.approx(
        1.236, abs=5e-4
    )
    assert verified("7-16, pg 42.9 psf, width", 4.94, found.width, "ft") == pytest.approx(4.94, abs=0.005)
    assert verified("7-16, pg 42.9 psf, surcharge", 24.2, found.start, "psf") == pytest.approx(24.2, abs=0.05)


def test_a_very_short_fetch_and_a_filled_step_in_7_16() -> None:
    """pg 70, Is 1.2, lu 4, hc 1.3345: hd is held to √(1.2 x 70 x 4/(4 x 23.1)) = 1.907, h 1.430; w 4h²/hc 6.13, 30.8 psf."""
    (found,) = snow.windward_profiles(pack("ASCE 7-16", "70 psf", risk_category="IV"), step(1.3345, 4.0))
    assert verified("7-16, lu 4 ft, hd", 1.907, values(found)["hd"], "ft") == pytest.approx(1.907, abs=5e-4)
    assert verified("7-16, lu 4 ft, width", 6.13, found.width, "ft") == pytest.approx(6.13, abs=0.005)
    assert verified("7-16, lu 4 ft, surcharge", 30.8, found.start, "psf") == pytest.approx(30.8, abs=0.05)


def test_a_parapet_in_7_22() -> None:
    """pg 30, W2 .55, lu 60: h 2.360, w 8h 18.88, 42.2 psf."""
    (found,) = snow.windward_profiles(pack("ASCE 7-22", "30 psf", winter_wind=0.55), step(10.0, 60.0))
    assert verified("7-22, parapet, height", 2.360, values(found)["h"], "ft") == pytest.approx(2.360, abs=5e-4)
    assert verified("7-22, parapet, width", 18.88, found.width, "ft") == pytest.approx(18.88, abs=0.005)
    assert verified("7-22, parapet, surcharge", 42.2, found.start, "psf") == pytest.approx(42.2, abs=0.05)


def test_a_low_leeward_step_in_7_22() -> None:
    """pg 60, W2 .65, lu 150, hc .688: the step is filled, w at most 8hc 5.50, 15.0 psf."""
    (found,) = snow.leeward_profiles(pack("ASCE 7-22", "60 psf", winter_wind=0.65), step(0.688, 150.0), 0.0)
    assert verified("7-22, lee of a low step, width", 5.50, found.width, "ft") == pytest.approx(5.50, abs=0.005)
    assert verified("7-22, lee of a low step, surcharge", 15.0, found.start, "psf") == pytest.approx(15.0, abs=0.05)


@pytest.mark.parametrize(("ratio", "surcharge", "width"), [(0.75, 13.1, 6.1), (1.33, 23.3, 10.2)])
def test_rows_with_default_snow_in_7_16(ratio: float, surcharge: float, width: float) -> None:
    """pg 25, lu 55, heated: hb 17.5/17.25 = 1.0145 ft, h .75 x 2.477 = 1.858 ft; hc/hb .75 and 1.33."""
    found_pack = pack("ASCE 7-16", "25 psf", 17.5 / 17.25)
    (found,) = snow.windward_profiles(found_pack, step((1 + ratio) * found_pack.depth, 55.0))
    assert verified(f"7-16, row, hc/hb {ratio}, surcharge", surcharge, found.start, "psf") == pytest.approx(
        surcharge, abs=0.05
    )
    assert verified(f"7-16, row, hc/hb {ratio}, width", width, found.width, "ft") == pytest.approx(width, abs=0.05)


def test_a_flush_array_in_thin_snow_in_7_16() -> None:
    """pg 5, top 10 in, heated: pf 3.5 psf over 14.65 pcf, hc .833 - .239 = .594 ft; 8.7 psf over 8hc 4.8 ft, from lu 55."""
    (found,) = snow.windward_profiles(pack("ASCE 7-16", "5 psf", 3.5 / 14.65), step(10 / 12, 55.0))
    assert verified("7-16, flush array, hc", 0.59, values(found)["hc"], "ft") == pytest.approx(0.59, abs=0.005)
    assert verified("7-16, flush array, surcharge", 8.7, found.start, "psf") == pytest.approx(8.7, abs=0.05)
    assert verified("7-16, flush array, width", 4.8, found.width, "ft") == pytest.approx(4.8, abs=0.05)


def test_sliding_snow() -> None:
    """pf 25.2 (pg 30, Ct 1.2, exposure B), W 30: .4 x 25.2 x 30 = 302 lb/ft, over 15 ft 20.2 psf; half of W, half of it."""
    found = snow.sliding_profile(site("ASCE 7-16", "30 psf"), 30 * FOOT, 1.2)
    assert verified("sliding snow", 302.0, values(found)["SL"], "lb/ft") == pytest.approx(302.0, abs=0.5)
    assert verified("sliding snow over 15 ft", 20.2, found.start, "psf") == pytest.approx(20.2, abs=0.05)
    assert (found.end, found.width) == (found.start, 15.0)
    half = snow.sliding_profile(site("ASCE 7-16", "30 psf"), 15 * FOOT, 1.2)
    assert half.start == pytest.approx(found.start / 2)


def test_an_engineering_offices_roof_step() -> None:
    """Printed: A roof step in both editions, an engineering office's public article: lu 40, 4 ft high, heated.

    7-16, pg 25: 35.8 psf of drift, peak 53 psf. 7-22, pg 63, W2 .45: peak 89 psf, where the drift fills the step.
    """
    for edition, ground, balanced, peak in (("ASCE 7-16", 25, 17.5, 53.3), ("ASCE 7-22", 63, 44.1, 89.0)):
        place = site(edition, f"{ground} psf", winter_wind=0.45)
        (found,) = snow.leeward_profiles(snow.snowpack(place, balanced), step(4.0, 40.0), 0.0)
        ours = verified(f"roof step, {edition}, peak at the step", peak, balanced + found.start, "psf")
        assert ours == pytest.approx(peak, abs=0.5)
