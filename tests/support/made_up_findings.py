"""Findings of the studies, made up for the tests that write them down."""

from __future__ import annotations

from engine.common.vocabulary import ALLOWABLES
from engine.studies.headroom import LIMIT_REACHED, CapacityMargin, Headroom, RequiredStrength
from engine.studies.sensitivity import PERTURBATIONS, InputEffect, Sensitivity, VariedOutcome

MPH, PSF, POUND, FOOT = 0.44704, 47.880259, 4.4482216152605, 0.3048
WIND, SNOW = LIMIT_REACHED
HEADROOM = Headroom(
    "rail",
    "rails",
    "every 2nd seam",
    (
        CapacityMargin(WIND, 105 * MPH, 315 * MPH, 112 * MPH, "clip", over=False),
        CapacityMargin(SNOW, 25 * PSF, 75 * PSF, None, "rail", over=False),
        CapacityMargin(SNOW, 25 * PSF, 75 * PSF, None, "clip", over=True),
    ),
    RequiredStrength(8 * FOOT, "clip", 581 * POUND, 350 * POUND, ALLOWABLES),
    RequiredStrength(8 * FOOT, "attachment", 702 * POUND, 600 * POUND, ALLOWABLES),
)

NOW = VariedOutcome(0.9, 336, holds=True)
SENSITIVITY = Sensitivity(
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
