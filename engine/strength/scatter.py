"""How much safety the scatter of a few tests asks for, AISI S100 K2.1 (formerly F1)."""

from __future__ import annotations

import math

from engine.reference import Confidence, Recorder, Reference, Step, Term, silent

S100_K2 = Reference("AISI S100", "2016", "Eq. K2.1.1-2", Confidence.SEVERAL)
LEAST_SCATTER = 0.065
FEWEST_TESTS = 3


def sample_factor(tests: int) -> float:
    """CP, the correction for a small sample: (1 + 1/n)(n - 1)/(n - 3), 5.7 for three tests."""
    return 5.7 if tests == FEWEST_TESTS else (1 + 1 / tests) * (tests - 1) / (tests - 3)


def safety_factor(
    tests: int, scatter: float, *, reliability: float, material: float, fabrication_scatter: float, record: Recorder = silent
) -> float:
    """Ω = 1.6/φ with φ = 1.52 Mm Fm Pm exp(-β √(VM² + VF² + CP VP² + VQ²)).

    Args:
        tests: number of tests, at least three.
        scatter: VP, coefficient of variation of the results, not taken below 0.065.
        reliability: β, 3.5 for connections, 2.5 for members.
        material: Mm, mean strength of the material over its nominal.
        fabrication_scatter: VF.
        record: takes the steps.
    """
    vp, cp = max(scatter, LEAST_SCATTER), sample_factor(tests)
    root = math.sqrt(0.10**2 + fabrication_scatter**2 + cp * vp**2 + 0.21**2)
    phi = 1.52 * material * math.exp(-reliability * root)
    terms = {
        "Mm": Term(material),
        "beta": Term(reliability),
        "VM": Term(0.10),
        "VF": Term(fabrication_scatter),
        "CP": Term(cp),
        "VP": Term(vp),
        "VQ": Term(0.21),
    }
    equation = "1.52 * Mm * exp(-beta * sqrt(VM ** 2 + VF ** 2 + CP * VP ** 2 + VQ ** 2))"
    record(Step("phi", "resistance factor from the scatter of the tests", Term(phi), equation, terms, S100_K2))
    record(Step("Omega", "safety factor", Term(1.6 / phi), "1.6 / phi", {"phi": Term(phi)}, S100_K2))
    return 1.6 / phi
