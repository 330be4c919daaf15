"""Strengths: each basis of a strength in its own file, and the resistance that follows from it."""

from __future__ import annotations

from engine.strength.base import FailureMode, Strength, StrengthBasis
from engine.strength.capacity import BASES, Capacity, seam_problem, shear_problem, shear_strength, strength, tag_of
from engine.strength.module_rating import ModuleRating

__all__ = [
    "BASES",
    "Capacity",
    "FailureMode",
    "ModuleRating",
    "Strength",
    "StrengthBasis",
    "seam_problem",
    "shear_problem",
    "shear_strength",
    "strength",
    "tag_of",
]
