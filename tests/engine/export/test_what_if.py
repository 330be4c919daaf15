"""Headroom and sensitivity as text and as plain values, from findings made up for it."""

from __future__ import annotations

import pytest

from engine.export.what_if import headroom_mapping, headroom_text, sensitivity_mapping, sensitivity_text
from engine.studies.headroom import LIMIT_REACHED, CapacityMargin, Headroom, RequiredStrength
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
)


def test_headroom_in_words() -> None:
    assert headroom_text([FOUND], "us").splitlines() == [
        "RAILS as laid out (every 2nd seam)",
        "  wind speed 105 mph: the clip is just used up at 112 mph",
        "  ground snow 25.0 psf: the rail is not used up at every value up to 75.0",
        "  psf",
        "  ground snow 25.0 psf: the clip is over at every value up to 75.0 psf",
        "  spaced as far as the member itself spans, 8.00 ft: a clip would have to",
        "  carry 581 lb, and may carry 350 lb",
        "",
    ]


def test_headroom_in_plain_values() -> None:
    (told,) = headroom_mapping([FOUND])
    assert told["method"] == "rail"
    text = str(told)
    for value in (105 * MPH, 112 * MPH, 581 * POUND, 350 * POUND, 8 * FOOT):
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


def test_sensitivity_in_words() -> None:
    head, columns, *rows = sensitivity_text([MOVED]).splitlines()
    assert head == "MODULES ON SEAMS: 336 attachments, weakest link used to 0.90"
    assert columns.split() == ["step", "link", "used", "attachments"]
    assert [row for row in rows if row] == [
        "wind speed                          ± 10%     0.72 … 1.11      336 … 400*",
        "module mass                         ± 20%        – … 0.90         – … 340",
        "No change from: ground snow; mean roof height.",
        "Each input a step down … a step up. * a layout made anew does not hold.",
        "– beyond what may be stated.",
    ]


def test_sensitivity_in_plain_values() -> None:
    (told,) = sensitivity_mapping([MOVED])
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


@pytest.mark.parametrize("system", ["us", "si"])
def test_no_line_is_wider_than_a_terminal(system: str) -> None:
    for line in (headroom_text([FOUND], system) + sensitivity_text([MOVED])).splitlines():  # type: ignore[arg-type]
        assert len(line) <= 80
