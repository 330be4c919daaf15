"""The `[site]` table: defaults, help for every field, every problem at once."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from engine.loads.asce7.site import Site

ASKED = {"standard": "ASCE 7-16", "wind_speed": "115 mph", "exposure": "C", "ground_snow": "25 psf"}


def test_defaults_for_all_but_four() -> None:
    required = {name for name, field in Site.model_fields.items() if field.is_required()}
    assert required == set(ASKED)
    plain = Site.model_validate(ASKED)
    assert (plain.risk_category, plain.array_edges, plain.array_thermal_factor, plain.roof_surface) == (
        "II",
        "safe",
        1.2,
        "other",
    )
    assert (plain.ground_elevation, plain.topographic_factor, plain.roof_thermal_resistance) == (0.0, 1.0, None)


def test_every_field_has_help() -> None:
    assert all(field.description for field in Site.model_fields.values())


@pytest.mark.parametrize(
    ("key", "written"),
    [
        ("standard", "ASCE 7-10"),
        ("wind_speed", "115"),
        ("wind_speed", "20 mph"),
        ("exposure", "A"),
        ("ground_snow", "-1 psf"),
        ("topographic_factor", 0.9),
        ("array_edges", "both"),
        ("array_thermal_factor", 0.9),
        ("windspeed", "115 mph"),
    ],
)
def test_wrong_values_are_refused_by_name(key: str, written: object) -> None:
    with pytest.raises(ValidationError) as caught:
        Site.model_validate(ASKED | {key: written})
    assert [error["loc"] for error in caught.value.errors()] == [(key,)]
