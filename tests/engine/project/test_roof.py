"""The roof's geometry by hand: slopes, ribs, fastenings from eave to ridge, and how far things keep from its sides."""

from __future__ import annotations

import math

import numpy as np
import pytest

from engine.project.building import Building
from support import scenario_of


def building(**changes: object) -> Building:
    plain = {"length": "40 m", "width": "24 m", "mean_roof_height": "6 m", "slope": "3:4", "roof_shape": "gable"}
    return Building.model_validate(plain | changes)


@pytest.mark.parametrize(
    ("changes", "run"),
    [
        ({"roof_shape": "gable"}, 12.0),
        ({"roof_shape": "hip"}, 12.0),
        ({"roof_shape": "hip", "length": "20 m"}, 10.0),
        ({"roof_shape": "monoslope"}, 24.0),
        ({"roof_shape": "flat", "slope": "0 deg"}, 24.0),
    ],
)
def test_from_eave_to_ridge(changes: dict[str, object], run: float) -> None:
    """3:4 is 5 up the slope for 4 across."""
    of = building(**changes)
    assert of.run == pytest.approx(run)
    assert of.slope_length == pytest.approx(run * (1.0 if of.slope == 0 else 5 / 4))
    assert of.has_ridge == (of.roof_shape in ("gable", "hip"))
    assert of.side_word == ("hip" if of.roof_shape == "hip" else "rake")


def test_a_hip_cuts_panels_off() -> None:
    """In plan a hip runs at 45 deg: 4 m from the corner a panel reaches 4 m in plan, 5 m up the slope."""
    x = np.array([0.0, 4.0, 12.0, 20.0, 37.0])
    np.testing.assert_allclose(building(roof_shape="hip").top_at(x), [0.0, 5.0, 15.0, 15.0, 3.75])
    np.testing.assert_allclose(building().top_at(x), 15.0)


def test_how_far_things_keep_from_the_sides() -> None:
    """Along the roof, square to a hip: at 5 m up the slope the hip is 4 m from the corner, and askew by √(1 + 0.8²)."""
    left, right, high = np.array([6.0]), np.array([9.0]), np.array([5.0])
    assert [side.item() for side in building().from_sides(left, right, high)] == pytest.approx([6.0, 31.0])
    askew = math.sqrt(1 + 0.8**2)
    assert [side.item() for side in building(roof_shape="hip").from_sides(left, right, high)] == pytest.approx(
        [2 / askew, 27 / askew]
    )


ROOF = {
    "roof__rib_spacing": "0.5 m",
    "roof__support_spacing": "1.5 m",
    "roof__first_support": "0.3 m",
    "roof__last_support": "0.2 m",
    "roof__fastening__uplift": {"allowable": "300 lb"},
}


def on(top: float, *, close: bool = False, **changes: object) -> list[float]:
    job = scenario_of(**ROOF | changes).job
    return job.roof.supports(job.building, top=top, close=close).round(9).tolist()


@pytest.mark.parametrize(
    ("top", "expected"),
    [
        (5.0, [0.3, 1.8, 3.3, 4.8]),
        (5.3, [0.3, 1.8, 3.3, 4.8]),  # 0.3 m is left, less than a quarter of 1.5 m
        (5.4, [0.3, 1.8, 3.3, 4.8, 5.2]),
        (6.4, [0.3, 1.8, 3.3, 4.8, 6.2]),
        (0.5, [0.3]),
        (0.4, []),
    ],
)
def test_fastenings_from_eave_to_ridge(top: float, expected: list[float]) -> None:
    """The last bay takes what is left over."""
    assert on(top) == expected


def test_fastenings_in_edge_strips() -> None:
    """Strips of 2 m, fastened at 0.5 m or closer: bays that reach into them are cut in three; near a rake every bay is."""
    strips = {"roof__edge_strip": "2 m", "roof__edge_support_spacing": "0.5 m"}
    thirds = [0.3, 0.8, 1.3, 1.8, 2.3, 2.8]
    assert on(9.5, **strips) == [*thirds, 3.3, 4.8, 6.3, 6.8, 7.3, 7.8, 8.3, 8.8, 9.3]
    assert on(9.5, close=True, **strips) == pytest.approx(np.linspace(0.3, 9.3, 19).tolist())
    assert on(9.5, **strips | {"roof__edge_support_spacing": "0.7 m"}) == on(9.5, **strips)


def test_ribs_from_rake_to_rake() -> None:
    job = scenario_of(**ROOF, roof__first_rib="0.2 m", building__length="4.2 m", array__columns=1, array__rows=1).job
    np.testing.assert_allclose(job.roof.ribs(job.building), 0.2 + 0.5 * np.arange(9))
    shorter = scenario_of(
        **ROOF, roof__first_rib="0.2 m", building__length="4.19 m", array__columns=1, array__rows=1
    ).job
    assert len(shorter.roof.ribs(shorter.building)) == 8


def test_words() -> None:
    seam = scenario_of().job.roof
    assert (seam.rib_word, seam.fastening_word, seam.floats, seam.solid_deck) == ("seam", "clip", True, False)
    rib = scenario_of("wren_workshop").job.roof
    assert (rib.rib_word, rib.fastening_word, rib.floats) == ("rib", "panel screws", False)
    assert scenario_of(roof__support="wood deck").job.roof.solid_deck
