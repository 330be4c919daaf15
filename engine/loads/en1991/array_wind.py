"""Wind on modules: net coefficients stated by zone, the cautious fallback, or those of a rack's own report.

EN 1991-1-4 has no clause for modules above a roof, so none of these figures is the standard's.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import SCENARIO, CalculationStep, Recorder, Term, silent
from engine.loads.en1991.cladding import UP, Cladding
from engine.loads.en1991.net_coefficients import NetCoefficients
from engine.loads.en1991.references import WIND, choice
from engine.loads.en1991.roof_zones import SlopeZones
from engine.loads.interface import ExceededLimit, Remark
from engine.mounting.layout import Field

MAX_TILT = 2.0
"""Largest angle between module and roof of an array parallel to the roof [deg] (judgement)."""

EXPOSED_FACTOR, SMALL_AREA = 1.2, 2.0
"""Increase of suction on parts that carry less than an area [m²]: every module counts as exposed (judgement)."""

MIN_UPLIFT, MIN_DOWN = -1.3, 1.0
"""Least net coefficients of the fallback, up and down; seen once, for the middle of roofs."""

NO_STANDARD = "net coefficients from no standard"

FALLBACK = choice("cautious fallback for arrays, from no standard")


class ArrayWind(Protocol):
    """Net coefficients of the modules of one field.

    `unproven` is why no standard or report stands behind them, in a few words; empty where one does.
    """

    @property
    def outside(self) -> tuple[ExceededLimit, ...]:
        """Reasons why there are none."""
        ...

    @property
    def remarks(self) -> tuple[Remark, ...]:
        """Remarks for the reader."""
        ...

    @property
    def unproven(self) -> str:
        """Why they are not proven."""
        ...

    def coefficient(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """Net coefficients with their sign (n,), for modules and loaded areas [m²]."""
        ...


@dataclass(frozen=True, eq=False)
class StatedByZone:
    """cp,net of the scenario: the worst of the zones that a module touches."""

    zones: SlopeZones
    stated: NetCoefficients
    touched: Bools
    outside: tuple[ExceededLimit, ...] = ()
    unproven: str = ""

    @property
    def remarks(self) -> tuple[Remark, ...]:
        """Source of the coefficients."""
        text = (
            "wind on modules uses net coefficients stated in the scenario, as EN 1991-1-4 has none: "
            f"{self.stated.source}"
        )
        return (Remark("own_coefficient", "caution", text),)

    def coefficient(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """The stated coefficients; areas do not change them."""
        of_zone = self.stated.up if case == UP else self.stated.down
        values = np.array([of_zone[zone.name[0]] for zone in self.zones.zones])
        of_parts = np.where(self.touched[module], values, 0.0)
        worst: Floats = of_parts.min(axis=1) if case == UP else of_parts.max(axis=1)
        if record is not silent:
            meaning = f"{case}: net coefficient, worst zone touched, from {self.stated.source}"
            record(CalculationStep("c", meaning, Term(float(worst[0])), "", {}, SCENARIO))
        return worst


@dataclass(frozen=True, eq=False)
class CautiousFallback:
    """Coefficients of the bare roof without equalisation, and least values: no bound that anybody has proven."""

    cladding: Cladding
    touched: Bools
    outside: tuple[ExceededLimit, ...] = ()
    unproven: str = NO_STANDARD

    @property
    def remarks(self) -> tuple[Remark, ...]:
        """That no standard stands behind the figures."""
        text = (
            "wind on modules uses the cautious fallback, net coefficients from no standard: those of the bare roof, "
            f"x {EXPOSED_FACTOR} on parts under {SMALL_AREA:g} m2, at least {-MIN_UPLIFT:g} up and {MIN_DOWN:g} down. "
            "Get coefficients for this array, with their source, and state them as site.cp_net"
        )
        return (Remark("fallback_coefficient", "caution", text),)

    def coefficient(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """Up: the lesser of 1.2 cpe, or cpe on large areas, and -1.3. Down: the larger of cpe and 1.0."""
        cpe = self.cladding.external(case, self.touched[module], area, record)
        if case != UP:
            down: Floats = np.maximum(cpe, MIN_DOWN)
            self._record(case, "max(cpe, least)", float(cpe[0]), MIN_DOWN, 1.0, float(down[0]), record)
            return down
        factor = np.where(area < SMALL_AREA, EXPOSED_FACTOR, 1.0)
        up: Floats = np.minimum(factor * cpe, MIN_UPLIFT)
        values = float(cpe[0]), MIN_UPLIFT, float(factor[0]), float(up[0])
        self._record(case, "min(f * cpe, least)", *values, record)
        return up

    def _record(
        self, case: str, equation: str, cpe: float, least: float, factor: float, result: float, record: Recorder
    ) -> None:
        terms = {"cpe": Term(cpe), "least": Term(least)} | ({"f": Term(factor)} if case == UP else {})
        meaning = f"{case}: net coefficient, {NO_STANDARD}"
        record(CalculationStep("c", meaning, Term(result), equation, terms, FALLBACK))


@dataclass(frozen=True, eq=False)
class RackByReport:
    """One net coefficient for tilted rows, up and down, from the rack's own report."""

    net_coefficient: float
    outside: tuple[ExceededLimit, ...] = ()
    unproven: str = ""

    @property
    def remarks(self) -> tuple[Remark, ...]:
        """That the coefficient is the scenario's."""
        text = (
            f"wind on tilted modules uses the net coefficient {self.net_coefficient:g} of the scenario, as EN 1991-1-4 "
            "has none: show the wind-tunnel report"
        )
        return (Remark("own_coefficient", "caution", text),)

    def coefficient(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """The stated coefficient, negative in uplift."""
        net = -self.net_coefficient if case == UP else self.net_coefficient
        record(CalculationStep("c", f"{case}: net coefficient of the scenario", Term(net), "", {}, SCENARIO))
        return np.full(len(module), net)


@dataclass(frozen=True)
class NoCoefficient:
    """Tilted rows without a report: there is no wind for them."""

    outside: tuple[ExceededLimit, ...] = (
        ExceededLimit(
            WIND,
            "it has no wind on tilted modules above a roof, and the fallback is for modules parallel to it: state "
            "net_coefficient of the method from a wind-tunnel report",
        ),
    )
    remarks: tuple[Remark, ...] = ()
    unproven: str = ""

    def coefficient(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """Raises ValueError: there is none."""
        raise ValueError(f"outside {self.outside[0]}")


def array_wind(stated: NetCoefficients | None, cladding: Cladding, field: Field) -> ArrayWind:
    """Wind on the modules of a field; `stated` is None for the cautious fallback."""
    attitude = field.attitude
    if abs(attitude.tilt) > MAX_TILT:
        return NoCoefficient() if attitude.net_coefficient is None else RackByReport(attitude.net_coefficient)
    touched = cladding.zones.touched(field.outlines)
    return CautiousFallback(cladding, touched) if stated is None else StatedByZone(cladding.zones, stated, touched)
