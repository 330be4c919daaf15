"""Strengths: each basis of a strength in its own file, and the resistance that follows from it."""

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
