"""External pressure coefficients of roof cladding, GCp, ASCE 7 Figs. 30.3-2 and 30.3-5.

Every curve is constant, then linear in log A, then constant; two break points define it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import CalculationStep, Confidence, Recorder, Reference, Term
from engine.common.tolerances import SAME_ANGLE, SAME_LENGTH
from engine.loads.asce7.net_pressure import UP
from engine.loads.asce7.references import clause
from engine.loads.asce7.site import SEVEN_16, SEVEN_22


class Curve(NamedTuple):
    """`first` up to area `from_area`, `last` from area `to_area`, linear in log A between them [-, ft²]."""

    first: float
    from_area: float
    last: float
    to_area: float

    def at(self, area: Floats) -> Floats:
        """Value at each area [ft²] (n,)."""
        return Curves.of([self]).at(area)[:, 0]

    def terms(self, area: float) -> dict[str, Term]:
        """The terms of `CURVE_EQUATION` at an area [ft²]."""
        return {
            "G1": Term(self.first),
            "A1": Term(self.from_area, "ft2"),
            "G2": Term(self.last),
            "A2": Term(self.to_area, "ft2"),
            "A": Term(area, "ft2"),
        }


CURVE_EQUATION = "G1 + (G2 - G1) * min(1, max(0, log(A / A1) / log(A2 / A1)))"
"""Value of a curve, for the steps of a calculation."""


@dataclass(frozen=True, eq=False)
class Curves:
    """Several curves as arrays (k,), read at many areas at once."""

    first: Floats
    change: Floats
    start: Floats
    decades: Floats

    @classmethod
    def of(cls, curves: Iterable[Curve]) -> Curves:
        """The curves in their order."""
        first, from_area, last, to_area = np.array(list(curves), dtype=np.float64).T
        return cls(first, last - first, np.log10(from_area), np.log10(to_area / from_area))

    def at(self, area: Floats) -> Floats:
        """Value of every curve at each area (n,) [ft²], (n, k)."""
        part = (np.log10(area)[:, np.newaxis] - self.start) / self.decades
        values: Floats = self.first + self.change * np.clip(part, 0.0, 1.0)
        return values


HIGH_PARAPET = 3.0
"""Height of a parapet from which zones 2 and 3 have the wall's down pressure [ft], Fig. 30.3-2A, Note 5."""

PARAPET_ZONES = ("2", "3")


@dataclass(frozen=True, eq=False)
class GcpFigure:
    """One figure: a curve of down pressure for all zones, and a curve of suction for each, smallest suction first.

    `behind_parapet` is the curve of down pressure in zones 2 and 3 of a roof with a high parapet.
    """

    reference: Reference
    toward: Curve
    away: Mapping[str, Curve]
    behind_parapet: Curve | None = None

    @property
    def zone_names(self) -> tuple[str, ...]:
        """Zones, smallest suction on small areas first."""
        return tuple(self.away)

    def gcp(self, case: str, touched: Bools, area: Floats) -> Floats:
        """GCp with its sign: of all zones that a part touches the largest suction, at the part's own area.

        The order of the zones does not decide: curves of two zones may cross.

        Args:
            case: "W up" or "W down".
            touched: True for each zone that a part touches (n, zones).
            area: effective areas (n,) [ft²].
        """
        if case == UP:
            suction: Floats = np.where(touched, self.suctions(area), 0.0).min(axis=1)
            return suction
        if self.behind_parapet is None:
            return self.down(area)
        behind = self.behind_parapet.at(area)
        return np.where(touched[:, self._parapet_zones].any(axis=1), behind, self.down(area))

    def suctions(self, area: Floats) -> Floats:
        """Negative GCp of every zone at each area [ft²], (n, zones)."""
        return self._away.at(area)

    def down(self, area: Floats) -> Floats:
        """Positive GCp (down load), the same in every zone without a high parapet, for areas (n,) [ft²]."""
        return self.toward.at(area)

    def record_gcp(self, case: str, touched: Bools, area: float, value: float, record: Recorder) -> None:
        """Record the GCp of one part, by the curve of its controlling zone; touched (zones,), area [ft²]."""
        zone = int(np.where(touched, self.suctions(np.array([area]))[0], 0.0).argmin())
        curve, name = self.away[self.zone_names[zone]], self.zone_names[zone]
        if case != UP:
            name = self.zone_names[last_touched(touched[np.newaxis])[0]]
            curve = self.behind_parapet if self.behind_parapet and touched[self._parapet_zones].any() else self.toward
        meaning = f"external coefficient of the roof, zone {name}"
        record(CalculationStep("GCp", meaning, Term(value), CURVE_EQUATION, curve.terms(area), self.reference))

    @cached_property
    def _away(self) -> Curves:
        return Curves.of(self.away.values())

    @cached_property
    def _parapet_zones(self) -> Bools:
        return np.isin(self.zone_names, PARAPET_ZONES)


