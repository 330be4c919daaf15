"""Strips of modules with similar wind loads: by wind zone and exposure, or by row."""

from __future__ import annotations

import numpy as np
import pytest

from support import context_of


@pytest.mark.parametrize(
    ("name", "method", "changes", "names"),
    [
        ("kestrel_yard", "direct", {}, ("zone 1'", "zone 1")),  # every module exposed: no sheltered ones in either zone
        ("kestrel_yard", "tilted_rack", {}, ("zone 2 sheltered", "zone 2 exposed", "zone 3")),
        ("heron_depot", "tilted_rack", {}, ("zone 1 sheltered", "zone 1 exposed")),
        (
            "kestrel_yard",
            "rail",
            {"array__rows": 1, "array__columns": 3, "array__origin": ["90 ft", "20 ft"]},
            ("lowest row",),
        ),
        ("sparrow_lane", "rail", {"array__rows": 1}, ("lowest row",)),
    ],
)
def test_names_of_strips_from_the_mildest_zone(
    name: str, method: str, changes: dict[str, object], names: tuple[str, ...]
) -> None:
    of = context_of(name, method, **changes)
    assert of.strips.names == names
    assert of.strips.spacings == (1,) * len(names)
    if "zone" in names[0]:
        for strip, strip_name in enumerate(names):
            here = of.strips.strip == strip
            zones, exposed = set(of.loads.zone[here].tolist()), set(of.loads.exposed[here].tolist())
            assert [f"zone {of.loads.zone_names[zone]}" for zone in zones] == [
                strip_name.removesuffix(" exposed").removesuffix(" sheltered")
            ]
            assert len(exposed) == 1
            assert ("exposed" in strip_name) <= (exposed == {True})
            assert ("sheltered" in strip_name) <= (exposed == {False})


@pytest.mark.parametrize(
    ("rows", "names"), [(2, ("lowest row", "highest row")), (4, ("lowest row", "inner rows", "highest row"))]
)
def test_strips_by_row_if_all_modules_have_the_same_wind(rows: int, names: tuple[str, ...]) -> None:
    """Two columns in the middle of a large roof: one zone, every module exposed."""
    small = {
        "array__rows": rows,
        "array__columns": 2,
        "array__origin": ["95 ft", "18 ft"],
        "building__mean_roof_height": "12 ft",
    }
    of = context_of("kestrel_yard", "direct", **small)
    assert len(set(of.loads.zone.tolist())) == 1
    assert of.strips.names == names
    by_row = [names[strip] for strip in of.strips.strip.tolist()]
    expected = [
        "lowest row" if row == 0 else "highest row" if row == rows - 1 else "inner rows"
        for row in of.field.row.tolist()
    ]
    assert by_row == expected


def test_spacing_at_each_module() -> None:
    pattern = context_of("kestrel_yard", "tilted_rack").strips
    by_strip = type(pattern)((3.0, 3.0, 2.0), pattern.strip, pattern.names)
    np.testing.assert_array_equal(by_strip.at_modules, np.where(pattern.strip == 2, 2.0, 3.0))
    assert not by_strip.is_uniform
    assert by_strip.with_uniform(4).is_uniform
    assert by_strip.with_uniform(4).spacings == (4, 4, 4)
