"""By hand: One clip on each of two invented roofs by EN 1991, from the basic wind velocity to the design resistance.

A seam on two clips and module edges on two seams each, so that equilibrium alone gives the loads. In N and m; of the
engine only the places of attachments and the mass of the hardware are used.
"""

from __future__ import annotations

from math import cos, log, radians, sin, tan

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.comparison.figures import value_of
from engine.load_path.demands import Demands
from support import scenario_of
from support.published import verified

LONG, SHORT, GRAVITY = 1.722, 1.134, 9.80665
AREA = LONG * SHORT
SLOPE_LENGTH, CLIPS = 4.0, (0.3, 3.7)
"""The slope, and both clips of each seam along it [m]."""

LOW, HIGH = 1.2, 1.2 + SHORT
"""Both edges of the row of modules [m from the eave]."""

TRIBUTARY = 0.5 * SLOPE_LENGTH / 2
"""Roof on one clip: one seam spacing, and half the slope [m²]."""

COVERED = (2.0 - LOW) / 2.0, (HIGH - 2.0) / 2.0
"""Part of the lower and of the upper clip's roof that lies under modules."""

PLAIN = {
    "site__ground_snow": "0.5 kPa",
    "building__length": "12 m",
    "building__mean_roof_height": "5 m",
    "roof__support_spacing": "3.4 m",
    "roof__first_support": "0.3 m",
    "roof__last_support": "0.3 m",
    "array__rows": 1,
    "array__columns": 2,
    "hardware__attachment_height": "0 mm",
    "methods__direct__spacing": "2 per edge",
}


def peak_velocity_pressure(vb: float, z0: float, z: float) -> float:
    """qp by Eq. 4.3 to 4.8 with co 1: 625 g/m³ of air, half of 1.25 kg/m³."""
    cr = 0.19 * (z0 / 0.05) ** 0.07 * log(z / z0)
    return 0.625 * vb**2 * cr**2 * (1 + 7 / log(z / z0))


def column_of(**changes: object) -> Column:
    return compare(scenario_of("dunlin_hall", **{**PLAIN, **changes}), ("direct",)).columns[0]


def demands_of(column: Column) -> Demands:
    assert column.candidate
    return column.candidate.demands


def on_first_seam(column: Column) -> tuple[int, list[float], float]:
    """The first module's first seam: its number, the places of its attachments, and its part of each module edge.

    The edge is a beam on two seams 500 mm apart or more; the load lies at its middle.
    """
    demands = demands_of(column)
    at, left = demands.layout.attachments, float(demands.field.outlines.left[0])
    ribs = np.unique(at.rib[at.x < left + LONG])
    first, second = (float(at.x[at.rib == rib][0]) for rib in ribs)
    places = sorted(float(y) for y in at.y[at.rib == ribs[0]])
    return int(ribs[0]), places, (second - (left + LONG / 2)) / (second - first)


def edges(column: Column, slope: float, pressure: float, share: float, places: list[float]) -> tuple[float, float]:
    """Uplift of the attachments of the lower and the upper edge in 0.9D + 1.5W up, for an uplift pressure [N].

    The weight pulls down the slope 120 mm above the attachments, which lifts the upper edge.
    """
    mass = value_of(column, "mass_kg")
    assert isinstance(mass, float)
    weight = 0.9 * mass / 2 * GRAVITY
    middle = share * (1.5 * pressure * AREA - weight * cos(slope)) / 2
    couple = share * weight * sin(slope) * 0.120 / (places[1] - places[0])
    return middle - couple, middle + couple


def reactions(places: list[float], forces: tuple[float, float]) -> tuple[float, float]:
    """Reactions of both clips under the forces at two places of a seam."""
    span = CLIPS[1] - CLIPS[0]
    lower = sum(force * (CLIPS[1] - place) / span for place, force in zip(places, forces, strict=True))
    return lower, sum(forces) - lower


def clips(column: Column, rib: int) -> tuple[float, float]:
    """Uplift of both clips of a seam in 0.9D + 1.5W up [N]."""
    demands = demands_of(column)
    (row,) = np.flatnonzero(demands.rib == rib)
    assert demands.combinations[-1].name == "0.9D + 1.5W up"
    lower, upper = (-demands.fastening[row, :2, -1]).tolist()
    return lower, upper


def uplift(
    lifted: tuple[float, float], bare: tuple[float, float], qp: float, places: list[float]
) -> tuple[float, float]:
    """Design uplift of both clips: from the module edges, from indoors under modules, from the bare roof beside them."""
    both = zip(reactions(places, lifted), bare, COVERED, strict=True)
    lower, upper = (
        force + 1.5 * qp * TRIBUTARY * (0.2 * covered + (0.2 - cpe) * (1 - covered)) for force, cpe, covered in both
    )
    return lower, upper