def last_touched(touched: Bools) -> Ints:
    """Index of the last zone that each part touches, for labels; touched (n, zones)."""
    last: Ints = touched.shape[1] - 1 - np.argmax(touched[:, ::-1], axis=1)
    return last


def _same(names: str, curve: Curve) -> dict[str, Curve]:
    return dict.fromkeys(names.split(), curve)


_LOW_SLOPE = {
    "1'": Curve(-0.9, 100, -0.4, 1000),
    "1": Curve(-1.7, 10, -1.0, 500),
    "2": Curve(-2.3, 10, -1.4, 500),
    "3": Curve(-3.2, 10, -1.4, 500),
}

_GABLE: dict[str, tuple[tuple[float, GcpFigure], ...]] = {
    SEVEN_16: (
        (
            20.0,
            GcpFigure(
                clause(SEVEN_16, "Fig. 30.3-2B"),
                Curve(0.7, 2, 0.3, 100),
                _same("1 2e", Curve(-2.0, 20, -0.5, 100))
                | _same("2n 2r 3e", Curve(-3.0, 10, -1.0, 250))
                | _same("3r", Curve(-3.6, 10, -1.8, 100)),
            ),
        ),
        (
            27.0,
            GcpFigure(
                clause(SEVEN_16, "Fig. 30.3-2C", Confidence.SINGLE),
                Curve(0.7, 2, 0.3, 100),
                _same("1 2e", Curve(-1.5, 20, -0.8, 300))
                | _same("2n 2r 3e", Curve(-2.5, 10, -1.2, 150))
                | _same("3r", Curve(-3.6, 4, -1.8, 50)),
            ),
        ),
        (
            45.0,
            GcpFigure(
                clause(SEVEN_16, "Fig. 30.3-2D"),
                Curve(0.9, 10, 0.5, 100),
                _same("1 2e 2r", Curve(-1.8, 10, -0.8, 100))
                | _same("2n 3r", Curve(-2.0, 10, -1.0, 200))
                | _same("3e", Curve(-3.2, 2, -1.0, 300)),
            ),
        ),
    ),
    SEVEN_22: (
        (
            20.0,
            GcpFigure(
                clause(SEVEN_22, "Fig. 30.3-2B"),
                Curve(0.6, 10, 0.3, 200),
                {"1": Curve(-2.0, 10, -0.5, 300), "2": Curve(-2.7, 10, -1.0, 200), "3": Curve(-3.6, 10, -1.8, 100)},
            ),
        ),
        (
            27.0,
            GcpFigure(
                clause(SEVEN_22, "Fig. 30.3-2C"),
                Curve(0.6, 10, 0.3, 200),
                {"1": Curve(-1.5, 10, -0.8, 200), "2": Curve(-2.5, 10, -1.2, 100), "3": Curve(-3.0, 10, -1.4, 100)},
            ),
        ),
        (
            45.0,
            GcpFigure(
                clause(SEVEN_22, "Fig. 30.3-2D"),
                Curve(0.9, 10, 0.5, 200),
                {"1": Curve(-1.8, 10, -0.8, 100), "2": Curve(-2.0, 10, -1.0, 200), "3": Curve(-2.5, 10, -1.0, 200)},
            ),
        ),
    ),
}
"""Edition → largest slope of each figure [deg], and the figure."""


def _monoslope(edition: str) -> tuple[tuple[float, GcpFigure], ...]:
    """Figures of one slope; the curves of 2' and 3 in Fig. 30.3-5A cross at 25.1 ft²."""
    to_ten = {
        "1": Curve(-1.1, 10, -1.1, 100),
        "2": Curve(-1.3, 10, -1.2, 100),
        "2'": Curve(-1.6, 10, -1.5, 100),
        "3": Curve(-1.8, 10, -1.2, 100),
        "3'": Curve(-2.6, 10, -1.6, 100),
    }
    to_thirty = {"1": Curve(-1.3, 10, -1.1, 100), "2": Curve(-1.6, 10, -1.2, 100), "3": Curve(-2.9, 10, -2.0, 100)}
    return (
        (10.0, GcpFigure(clause(edition, "Fig. 30.3-5A"), Curve(0.3, 10, 0.2, 100), to_ten)),
        (30.0, GcpFigure(clause(edition, "Fig. 30.3-5B"), Curve(0.4, 10, 0.3, 100), to_thirty)),
    )


