"""Six pulls by AISI S100 K2 (formerly F1), every intermediate as computed in the plan of record; three digits unless said."""

from __future__ import annotations

import pytest

from engine.strength.pull_tests import PullTests
from engine.strength.scatter import safety_factor, sample_factor
from engine.units import POUND_FORCE

PULLS = ["520 lb", "610 lb", "575 lb", "640 lb", "555 lb", "600 lb"]


def test_mean_scatter_and_sample() -> None:
    mean, scatter = PullTests(pull_tests=PULLS, connection="other").scatter()
    assert mean / POUND_FORCE == pytest.approx(583.3, abs=0.05)
    assert scatter == pytest.approx(0.0731, abs=5e-5)
    assert sample_factor(6) == pytest.approx(1.944, abs=5e-4)
    assert sample_factor(3) == 5.7


@pytest.mark.parametrize(("connection", "factor", "allowable"), [("screw", 3.0, 194.4), ("other", 2.96, 197.4)])
def test_allowable(connection: str, factor: float, allowable: float) -> None:
    mode = PullTests(pull_tests=PULLS, connection=connection).modes()[0]
    assert mode.safety_factor == pytest.approx(factor, abs=0.005)
    assert mode.nominal / mode.safety_factor / POUND_FORCE == pytest.approx(allowable, abs=0.06)


@pytest.mark.parametrize(("fabrication", "allowable"), [(0.10, 234.5), (0.15, 217.0)])
def test_the_published_form_has_a_material_factor(fabrication: float, allowable: float) -> None:
    """With Mm 1.10 and before any floor the same pulls give more: the equation as published."""
    omega = safety_factor(6, 0.0731, reliability=3.5, material=1.10, fabrication_scatter=fabrication)
    assert 583.3 / omega == pytest.approx(allowable, abs=0.15)


@pytest.mark.parametrize(("fabrication", "phi"), [(0.10, 0.585), (0.15, 0.541)])
def test_resistance_factors(fabrication: float, phi: float) -> None:
    assert 1.6 / safety_factor(6, 0.0731, reliability=3.5, material=1.0, fabrication_scatter=fabrication) == pytest.approx(phi, abs=5e-4)