def test_a_monopitch_roof_with_stated_coefficients() -> None:
    """10 deg, 24 m/s, terrain II. The row lies in H in both winds on long sides, in I in the others.

    The lower clip touches G (e/10 1.07 m of the eave, -1.75 between -2.0 and -1.5), the upper G of the high edge (-2.0);
    both carry 1 m², so cpe,1 counts. Clip 2.6 kN / 1.33.
    """
    slope = radians(10)
    width = SLOPE_LENGTH * cos(slope)
    stated = {
        "up": {"F": -1.6, "G": -1.3, "H": -0.8, "I": -0.5},
        "down": {"F": 0.4, "G": 0.4, "H": 0.3, "I": 0.3},
        "edge_modules": "covered",
        "source": "a report (invented)",
    }
    changes = {"building__roof_shape": "monoslope", "building__slope": "10 deg", "building__width": f"{width} m"}
    site = {"site__wind_speed": "24 m/s", "site__terrain": "II", "site__cp_net": stated}
    column = column_of(**changes, **site, array__origin=["4 m", "1.2 m"])
    qp = peak_velocity_pressure(24.0, 0.05, 5 + width * tan(slope) / 2)
    assert qp == pytest.approx(708.7, abs=0.5)  # 5.347 m: cr 0.888, Iv 0.214; 360 x 0.788 x 2.498
    rib, places, share = on_first_seam(column)
    lifted = edges(column, slope, 0.8 * qp, share, places)
    by_hand = uplift(lifted, (-1.75, -2.0), qp, places)
    assert verified("monopitch, uplift of both clips", by_hand, clips(column, rib), "N") == pytest.approx(
        by_hand, rel=1e-6
    )
    used = max(by_hand) / (2600 / 1.33)
    ours = max(clips(column, rib)) / float(column.checks["roof_fastening"].resistance or 0.0)
    assert verified("monopitch, utilisation of the upper clip", used, ours) == pytest.approx(used, rel=1e-6)


def test_a_duopitch_roof_with_the_cautious_fallback() -> None:
    """15 deg, 28 m/s, terrain III, so that all coefficients are those of a row.

    Wind on the gable end: the first module lies in H, 0.77 m to 3.86 m from it, cpe,1 -1.2; its edges carry less than
    2 m², so 1.2 times that, -1.44, which exceeds -1.3. Beside it the lower clip touches F (-2.0, to e/4 2.77 m from the
    rake), the upper one J (-1.5 at the ridge). Clip 2.6 kN / 1.33.
    """
    slope = radians(15)
    run = SLOPE_LENGTH * cos(slope)
    changes = {"building__roof_shape": "gable", "building__slope": "15 deg", "building__width": f"{2 * run} m"}
    site = {"site__wind_speed": "28 m/s", "site__terrain": "III", "site__cp_net": "cautious fallback"}
    column = column_of(**changes, **site, array__origin=["2 m", "1.2 m"])
    qp = peak_velocity_pressure(28.0, 0.3, 5 + run * tan(slope) / 2)
    rib, places, share = on_first_seam(column)
    lifted = edges(column, slope, 1.44 * qp, share, places)
    by_hand = uplift(lifted, (-2.0, -1.5), qp, places)
    assert verified("duopitch, uplift of both clips", by_hand, clips(column, rib), "N") == pytest.approx(
        by_hand, rel=1e-6
    )
    used = max(by_hand) / (2600 / 1.33)
    ours = max(clips(column, rib)) / float(column.checks["roof_fastening"].resistance or 0.0)
    assert verified("duopitch, utilisation of the clip", used, ours) == pytest.approx(used, rel=1e-6)


def test_the_corner_clip_of_the_hall_alone() -> None:
    """The bundled hall, 6 deg: 0.5 x 1.25 m of zone F, -2.45 between -2.5 and -2.0, and +0.2 inside, without the array."""
    qp = peak_velocity_pressure(25.0, 0.3, 7.5 + 15 * tan(radians(6)) / 2)
    used = 1.5 * qp * (2.45 + 0.2) * 0.5 * 1.25 / (2600 / 1.33)
    ours = value_of(compare(scenario_of("dunlin_hall"), ("direct",)).columns[0], "bare_roof_utilisation")
    assert verified("roof alone, utilisation of the clip", used, ours) == pytest.approx(used, rel=1e-6)
