"""Panels fastened more closely at eave, ridge and rakes: where, what it brings, and that it never costs anything.

Statics is the outside check: a fastening bears the air on half the panel to either neighbour.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.common.errors import InputError
from engine.comparison.compare import Column, compare
from engine.load_path.demands import Demands
from engine.statics.rib_supports import group_ribs
from support import scenario_of

FOOT, PSF, POUND = 0.3048, 47.880259, 4.4482216
CLOSE = {"roof__edge_strip": "10 ft", "roof__edge_support_spacing": "2.5 ft"}


def direct(**changes: object) -> Column:
    return compare(scenario_of(methods__direct__spacing="3 per edge", **changes), ("direct",)).columns[0]


def demands_of(column: Column) -> Demands:
    assert column.design
    assert column.design.candidate
    return column.design.candidate.demands


def used(column: Column) -> float:
    assert column.bare_roof is not None
    return column.bare_roof


def test_where_fastenings_stand() -> None:
    """Purlins 5 ft apart from 1 ft on, the strips 10 ft wide: bays that reach into them are halved; near a rake all are."""
    job = scenario_of(**CLOSE).job
    slope = job.building.slope_length / FOOT
    at = job.roof.supports(job.building) / FOOT
    np.testing.assert_allclose(at[:7], [1, 3.5, 6, 8.5, 11, 16, 21])
    assert np.diff(at)[at[1:] > slope - 10].max() <= 2.5 + 1e-9
    _, (inner, outer) = group_ribs(job)
    assert (outer.ribs * 2 < 10).sum() == 5
    assert (outer.ribs * 2 > 210).sum() == 5
    assert len(inner.ribs) + len(outer.ribs) == 111
    assert np.diff(outer.y).max() / FOOT <= 2.5 + 1e-9
    for these in (inner, outer):
        np.testing.assert_allclose(
            these.high - these.low, np.append(these.low[1:], job.building.slope_length) - these.low
        )


def test_what_the_bare_roof_asks_by_hand() -> None:
    """Rib 2, 2 ft from the rake, in mid-slope: 2 ft by 2.5 ft of zone 2, q 17.5 psf: GCp -2.3, inside 0.18, 0.6 of it."""
    scenario = scenario_of(**CLOSE)
    bare = demands_of(direct(**CLOSE)).roof.without_array
    levels, (_, outer) = group_ribs(scenario.job)
    level = int(outer.at[np.argmin(np.abs(outer.y - 28.5 * FOOT))])
    assert levels[level] == pytest.approx(28.5 * FOOT)
    q = 0.00256 * 2.01 * (24 / 1200) ** (2 / 7.0) * 0.85 * np.exp(-0.0000362 * 650) * 105**2
    assert -bare[1, level].min() == pytest.approx(0.6 * q * (2.3 + 0.18) * 5.0 * POUND, rel=1e-6)


def test_a_tested_strength_stays_what_it_is() -> None:
    """Closer than tested is no gain: R belongs to the fastening."""
    even, close = (
        next(check for check in direct(**changes).links if check.link == "roof_fastening") for changes in ({}, CLOSE)
    )
    assert close.resistance == even.resistance


@given(st.integers(0, 60), st.sampled_from(["1.25 ft", "2 ft", "2.5 ft", "4 ft", "5 ft"]))
@settings(max_examples=25, deadline=None)
def test_closer_fastenings_never_ask_more_of_the_bare_roof(strip: int, spacing: str) -> None:
    even, close = direct(), direct(roof__edge_strip=f"{strip} ft", roof__edge_support_spacing=spacing)
    assert used(close) <= used(even) + 1e-9
    assert -demands_of(close).roof.without_array.min() <= -demands_of(even).roof.without_array.min() + 1e-6


def test_it_is_the_corner_that_gains() -> None:
    """Halved bays halve what the corner's fastenings bear; a strip of nothing changes nothing."""
    assert used(direct(**CLOSE)) < 0.75 * used(direct())
    assert used(direct(roof__edge_strip="0 ft", roof__edge_support_spacing="2.5 ft")) == pytest.approx(used(direct()))


def test_its_mirror_image_asks_the_same() -> None:
    wide = 24 * 1722 / 304.8 + 23 * 0.5 / 12
    left, right = (direct(**CLOSE, array__origin=[f"{x:.9f} ft", "15.5 ft"]) for x in (6.3, 220 - 6.3 - wide))
    for check, image in zip(left.links, right.links, strict=True):
        if check.utilisation is not None:
            assert image.utilisation == pytest.approx(check.utilisation, rel=1e-6), check.link
    np.testing.assert_allclose(
        demands_of(left).roof.without_array[::-1], demands_of(right).roof.without_array, atol=1e-9
    )


def test_screws_share_what_slides_by_how_many_there_are() -> None:
    """A face-fastened panel near the rake has more screws, each takes less of the slide."""
    column = compare(
        scenario_of("wren_workshop", **{**CLOSE, "roof__edge_strip": "5 ft"}, array__origin=["3 ft", "4 ft"]),
        ("direct",),
    ).columns[0]
    demands = demands_of(column)
    count = demands.is_fastened.sum(axis=1)
    assert count[demands.rib < 5].min() > count[demands.rib > 5].max()
    check = next(check for check in column.links if check.link == "roof_fastening")
    can = 0.90 * 0.0239 * 0.95 * 0.5 * 60.0 / 2.90 * 1000 * POUND
    shear = (
        np.where(demands.is_fastened, 1 / count[:, None], 0.0)[..., None] * np.abs(demands.panel_in_plane)[:, None, :]
    )
    pull = np.maximum(-demands.fastening, 0.0)
    assert check.utilisation == pytest.approx((pull / can + shear / (260 * POUND)).max(), rel=1e-6)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"roof__edge_strip": "10 ft"}, "give both or neither"),
        ({"roof__edge_support_spacing": "2 ft"}, "give both or neither"),
        ({"roof__edge_strip": "10 ft", "roof__edge_support_spacing": "6 ft"}, "edge strips have closer fastenings"),
    ],
)
def test_what_makes_no_sense_is_said(changes: dict[str, str], words: str) -> None:
    with pytest.raises(InputError, match=words):
        scenario_of(**changes)
