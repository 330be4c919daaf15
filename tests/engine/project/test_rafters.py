"""Rafters, and how far from their middle a screw may be."""

from __future__ import annotations

import numpy as np
import pytest

from engine.project.rafters import Rafters, off_middle
from engine.units import INCH


@pytest.mark.parametrize(
    ("diameter", "allowed"), [(5 / 16, 0.28125), (1 / 4, 0.375), (3 / 8, 0.1875), (1 / 2, 0.0), (0.6, 0.0)]
)
def test_a_screw_is_a_diameter_and_a_half_from_the_edge(diameter: float, allowed: float) -> None:
    """A rafter of 1 1/2 in: 0.75 in less 1.5 D; 5/16 in: 0.28 in. From 1/2 in on only its very middle."""
    assert off_middle(diameter * INCH) / INCH == pytest.approx(allowed)


def test_without_a_size_it_is_a_lag_of_five_sixteenths() -> None:
    """Judgement, no source: the usual lag into rafters."""
    assert off_middle(None) == off_middle(5 / 16 * INCH)


def test_rafters_follow_one_another_to_the_far_rake() -> None:
    rafters = Rafters.model_validate({"spacing": "24 in", "first": "22.5 in"})
    np.testing.assert_allclose(rafters.along(120 * INCH) / INCH, [22.5, 46.5, 70.5, 94.5, 118.5])
    last = Rafters.model_validate({"spacing": "24 in", "first": "0 in"})
    np.testing.assert_allclose(last.along(48 * INCH) / INCH, [0, 24, 48])
