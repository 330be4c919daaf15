"""Screws in steel sheet, AISI S100 J4 (formerly E4): strengths of one screw, one function a clause.

Forces in kip, lengths in inches, stresses in ksi. Tension has two sets of equations: that of the editions to 2016, and
a newer one. The first edition with the newer set was not confirmed.
"""

from __future__ import annotations

import math

from engine.common.calculation import CalculationStep, Confidence, Recorder, Reference, Term, silent

TO_2016, NEWER = "to 2016", "newer"
SETS = (TO_2016, NEWER)

EDITION = {TO_2016: "2016", NEWER: "newer set"}
PULL_OUT = {name: Reference("AISI S100", edition, "§J4.4.1", Confidence.SEVERAL) for name, edition in EDITION.items()}
PULL_OVER = {name: Reference("AISI S100", edition, "§J4.4.2", Confidence.SEVERAL) for name, edition in EDITION.items()}
SHEAR = Reference("AISI S100", "2016", "§J4.3.1", Confidence.SEVERAL)
DUCTILITY = Reference("AISI S100", "2016", "§A3.1.3", Confidence.SEVERAL)

PULL_OUT_FACTOR = {TO_2016: 3.0, NEWER: 2.80}
PULL_OVER_FACTOR = {TO_2016: 3.0, NEWER: 2.90}
SHEAR_FACTOR = 3.0

GRADE_80 = 80.0
"""Tensile strength of Grade 80 sheet, which stretches little before it breaks [ksi]."""

MAX_WASHER = 0.75
"""Largest diameter of a head or washer that counts [in]."""


def counted_strength(fu: float) -> float:
    """Effective Fu, A3.1.3 (formerly A2.3.3): min(0.75 Fu, 62) for Grade 80 sheet, else Fu [ksi]."""
    return min(0.75 * fu, 62.0) if fu >= GRADE_80 else fu


def pnot(tc: float, d: float, fu2: float, edition: str, record: Recorder = silent) -> float:
    """Pnot, pull-out, J4.4.1: 0.85 tc d Fu2; in the newer set 1.63 tc^0.18 times that [kip].

    Args:
        tc: thickness of the member that holds the thread [in].
        d: nominal diameter of the screw [in].
        fu2: effective tensile strength of that member [ksi].
        edition: "to 2016" or "newer".
        record: takes the step.
    """
    newer = 1.0 if edition == TO_2016 else 1.63 * tc**0.18
    result = float(0.85 * tc * d * fu2 * newer)
    equation = "0.85 * tc * d * Fu2" + ("" if edition == TO_2016 else " * 1.63 * tc ** 0.18")
    terms = {"tc": Term(tc, "in"), "d": Term(d, "in"), "Fu2": Term(fu2, "ksi")}
    record(CalculationStep("Pnot", "pull-out of one screw", Term(result, "kip"), equation, terms, PULL_OUT[edition]))
    return result


def pnov(t1: float, dw: float, fu1: float, edition: str, record: Recorder = silent) -> float:
    """Pnov, pull-over, J4.4.2: 1.5 t1 d'w Fu1; in the newer set 0.90 t1 d'w Fu1 [kip].

    Args:
        t1: thickness of the sheet under the head [in].
        dw: d'w, diameter of the head or washer; 3/4 in counts at most [in].
        fu1: effective tensile strength of that sheet [ksi].
        edition: "to 2016" or "newer".
        record: takes the step.
    """
    factor, counted = 1.5 if edition == TO_2016 else 0.90, min(dw, MAX_WASHER)
    result = factor * t1 * counted * fu1
    terms = {"t1": Term(t1, "in"), "dw": Term(counted, "in"), "Fu1": Term(fu1, "ksi")}
    record(
        CalculationStep(
            "Pnov",
            "pull-over of one screw",
            Term(result, "kip"),
            f"{factor} * t1 * dw * Fu1",
            terms,
            PULL_OVER[edition],
        )
    )
    return result


def bearing(t1: float, t2: float, d: float, fu1: float, fu2: float, record: Recorder = silent) -> float:
    """Bearing strength of one screw, J4.3.1: min(2.7 t1 d Fu1, 2.7 t2 d Fu2) [kip]; arguments as for `pnv`."""
    result = min(2.7 * t1 * d * fu1, 2.7 * t2 * d * fu2)
    terms = {
        "t1": Term(t1, "in"),
        "t2": Term(t2, "in"),
        "d": Term(d, "in"),
        "Fu1": Term(fu1, "ksi"),
        "Fu2": Term(fu2, "ksi"),
    }
    record(
        CalculationStep(
            "P_bearing",
            "bearing of one screw",
            Term(result, "kip"),
            "min(2.7 * t1 * d * Fu1, 2.7 * t2 * d * Fu2)",
            terms,
            SHEAR,
        )
    )
    return result


def tilting(t2: float, d: float, fu2: float, record: Recorder = silent) -> float:
    """Tilting strength of one screw, J4.3.1: 4.2 √(t2³ d) Fu2 [kip]; arguments as for `pnv`."""
    result = 4.2 * math.sqrt(t2**3 * d) * fu2
    terms = {"t2": Term(t2, "in"), "d": Term(d, "in"), "Fu2": Term(fu2, "ksi")}
    record(
        CalculationStep(
            "P_tilting", "tilting of one screw", Term(result, "kip"), "4.2 * sqrt(t2 ** 3 * d) * Fu2", terms, SHEAR
        )
    )
    return result


def pnv(t1: float, t2: float, d: float, fu1: float, fu2: float, record: Recorder = silent) -> float:
    """Pnv, shear of the sheets at one screw, J4.3.1 [kip].

    The smaller of tilting and bearing for t2/t1 ≤ 1, bearing alone for t2/t1 ≥ 2.5, linear between.

    Args:
        t1: thickness of the sheet under the head [in].
        t2: thickness of the member that holds the thread [in].
        d: nominal diameter of the screw [in].
        fu1: effective tensile strength of the sheet under the head [ksi].
        fu2: effective tensile strength of the member that holds the thread [ksi].
        record: takes the steps.
    """
    p_bearing, p_tilting = bearing(t1, t2, d, fu1, fu2, record), tilting(t2, d, fu2, record)
    smaller = min(p_tilting, p_bearing)
    result = smaller + (p_bearing - smaller) * min(max((t2 / t1 - 1) / 1.5, 0.0), 1.0)
    equation = (
        "min(P_tilting, P_bearing) + (P_bearing - min(P_tilting, P_bearing)) * min(max((t2 / t1 - 1) / 1.5, 0), 1)"
    )
    terms = {
        "P_tilting": Term(p_tilting, "kip"),
        "P_bearing": Term(p_bearing, "kip"),
        "t1": Term(t1, "in"),
        "t2": Term(t2, "in"),
    }
    record(CalculationStep("Pnv", "shear of the sheets at one screw", Term(result, "kip"), equation, terms, SHEAR))
    return result
