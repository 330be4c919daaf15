"""Net pressures from coefficients, with the code's minimum."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats
from engine.common.calculation import CalculationStep, Recorder, Term, silent
from engine.loads.asce7.references import memory
from engine.loads.asce7.site import SEVEN_16, Site
from engine.loads.asce7.velocity_pressure import KD_OF_PRESSURE, qh

UP, DOWN = "W up", "W down"
"""The two wind cases: uplift and down load."""

MIN_PRESSURE = 16.0
"""Minimum net pressure up and down, strength level [psf], §30.2.2 and §29.7 (its use for arrays: from memory)."""


@dataclass(frozen=True)
class NetPressure:
    """Wind at the mean roof height [ft] of a site; `qh` as its edition defines it [psf]."""

    site: Site
    height: float
    qh: float

    @classmethod
    def at(cls, site: Site, height: float) -> NetPressure:
        """Wind at a mean roof height [ft]."""
        return cls(site, height, qh(site, height))

    @property
    def reference_pressure(self) -> float:
        """Pressure that multiplies a coefficient: qh (7-16), qh Kd (7-22) [psf]."""
        return self.qh * KD_OF_PRESSURE[self.site.standard]

    def pressure(self, case: str, coefficient: Floats, record: Recorder = silent) -> Floats:
        """Net pressure p = qh C (7-16), qh Kd C (7-22), at least 16 psf in the case's direction [psf].

        Args:
            case: "W up" or "W down".
            coefficient: net coefficients C with their sign.
            record: takes the steps of the first coefficient.
        """
        with_minimum = np.minimum if case == UP else np.maximum
        net: Floats = with_minimum(self.reference_pressure * coefficient, -MIN_PRESSURE if case == UP else MIN_PRESSURE)
        if record is not silent:
            qh(self.site, self.height, record)
            self._record(case, float(coefficient[0]), float(net[0]), record)
        return net

    def _record(self, case: str, coefficient: float, net: float, record: Recorder) -> None:
        edition = self.site.standard
        terms = {"qh": Term(self.qh, "psf"), "C": Term(coefficient), "minimum": Term(MIN_PRESSURE, "psf")}
        product = "qh * C"
        if edition != SEVEN_16:
            terms, product = terms | {"Kd": Term(KD_OF_PRESSURE[edition])}, "qh * Kd * C"
        equation = f"min({product}, -minimum)" if case == UP else f"max({product}, minimum)"
        governs = ", the minimum governs" if abs(net) <= MIN_PRESSURE else ""
        record(
            CalculationStep(
                "p",
                f"{case}: net pressure{governs}",
                Term(net, "psf"),
                equation,
                terms,
                memory(edition, "§29.7 and §30.2.2 for the minimum"),
            )
        )