_LESS_STEEP_HIP = GcpFigure(
    clause(SEVEN_22, "Fig. 30.3-2F", Confidence.SINGLE),
    Curve(0.7, 10, 0.3, 100),
    {"1": Curve(-1.4, 10, -0.8, 100)} | _same("2 3", Curve(-2.0, 10, -1.0, 200)),
)
"""Sources end the curve of zones 2 and 3 at 100 or at 200 ft²; 200 is safe."""

_STEEPEST_HIP = GcpFigure(
    clause(SEVEN_22, "Figs. 30.3-2F and 2G, Note 6", Confidence.SINGLE),
    Curve(0.7, 10, 0.3, 100),
    {"1": Curve(-1.5, 10, -0.7, 100), "2": Curve(-1.8, 10, -0.8, 100), "3": Curve(-2.4, 10, -1.0, 100)},
)
"""Fig. 30.3-2G, for 45 deg; hip roofs between 27 and 45 deg are interpolated with Fig. 30.3-2F."""

_HIP_22: tuple[tuple[float, GcpFigure], ...] = (
    (
        20.0,
        GcpFigure(
            clause(SEVEN_22, "Fig. 30.3-2E", Confidence.SINGLE),
            Curve(0.7, 10, 0.3, 100),
            {"1": Curve(-1.8, 10, -0.8, 200), "2": Curve(-2.4, 10, -1.3, 200), "3": Curve(-2.6, 10, -1.4, 200)},
        ),
    ),
    (27.0, _LESS_STEEP_HIP),
    (45.0, _STEEPEST_HIP),
)
"""The curves were seen in several sources, the zones in one."""


def _between_hips(slope: float) -> GcpFigure:
    """Note 6 of Fig. 30.3-2G: linear in the slope between 27 and 45 deg, at each area; slope [deg].

    Notes:
        The interpolated curve of two that end at different areas has one more break point. Here it ends at the larger
        area (safe).
    """
    part = (slope - 27) / 18

    def between(less: Curve, most: Curve) -> Curve:
        ends = (one + part * (other - one) for one, other in ((less.first, most.first), (less.last, most.last)))
        return Curve(next(ends), less.from_area, next(ends), max(less.to_area, most.to_area))

    away = {zone: between(curve, _STEEPEST_HIP.away[zone]) for zone, curve in _LESS_STEEP_HIP.away.items()}
    return GcpFigure(_STEEPEST_HIP.reference, between(_LESS_STEEP_HIP.toward, _STEEPEST_HIP.toward), away)


_LOW = {
    edition: GcpFigure(clause(edition, "Fig. 30.3-2A"), Curve(0.3, 10, 0.2, 100), _LOW_SLOPE)
    for edition in (SEVEN_16, SEVEN_22)
}

_BEHIND_PARAPET = {
    edition: replace(
        low,
        reference=clause(edition, "Fig. 30.3-2A, Note 5", Confidence.SINGLE),
        behind_parapet=Curve(1.0, 10, 0.7, 500),
    )
    for edition, low in _LOW.items()
}
"""Zones 2 and 3 have the wall's down pressure (Fig. 30.3-1). The reduction of zone 3 to zone 2 is not used (safe)."""

LOW_SLOPE_ENDS = {"flat": 7.0, "gable": 7.0, "hip": 7.0, "monoslope": 3.0}
"""Roof shape → largest slope of Fig. 30.3-2A [deg]."""

_FIGURES: Mapping[tuple[str, str], tuple[tuple[float, GcpFigure], ...]] = {
    (edition, shape): ((LOW_SLOPE_ENDS[shape], _LOW[edition]), *steeper)
    for edition in (SEVEN_16, SEVEN_22)
    for shape, steeper in (("flat", ()), ("gable", _GABLE[edition]), ("monoslope", _monoslope(edition)))
} | {(SEVEN_22, "hip"): ((LOW_SLOPE_ENDS["hip"], _LOW[SEVEN_22]), *_HIP_22)}


def gcp_figure(edition: str, shape: str, slope: float, parapet: float = 0.0) -> GcpFigure | None:
    """The figure for a roof shape, slope [deg] and parapet height [ft]; None beyond the last figure."""
    if slope <= LOW_SLOPE_ENDS[shape] + SAME_ANGLE and parapet >= HIGH_PARAPET - SAME_LENGTH:
        return _BEHIND_PARAPET[edition]
    if shape == "hip" and 27 < slope <= 45:
        return _between_hips(slope)
    return next((figure for end, figure in _FIGURES[edition, shape] if slope <= end + SAME_ANGLE), None)


def covers(edition: str, shape: str) -> bool:
    """True if there are figures for a roof shape; 7-16 has none here for hip roofs (seen in one source)."""
    return (edition, shape) in _FIGURES


def steepest(edition: str, shape: str) -> float:
    """Largest slope of the figures for a roof shape [deg]."""
    return _FIGURES[edition, shape][-1][0]
