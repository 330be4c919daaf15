"""Wind on roof overhangs: coefficients of both faces together, and pressure below a panel.

The 7-16 figures of gable roofs, and Fig. 30.3-2A of both editions, have curves for overhangs, with both faces in them.
Elsewhere the coefficient of the roof and the pressure on the wall below (Fig. 30.3-1) are added. For the steeper gables
of 7-16, on whose curves public sources differ, the larger of curve and sum counts (loadpath's choice, safe).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.common.calculation import CalculationStep, Recorder, Term, silent
from engine.loads.asce7.gcp_figures import CURVE_EQUATION, Curve, GcpFigure
from engine.loads.asce7.net_pressure import UP
from engine.loads.asce7.references import clause

Points = Sequence[tuple[float, float]]
"""Effective area [ft²] and coefficient at each break point of a curve, which is straight in log A between them."""

WALL_TOWARD = Curve(1.0, 10, 0.7, 500)
"""Pressure toward a wall, Fig. 30.3-1."""

WALL_AWAY = Curve(-1.4, 10, -0.8, 500)
"""Suction on a wall, Fig. 30.3-1, zone 5 at its corners, everywhere (safe)."""

_LOW_SLOPE: Mapping[str, Points] = {
    "1'": ((10, -1.7), (100, -1.6), (500, -1.0)),
    "1": ((10, -1.7), (100, -1.6), (500, -1.0)),
    "2": ((10, -2.3), (500, -1.1)),
    "3": ((10, -3.2), (500, -1.1)),
}
_TO_20: Mapping[str, Points] = {
    **dict.fromkeys(("1", "2e"), ((20, -2.5), (100, -1.5))),
    **dict.fromkeys(("2n", "2r"), ((10, -3.5), (250, -2.0))),
    "3e": ((10, -4.1), (100, -2.3)),
    "3r": ((10, -4.7), (250, -1.5)),
}
_TO_45: Mapping[str, Points] = {
    **dict.fromkeys(("1", "2e", "2r"), ((10, -2.6), (100, -1.6))),
    **dict.fromkeys(("2n", "3r"), ((10, -2.8), (200, -1.8))),
    "3e": ((2, -4.0), (300, -1.8)),
}

_CURVES: Mapping[tuple[str, str], Mapping[str, Points]] = MappingProxyType(
    {
        ("7-16", "Fig. 30.3-2A"): _LOW_SLOPE,
        ("7-22", "Fig. 30.3-2A"): _LOW_SLOPE,
        ("7-16", "Fig. 30.3-2B"): _TO_20,
        ("7-16", "Fig. 30.3-2D"): _TO_45,
    }
)
"""Edition and figure → its curve for overhangs of each zone. 3r of Fig. 30.3-2B was seen once, against others."""

CURVE_ALONE = ("Fig. 30.3-2A",)
"""Figures whose own curves count without a sum of roof and wall."""


def at_area(points: Points, area: Floats) -> Floats:
    """A curve's coefficient at each effective area (n,) [ft²]."""
    areas, coefficients = zip(*points, strict=True)
    values: Floats = np.interp(np.log10(area), np.log10(areas), coefficients)
    return values


def both_faces(
    figure: GcpFigure, case: str, touched: Bools, area: Floats, roof: Floats, record: Recorder = silent
) -> Floats:
    """Coefficient of an overhang's upper and lower face together, GCp,OH, (n,).

    It is never less than that of the roof alone, because parts that reach across the wall have both.

    Args:
        figure: the figure of the roof.
        case: "W up" or "W down".
        touched: True for each zone that a part touches (n, zones).
        area: effective areas (n,) [ft²].
        roof: coefficients GCp of the roof alone, with their sign (n,).
        record: takes the step of the first part.
    """
    wall = _on_wall(case).at(area)
    alone, parts = case == UP and figure.reference.clause in CURVE_ALONE, {"GCp": roof}
    if not alone:
        parts |= {"wall": wall}
    curve = _curve(figure, touched, area) if case == UP else None
    found: Floats = roof if alone else roof - wall
    equation = "GCp" if alone else "GCp - wall"
    if curve is not None:
        parts, found, equation = parts | {"curve": curve}, np.minimum(found, curve), f"min({equation}, curve)"
    terms = {name: Term(float(values[0])) for name, values in parts.items()}
    meaning = "both faces of the overhang: the roof above, the wall below, and the figure's own curve where it has one"
    source = figure.reference
    reference = clause(f"ASCE {source.edition}", f"{source.clause} and Fig. 30.3-1, overhangs")
    record(CalculationStep("GCpOH", meaning, Term(float(found[0])), equation, terms, reference))
    return found


def _curve(figure: GcpFigure, touched: Bools, area: Floats) -> Floats | None:
    """Least coefficient of the figure's own curves for overhangs (n,); None if it has none."""
    curves = _CURVES.get((figure.reference.edition, figure.reference.clause))
    if curves is None:
        return None
    by_zone = np.stack([at_area(curves[zone], area) for zone in figure.zone_names], axis=1)
    least: Floats = np.where(touched, by_zone, 0.0).min(axis=1)
    return least


def pressure_below(edition: str, case: str, area: Floats, record: Recorder = silent) -> Floats:
    """Coefficient of the pressure on a panel from below an open soffit (n,), with the sign of its case; areas [ft²]."""
    wall = _on_wall(case)
    coefficient: Floats = -wall.at(area)
    meaning = f"{case}: below the open soffit, under modules, the pressure on the wall acts on the panel"
    result, terms = Term(float(coefficient[0])), wall.terms(float(area[0]))
    record(CalculationStep("C_below", meaning, result, f"-({CURVE_EQUATION})", terms, clause(edition, "Fig. 30.3-1")))
    return coefficient


def _on_wall(case: str) -> Curve:
    """The curve of the wall below that loads an overhang in the direction of a case."""
    return WALL_TOWARD if case == UP else WALL_AWAY
