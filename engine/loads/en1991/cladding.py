"""External and internal pressure on the roof, EN 1991-1-4 7.2: the worst zone that a part touches."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.common.calculation import CalculationStep, Recorder, Term, silent
from engine.loads.en1991.references import WIND, clause
from engine.loads.en1991.roof_zones import SlopeZones
from engine.mounting.layout import Rectangles

UP, DOWN = "W up", "W down"
"""The two wind cases: the largest suction and the largest pressure, over all winds."""

INTERNAL = {UP: -0.2, DOWN: 0.3}
"""Case → internal pressure on the roof over qp, 7.2.9: cpi +0.2 pushes it up, cpi -0.3 pulls it down."""

AREA_EQUATION = "cpe1 - (cpe1 - cpe10) * min(1, max(0, log(A)))"
MIN_AREA = 1e-6
"""Smallest area at which a coefficient is read [m²]; it is constant there."""


@dataclass(frozen=True, eq=False)
class Cladding:
    """Coefficients of the roof alone."""

    zones: SlopeZones

    def external(self, case: str, touched: Bools, area: Floats, record: Recorder = silent) -> Floats:
        """Cpe with its sign (n,): of all entries that a part touches the worst for the case, or 0.

        Args:
            case: `UP` or `DOWN`.
            touched: True for each entry that a part touches (n, k).
            area: loaded areas (n,) [m²].
            record: takes the steps of the first part.
        """
        values = np.where(touched, self.zones.coefficients(np.maximum(area, MIN_AREA)), 0.0)
        worst: Floats = values.min(axis=1) if case == UP else values.max(axis=1)
        if record is not silent:
            first = int(values[0].argmin() if case == UP else values[0].argmax())
            self._record(first if worst[0] else None, case, float(area[0]), record)
        return worst

    def _record(self, number: int | None, case: str, area: float, record: Recorder) -> None:
        """The coefficient of one entry at an area [m²]; without an entry the case has no external pressure."""
        if number is None:
            meaning = f"{case}: no external pressure in that direction in any zone touched"
            record(CalculationStep("cpe", meaning, Term(0.0), "", {}, clause(WIND, "7.2")))
            return
        zone, size = self.zones.zones[number], max(area, MIN_AREA)
        zone.coefficient.record(zone.name, record)
        ten, one = zone.coefficient.pair
        terms = {"cpe1": Term(one), "cpe10": Term(ten), "A": Term(size, "m2")}
        result = one - (one - ten) * min(1.0, max(0.0, float(np.log10(size))))
        meaning = f"{case}: worst zone touched, {zone.name}, {zone.wind}"
        record(CalculationStep("cpe", meaning, Term(result), AREA_EQUATION, terms, clause(WIND, "figure 7.2")))

    def net(self, case: str, places: Rectangles, area: Floats, record: Recorder = silent) -> Floats:
        """Cpe - cpi of rectangles of roof (n,), 5.2(3), with the internal pressure that adds to the case."""
        outside, inside = self.external(case, self.zones.touched(places), area, record), INTERNAL[case]
        if record is not silent:
            meaning = "internal pressure, no dominant opening, with the sign that adds"
            record(CalculationStep("cpi", meaning, Term(-inside), "", {}, clause(WIND, "7.2.9")))
            terms = {"cpe": Term(float(outside[0])), "cpi": Term(-inside)}
            result = Term(float(outside[0]) + inside)
            record(CalculationStep("c", "both faces of the roof", result, "cpe - cpi", terms, clause(WIND, "5.2(3)")))
        net: Floats = outside + inside
        return net


def pressure(qp: float, coefficient: Floats, record: Recorder = silent) -> Floats:
    """W = qp c, Eq. 5.1 and 5.2, for coefficients (n,) [Pa]; qp [Pa]."""
    result: Floats = qp * coefficient
    if record is not silent:
        terms = {"qp": Term(qp, "N/m2"), "c": Term(float(coefficient[0]))}
        meaning = "wind pressure, toward the roof positive"
        record(CalculationStep("w", meaning, Term(float(result[0]), "N/m2"), "qp * c", terms, clause(WIND, "5.2")))
    return result
