"""The studies as plain values, from findings made up for it."""

from __future__ import annotations

from engine.studies.record import headroom_record, sensitivity_record
from tests.support.made_up_findings import FOOT, HEADROOM, MPH, POUND, SENSITIVITY


def test_headroom() -> None:
    (told,) = headroom_record([HEADROOM])
    assert told["method"] == "rail"
    text = str(told)
    for value in (105 * MPH, 112 * MPH, 581 * POUND, 350 * POUND, 702 * POUND, 8 * FOOT):
        assert repr(value) in text


def test_sensitivity() -> None:
    (told,) = sensitivity_record([SENSITIVITY])
    assert told["method"] == "direct"
    assert told["now"] == {"weakest_utilisation": 0.9, "attachments": 336, "holds": True}
    wind, mass, *_ = told["effects"]
    assert wind == {
        "input": "site.wind_speed",
        "step": 0.1,
        "down": {"weakest_utilisation": 0.72, "attachments": 336, "holds": True},
        "up": {"weakest_utilisation": 1.11, "attachments": 400, "holds": False},
    }
    assert mass["down"] is None
