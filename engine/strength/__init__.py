"""The ways to know what a thing can take, a file each, and the strength they give."""

from __future__ import annotations

from engine.strength.capacity import TAGS, Capacity, seam_objection, shear_objection, shear_strength, strength
from engine.strength.rating import Rating
from engine.strength.vocabulary import Mode, Strength, Way

__all__ = [
    "TAGS",
    "Capacity",
    "Mode",
    "Rating",
    "Strength",
    "Way",
    "seam_objection",
    "shear_objection",
    "shear_strength",
    "strength",
]
