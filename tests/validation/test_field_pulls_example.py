"""By hand: Six pulls by AISI S100 K2.1.1 (formerly F1), every intermediate, worked on paper; to the last digit written."""

from __future__ import annotations

import pytest

from engine.common.calculation import CalculationStep
from engine.strength.pull_tests import PullTests
from engine.strength.test_statistics import resistance_factor, safety_factor, sample_factor
from engine.units import POUND_FORCE
from support.published import verified

PULLS = ["520 lb", "610 lb", "575 lb", "640 lb", "555 lb", "600 lb"]


def steps_of(connection: str) -> dict[str, CalculationStep]:
    (mode,) = PullTests(pull_tests=PULLS, connection=connection).modes()
    return {step.symbol: step for step in mode.steps}


def test_mean_scatter_and_sample() -> None:
    steps = steps_of("other")
    assert verified("mean", 583.3, steps["Rn"].result.value, "lb") == pytest.approx(583.3, abs=0.05)
    assert verified("VP", 0.0731, steps["VP"].result.value) == pytest.approx(0.0731, abs=5e-5)
    assert verified("CP, six pulls", 1.944, steps["phi"].terms["CP"].value) == pytest.approx(1.944, abs=5e-4)
    assert verified("CP, three pulls", 5.7, sample_factor(3)) == 5.7


@pytest.mark.parametrize(
    ("connection", "phi", "before", "omega", "allowable"),
    [("screw", 0.585, 2.74, 3.0, 194.4), ("other", 0.541, 2.96, 2.96, 197.4)],
)
def test_factors_and_allowable(connection: str, phi: float, before: float, omega: float, allowable: float) -> None:
    (mode,) = PullTests(pull_tests=PULLS, connection=connection).modes()
    steps = steps_of(connection)
    allowed = mode.nominal / mode.safety_factor / POUND_FORCE
    assert verified(f"{connection}, φ", phi, steps["phi"].result.value) == pytest.approx(phi, abs=5e-4)
    assert verified(f"{connection}, Ω before its floor", before, 1.6 / steps["phi"].result.value) == pytest.approx(
        before, abs=5e-3
    )
    assert verified(f"{connection}, Ω", omega, mode.safety_factor) == pytest.approx(omega, abs=5e-3)
    assert verified(f"{connection}, allowable", allowable, allowed, "lb") == pytest.approx(allowable, abs=0.05)


@pytest.mark.parametrize(("connection", "fabrication", "allowable"), [("screw", 0.10, 234.5), ("other", 0.15, 217)])
def test_the_published_form_has_a_material_factor(connection: str, fabrication: float, allowable: float) -> None:
    """With Mm 1.10 and without a minimum the same pulls give more: the equation as published."""
    way = PullTests(pull_tests=PULLS, connection=connection)
    phi = resistance_factor(6, way.scatter(), reliability=3.5, material=1.10, fabrication_scatter=fabrication)
    written = 0.05 if allowable % 1 else 0.5
    allowed = way.mean() / safety_factor(phi, minimum=1.0) / POUND_FORCE
    assert verified(f"{connection}, allowable with Mm 1.10", allowable, allowed, "lb") == pytest.approx(
        allowable, abs=written
    )
