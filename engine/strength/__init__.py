"""The ways to know what a thing can take, a file each, and the strength they give."""

from __future__ import annotations

from engine.strength.base import FailureMode, Strength, StrengthBasis
from engine.strength.capacity import BASIS_TITLES, Capacity, seam_problem, shear_problem, shear_strength, strength
from engine.strength.module_rating import ModuleRating

__all__ = [
    "BASIS_TITLES",
    "Capacity",
    "FailureMode",
    "ModuleRating",
    "Strength",
    "StrengthBasis",
    "seam_problem",
    "shear_problem",
    "shear_strength",
    "strength",
]
