"""Mirror the roof, mirror the result; more of what hurts never helps. Statics and common sense are the outside check."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison import Column, compare
from support import scenario_of

FIXED = {"methods__rail__spacing": "2 ribs", "methods__tilted_rack__spacing": "2 ribs", "methods__direct__spacing": "3 per edge"}


def columns(name: str = "kestrel_yard", **changes: object) -> list[Column]:
    return [column for column in compare(scenario_of(name, **changes)).columns if column.design and column.design.attempt]


@pytest.mark.parametrize("edition", ["ASCE 7-16", "ASCE 7-22"])
def test_the_mirror_image_of_a_roof_asks_the_same(edition: str) -> None:
    """The array at 40 ft from the left rake, and its image as far from the right one; ribs are symmetric about the middle."""
    wide = 24 * 1722 / 304.8 + 23 * 0.5 / 12
    left = columns(
        site__standard=edition, array__origin=["41.3 ft", "15.5 ft"], methods__rail={}, **{"methods__direct__spacing": "3 per edge"}
    )
    right = columns(
        site__standard=edition,
        array__origin=[f"{220 - 41.3 - wide:.6f} ft", "15.5 ft"],
        methods__rail={},
        **{"methods__direct__spacing": "3 per edge"},
    )
    for one, other in zip(left, right, strict=True):
        if one.id == "rail":  # 36 portrait modules are not quite as wide as 24 in landscape: its image lies elsewhere
            continue
        assert one.attachments == other.attachments
        for check, image in zip(one.links, other.links, strict=True):
            assert (check.utilisation is None) == (image.utilisation is None)
            if check.utilisation is not None:
                assert image.utilisation == pytest.approx(check.utilisation, rel=1e-6), (one.id, check.link)


@pytest.mark.parametrize(
    ("key", "calm", "hard"),
    [
        ("site__wind_speed", "95 mph", "125 mph"),
        ("site__exposure", "B", "C"),
        ("site__ground_snow", "10 psf", "40 psf"),
        ("building__mean_roof_height", "20 ft", "40 ft"),
        ("building__enclosure", "enclosed", "partially enclosed"),
        ("module__mass", "18 kg", "30 kg"),
    ],
)
def test_more_load_is_never_less_used(key: str, calm: str, hard: str) -> None:
    """At fixed spacings. Weight and height may relieve uplift, so what grows with them is named; the rest only grows."""
    few, many = columns(**FIXED, **{key: calm}), columns(**FIXED, **{key: hard})
    grows = {"site__ground_snow": {"rib", "fixed_point"}, "module__mass": {"structure"}}.get(key, {"clamp", "roof_fastening", "attachment"})
    for one, other in zip(few, many, strict=True):
        for check, harder in zip(one.links, other.links, strict=True):
            if check.link in grows and check.utilisation is not None:
                assert harder.utilisation is not None
                assert harder.utilisation >= check.utilisation - 1e-9, (one.id, check.link)


@pytest.mark.parametrize("name", ["kestrel_yard", "heron_depot"])
def test_more_wind_never_fewer_attachments_and_a_stronger_clip_never_more(name: str) -> None:
    counts = [[column.attachments for column in columns(name, site__wind_speed=f"{speed} mph")] for speed in (80, 95, 110)]
    held = [[column.status == "holds" for column in columns(name, site__wind_speed=f"{speed} mph")] for speed in (80, 95, 110)]
    for calm, windy, calm_holds, windy_holds in zip(counts[:-1], counts[1:], held[:-1], held[1:], strict=True):
        for few, many, before, after in zip(calm, windy, calm_holds, windy_holds, strict=True):
            if before and after:
                assert many >= few  # type: ignore[operator]
    clips = [
        [column.attachments for column in columns(name, roof__fastening__uplift={"allowable": f"{clip} lb"})] for clip in (400, 600, 900)
    ]
    for weak, strong in zip(clips[:-1], clips[1:], strict=True):
        assert all(more >= fewer for more, fewer in zip(weak, strong, strict=True))  # type: ignore[operator]


def test_a_rack_that_faces_the_ridge() -> None:
    """Low side up-slope: the wind's drag turns round, snow lies flatter (θ - ω), and the weight stays the same."""
    eave, ridge = (columns(methods__tilted_rack={"spacing": "2 ribs", "low_side": side})[1] for side in ("eave", "ridge"))
    assert eave.design
    assert ridge.design
    assert eave.design.attempt
    assert ridge.design.attempt
    _, toward_eave = eave.design.attempt.demands.point_cases["W up"]
    _, toward_ridge = ridge.design.attempt.demands.point_cases["W up"]
    assert toward_eave.sum() > 0 > toward_ridge.sum()
    assert toward_ridge.sum() == pytest.approx(-toward_eave.sum(), rel=1e-9)
    for case, part in (("D", 1.0), ("S", np.cos(np.radians(4.7636 - 10)) / np.cos(np.radians(4.7636 + 10)))):
        one, other = (column.design.attempt.demands.point_cases[case][0].sum() for column in (eave, ridge))  # type: ignore[union-attr]
        assert other == pytest.approx(one * part, rel=1e-5)


def test_modules_inside_stated_setbacks_are_flagged() -> None:
    flags = {
        column.id: [flag.text for flag in column.flags if flag.code == "setback"]
        for column in columns(array__setbacks={"eave": "16 ft", "ridge": "3 ft"})
    }
    assert flags["direct"] == [
        "24 modules come nearer to the eave than the stated setback of 16.00 ft (4.877 m), the nearest to 15.50 ft (4.724 m)"
    ]
    assert flags["rail"] == [
        "36 modules come nearer to the eave than the stated setback of 16.00 ft (4.877 m), the nearest to 15.50 ft (4.724 m)"
    ]
    assert all(not texts for texts in [[flag.text for flag in column.flags if flag.code == "setback"] for column in columns()])


def test_half_the_pressure_half_the_force() -> None:
    """Superposition: a case's forces scale with its pressure: 200 mph is (200/280)² of 280 mph, both above the floor."""
    strong, calm = (columns(**FIXED, site__wind_speed=speed)[2] for speed in ("280 mph", "200 mph"))
    assert strong.design
    assert calm.design
    assert strong.design.attempt
    assert calm.design.attempt
    ratio = calm.design.attempt.demands.point_cases["W up"][0] / strong.design.attempt.demands.point_cases["W up"][0]
    np.testing.assert_allclose(ratio, (200 / 280) ** 2, rtol=1e-9)
