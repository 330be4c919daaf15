"""Safety factor from the number and scatter of tests, AISI S100 K2.1 (formerly F1)."""

from __future__ import annotations

import math

from engine.common.calculation import CalculationStep, Confidence, Recorder, Reference, Term, silent

CLAUSE = Reference("AISI S100", "2016", "§K2.1.1", Confidence.SEVERAL)

MIN_TESTS = 3
MIN_SCATTER = 0.065
"""Smallest VP that may be used."""

VM, VQ = 0.10, 0.21
"""Coefficients of variation of the material and of the load."""

SMALLEST_FACTOR = 1.67
"""Smallest safety factor of a test, AISI S100 I6.3.1: max(1.67, K2.1)."""

LOAD_FACTOR = 1.6
"""Ω = 1.6/φ: safety factor of allowable-stress design from the resistance factor."""


def small_factor_cautions(factor: float) -> tuple[str, ...]:
    """A caution for a stated safety factor below the smallest of AISI S100."""
    if factor >= SMALLEST_FACTOR:
        return ()
    sentence = f"safety factor {factor:g} on a test is below {SMALLEST_FACTOR}, the smallest of AISI S100"
    return (f"{sentence}: use that of the test report",)


def sample_factor(tests: int) -> float:
    """CP, the correction for a small sample of n tests: (1 + 1/n)(n - 1)/(n - 3), 5.7 for three."""
    return 5.7 if tests == MIN_TESTS else (1 + 1 / tests) * (tests - 1) / (tests - 3)


def resistance_factor(
    tests: int,
    scatter: float,
    *,
    reliability: float,
    material: float,
    fabrication_scatter: float,
    record: Recorder = silent,
) -> float:
    """φ = 1.52 Mm Fm Pm exp(-β √(VM² + VF² + CP VP² + VQ²)), Eq. K2.1.1-2, with Fm and Pm 1.

    Args:
        tests: n, number of tests, at least three.
        scatter: VP, coefficient of variation of the results.
        reliability: β, 3.5 for connections, 2.5 for a roof panel's anchors.
        material: Mm, mean strength of the material over its nominal.
        fabrication_scatter: VF, coefficient of variation of fabrication.
        record: takes the step.
    """
    vp, cp = max(scatter, MIN_SCATTER), sample_factor(tests)
    phi = 1.52 * material * math.exp(-reliability * math.sqrt(VM**2 + fabrication_scatter**2 + cp * vp**2 + VQ**2))
    terms = {
        "Mm": Term(material),
        "beta": Term(reliability),
        "VM": Term(VM),
        "VF": Term(fabrication_scatter),
        "CP": Term(cp),
        "VP": Term(vp),
        "VQ": Term(VQ),
    }
    equation = "1.52 * Mm * exp(-beta * sqrt(VM ** 2 + VF ** 2 + CP * VP ** 2 + VQ ** 2))"
    record(
        CalculationStep(
            "phi", f"resistance factor from the scatter of {tests} tests", Term(phi), equation, terms, CLAUSE
        )
    )
    return phi


def safety_factor(phi: float, minimum: float, record: Recorder = silent) -> float:
    """Ω = 1.6/φ, not below `minimum`."""
    omega = max(LOAD_FACTOR / phi, minimum)
    terms = {"phi": Term(phi), "least": Term(minimum)}
    record(CalculationStep("Omega", "safety factor", Term(omega), f"max({LOAD_FACTOR} / phi, least)", terms, CLAUSE))
    return omega
