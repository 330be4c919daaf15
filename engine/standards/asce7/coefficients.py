"""External pressure coefficients of roof cladding, GCp, ASCE 7 Figs. 30.3-2 and 30.3-5.

Every curve is level, then straight in log A, then level; two break points define it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.arrays import Floats, Ints
from engine.reference import Confidence, Reference
from engine.standards.asce7.references import clause
from engine.standards.asce7.site import SEVEN_16, SEVEN_22

Curve = tuple[float, float, float, float]
"""G1 at A1 and below, G2 at A2 and above: (G1, A1, G2, A2), areas in ft²."""


@dataclass(frozen=True)
class Figure:
    """One figure: the curve of pressures toward the roof, and one of suction a zone, mildest zone first."""

    reference: Reference
    toward: Curve
    away: dict[str, Curve]

    @property
    def zone_names(self) -> tuple[str, ...]:
        """Zones, mildest first: of several that a thing touches the last is its worst."""
        return tuple(self.away)

    def suction(self, zone: Ints, area: Floats) -> Floats:
        """GCp of suction, negative; zone indices and areas [ft²] of one shape."""
        return along(np.array(list(self.away.values()))[zone], area)

    def push(self, area: Floats) -> Floats:
        """GCp of pressure toward the roof, for areas [ft²]."""
        return along(np.broadcast_to(np.array(self.toward), (*area.shape, 4)), area)


def along(curves: Floats, area: Floats) -> Floats:
    """Interpolate curves (n, 4) in the logarithm of areas (n,) [ft²]."""
    start, first, end, last = np.moveaxis(curves, -1, 0)
    part = np.clip(np.log10(area / first) / np.log10(last / first), 0.0, 1.0)
    value: Floats = start + (end - start) * part
    return value


def _alike(names: str, curve: Curve) -> dict[str, Curve]:
    return dict.fromkeys(names.split(), curve)


def figure(edition: str, shape: str, slope: float) -> Figure | None:
    """The figure for a roof shape and slope [deg]; None where none of those here applies."""
    if shape == "gable" and slope > 7 or shape == "monoslope" and slope > 3:
        return _steep(edition, shape, slope)
    return Figure(
        clause(edition, "Fig. 30.3-2A"),
        (0.3, 10, 0.2, 100),
        {"1'": (-0.9, 100, -0.4, 1000), "1": (-1.7, 10, -1.0, 500), "2": (-2.3, 10, -1.4, 500), "3": (-3.2, 10, -1.4, 500)},
    )


def _steep(edition: str, shape: str, slope: float) -> Figure | None:
    if shape == "monoslope":
        return _monoslope(edition, slope)
    return _gable_16(slope) if edition == SEVEN_16 else _gable_22(slope)


def _gable_16(slope: float) -> Figure | None:
    if slope <= 20:
        away = _alike("1 2e", (-2.0, 20, -0.5, 100)) | _alike("2r 2n 3e", (-3.0, 10, -1.0, 250)) | {"3r": (-3.6, 10, -1.8, 100)}
        return Figure(clause(SEVEN_16, "Fig. 30.3-2B"), (0.7, 2, 0.3, 100), away)
    if slope <= 27:
        away = _alike("1 2e", (-1.5, 20, -0.8, 300)) | _alike("2r 2n 3e", (-2.5, 10, -1.2, 150)) | {"3r": (-3.6, 4, -1.8, 50)}
        return Figure(clause(SEVEN_16, "Fig. 30.3-2C", Confidence.SINGLE), (0.7, 2, 0.3, 100), away)
    if slope <= 45:
        away = _alike("1 2e 2r", (-1.8, 10, -0.8, 100)) | _alike("2n 3r", (-2.0, 10, -1.0, 200)) | {"3e": (-3.2, 2, -1.0, 300)}
        return Figure(clause(SEVEN_16, "Fig. 30.3-2D"), (0.9, 10, 0.5, 100), away)
    return None


def _gable_22(slope: float) -> Figure | None:
    away: dict[str, Curve]
    if slope <= 20:
        away = {"1": (-2.0, 10, -0.5, 300), "2": (-2.7, 10, -1.0, 200), "3": (-3.6, 10, -1.8, 100)}
        return Figure(clause(SEVEN_22, "Fig. 30.3-2B"), (0.6, 10, 0.3, 200), away)
    if slope <= 27:
        away = {"1": (-1.5, 10, -0.8, 200), "2": (-2.5, 10, -1.2, 100), "3": (-3.0, 10, -1.4, 100)}
        return Figure(clause(SEVEN_22, "Fig. 30.3-2C"), (0.6, 10, 0.3, 200), away)
    if slope <= 45:
        away = {"1": (-1.8, 10, -0.8, 100), "2": (-2.0, 10, -1.0, 200), "3": (-2.5, 10, -1.0, 200)}
        return Figure(clause(SEVEN_22, "Fig. 30.3-2D"), (0.9, 10, 0.5, 200), away)
    return None


def _monoslope(edition: str, slope: float) -> Figure | None:
    away: dict[str, Curve]
    if slope <= 10:
        away = {
            "1": (-1.1, 10, -1.1, 100),
            "2": (-1.3, 10, -1.2, 100),
            "2'": (-1.6, 10, -1.5, 100),
            "3": (-1.8, 10, -1.2, 100),
            "3'": (-2.6, 10, -1.6, 100),
        }
        return Figure(clause(edition, "Fig. 30.3-5A"), (0.3, 10, 0.2, 100), away)
    if slope <= 30:
        away = {"1": (-1.3, 10, -1.1, 100), "2": (-1.6, 10, -1.2, 100), "3": (-2.9, 10, -2.0, 100)}
        return Figure(clause(edition, "Fig. 30.3-5B"), (0.4, 10, 0.3, 100), away)
    return None
