"""The ways to know what a thing can take, a file each, and the strength they give."""

from __future__ import annotations

from engine.strength.base import Mode, Strength, Way
from engine.strength.capacity import TAGS, Capacity, seam_objection, shear_objection, shear_strength, strength
from engine.strength.module_rating import Rating

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
