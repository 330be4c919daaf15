"""The studies as plain values, from findings made up for it."""

from __future__ import annotations

from engine.studies.headroom import LIMIT_REACHED, CapacityMargin, Headroom, RequiredStrength
from engine.studies.record import headroom_record, sensitivity_record
from engine.studies.sensitivity import PERTURBATIONS, InputEffect, Sensitivity, VariedOutcome

MPH, PSF, POUND, FOOT = 0.44704, 47.880259, 4.4482216152605, 0.3048
WIND, SNOW = LIMIT_REACHED
FOUND = Headroom(
    "rail",
    "rails",
    "every 2nd seam",
    (
        CapacityMargin(WIND, 105 * MPH, 315 * MPH, 112 * MPH, "clip", over=False),
        CapacityMargin(SNOW, 25 * PSF, 75 * PSF, None, "rail", over=False),
        CapacityMargin(SNOW, 25 * PSF, 75 * PSF, None, "clip", over=True),
    ),
    RequiredStrength(8 * FOOT, "clip", 581 * POUND, 350 * POUND),
    RequiredStrength(8 * FOOT, "attachment", 702 * POUND, 600 * POUND),
)


def test_headroom() -> None:
    (told,) = headroom_record([FOUND])
    assert told["method"] == "rail"
    text = str(told)
    for value in (105 * MPH, 112 * MPH, 581 * POUND, 350 * POUND, 702 * POUND, 8 * FOOT):
        assert repr(value) in text


NOW = VariedOutcome(0.9, 336, holds=True)
MOVED = Sensitivity(
    "direct",
    "modules on seams",
    NOW,
    (
        InputEffect(PERTURBATIONS[0], VariedOutcome(0.72, 336, holds=True), VariedOutcome(1.11, 400, holds=False)),
        InputEffect(PERTURBATIONS[3], None, VariedOutcome(0.9, 340, holds=True)),
        InputEffect(PERTURBATIONS[1], VariedOutcome(0.9, 336, holds=True), VariedOutcome(0.901, 336, holds=True)),
        InputEffect(PERTURBATIONS[2], VariedOutcome(0.899, 336, holds=True), VariedOutcome(0.9, 336, holds=True)),
    ),
)


def test_sensitivity() -> None:
    (told,) = sensitivity_record([MOVED])
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
