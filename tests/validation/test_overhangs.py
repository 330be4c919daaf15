"""By hand: Wind on overhangs, ASCE 7 Figs. 30.3-1 and 30.3-2: roof and wall together, and the figures' own curves."""

from __future__ import annotations

from math import log10

import numpy as np
import pytest

from engine.common.calculation import CalculationStep
from engine.loads.asce7.field_loads import Asce7Loads
from engine.loads.asce7.gcp_figures import GcpFigure, gcp_figure
from engine.loads.asce7.net_pressure import DOWN, UP
from engine.loads.asce7.overhang import both_faces, pressure_below
from engine.loads.asce7.standard import Asce7
from engine.mounting.layout import Rectangles
from engine.units import FOOT, PSF
from support import assert_told, scenario_of
from support.published import verified


def coefficient(figure: GcpFigure, zone: str, area: float, case: str = UP) -> float:
    """Of a part that touches one zone only."""
    touched, areas = np.array([[name == zone for name in figure.zone_names]]), np.array([area])
    return float(both_faces(figure, case, touched, areas, figure.gcp(case, touched, areas))[0])


def figure(edition: str, shape: str, slope: float) -> GcpFigure:
    found = gcp_figure(edition, shape, slope)
    assert found
    return found


def toward_wall(area: float) -> float:
    return 1.0 - 0.3 * log10(area / 10) / log10(50)


def test_a_published_overhang_in_7_22() -> None:
    """Printed: A published calculation of a gable's overhang, ASCE 7-22, 120 mph, exposure B, Kz 0.70, 50 ft²."""
    of = figure("ASCE 7-22", "gable", 15.0)
    found = [coefficient(of, zone, 50) for zone in of.zone_names]
    theirs = np.array([-2.167, -2.663, -3.218])
    assert verified("7-22 2B, 50 ft², GCp of overhangs", theirs, found) == pytest.approx(theirs, abs=5e-4)
    q = 0.00256 * 0.70 * 120**2 * 0.85
    pressures = (np.array(found) - 0.18) * q
    printed = np.array([-51.47, -62.36, -74.54])
    assert verified("7-22 2B, 50 ft², overhangs", printed, pressures, "psf") == pytest.approx(printed, abs=0.015)


@pytest.mark.parametrize("edition", ["ASCE 7-16", "ASCE 7-22"])
@pytest.mark.parametrize(
    ("zone", "area", "expected"),
    [
        *(("1'", 10, -1.7), ("1", 100, -1.6), ("1", 500, -1.0), ("1", 1000, -1.0)),
        *(("2", 10, -2.3), ("3", 10, -3.2), ("3", 5, -3.2)),
        # halfway in log A between 10 and 500
        *(("2", 70.7107, -1.85), ("3", 70.7107, -2.3)),
    ],
)
def test_low_slopes_have_a_curve_of_their_own(edition: str, zone: str, area: float, expected: float) -> None:
    """By hand: End points of Fig. 30.3-2A's curves for overhangs; in zone 2 the roof alone is -1.85 there too."""
    found = coefficient(figure(edition, "flat", 2.0), zone, area)
    assert verified(f"2A, zone {zone}, {area:g} ft²", expected, found) == pytest.approx(expected, abs=1e-4)


def test_in_7_16_the_larger_of_curve_and_sum_counts() -> None:
    """By hand: Fig. 30.3-2B: 2e at 20 ft² -2.5 or -2.0 - 0.947; 3r at 250 ft² -1.5 or -1.8 - 0.753; 2n at 10 -3.5 or -4.0."""
    of = figure("ASCE 7-16", "gable", 15.0)
    for zone, area, expected in (
        ("2e", 20.0, -2.0 - toward_wall(20)),
        ("3r", 250.0, -1.8 - toward_wall(250)),
        ("3r", 10.0, -4.7),
        ("2n", 10.0, -4.0),
    ):
        found = coefficient(of, zone, area)
        assert verified(f"7-16 2B, {zone}, {area:g} ft²", expected, found) == pytest.approx(expected)


def test_down_load_on_an_overhang() -> None:
    """By hand: At 10 ft² the roof's +0.3 and the wall's suction of 1.4 pull the same way: 1.7."""
    assert coefficient(figure("ASCE 7-16", "monoslope", 9.0), "2", 10, DOWN) == pytest.approx(1.7)


def test_the_pressure_below_an_open_soffit() -> None:
    """By hand: The wall's +1.0 at 10 ft² pushes up and its suction of 1.4 pulls down; at 500 ft² 0.7 and 0.8."""
    areas = np.array([10.0, 500.0])
    assert pressure_below("ASCE 7-16", UP, areas) == pytest.approx([-1.0, -0.7])
    assert pressure_below("ASCE 7-16", DOWN, areas) == pytest.approx([1.4, 0.8])


# -- Magpie Annex, on paper: Kz 0.5747 at 15 ft, Ke exp(-0.0000362 x 500), Kd 0.85, 105 mph: qh 13.54 psf -----------

QH = 0.00256 * 2.01 * (15 / 1200) ** (2 / 7) * np.exp(-0.0000362 * 500) * 0.85 * 105**2


def annex(**changes: object) -> Asce7Loads:
    scenario = scenario_of("magpie_annex", **changes)
    assert isinstance(scenario.standard, Asce7)
    place = next(iter(scenario.methods)).place_modules(scenario.job)
    return scenario.standard.loads(scenario.job, place)  # type: ignore[arg-type]


def rectangle(left: float, low: float, right: float, high: float) -> Rectangles:
    return Rectangles(*(np.array([side * FOOT]) for side in (left, low, right, high)))


def test_a_clip_at_the_eave_of_magpie_annex() -> None:
    """By hand: Fig. 30.3-5A, zone 2, to 10 ft²: -1.3 on the roof, 1.0 on the wall, 0.18 inside: -2.48 x 13.54 psf."""
    found = annex().cladding_pressure(UP, rectangle(29.25, 0.0, 30.75, 2.25))[0] / PSF
    assert verified("Magpie Annex, eave, wind up", -2.48 * QH, found, "psf") == pytest.approx(-2.48 * QH)
    inside = annex().cladding_pressure(UP, rectangle(29.25, 2.25, 30.75, 6.25))[0] / PSF
    assert inside == pytest.approx(min((-1.3 - 0.18) * QH, -16.0))


def test_a_clip_at_the_high_rake_of_magpie_annex() -> None:
    """By hand: Zone 3': -2.6 - 1.0 - 0.18 = -3.78; a clip of 4 ft by 18 in in 0.6 W: 184 lb of 360, 0.51."""
    found = annex().cladding_pressure(UP, rectangle(0.75, 22.25, 2.25, 26.25))[0] / PSF
    assert verified("Magpie Annex, high rake, wind up", -3.78 * QH, found, "psf") == pytest.approx(-3.78 * QH)
    load = -0.6 * found * 4 * 1.5
    assert load == pytest.approx(184.3, abs=0.2)
    assert load / (120 * 1.5 * 4 / 2) == pytest.approx(0.512, abs=0.001)


def test_below_the_modules_of_magpie_annex() -> None:
    """By hand: Open soffit 1.0 x 13.54 psf up on 9 ft²; closed, or within the walls, the 0.18 of indoors."""
    over, within = rectangle(29.25, 0.0, 30.75, 6.0), rectangle(29.25, 6.0, 30.75, 12.0)
    area = np.array([9.0]) * FOOT**2
    for soffit, place, expected in (("open", over, -1.0), ("closed", over, -0.18), ("open", within, -0.18)):
        of = annex(building__overhang__soffit=soffit)
        assert of.pressure_below_panel(UP, place, area)[0] / PSF == pytest.approx(expected * QH), (soffit, expected)


def test_the_pressure_below_a_soffit_is_explained() -> None:
    """By hand: Under modules that hang over the wall by 9 ft² the coefficient is 1.0 up, with its clause."""
    steps: list[CalculationStep] = []
    area = np.array([9.0]) * FOOT**2
    annex().pressure_below_panel(UP, rectangle(29.25, 0.0, 30.75, 6.0), area, steps.append)
    assert_told(steps)
    assert [(step.symbol, step.result.value) for step in steps] == [("C_below", -1.0)]
    annex().pressure_below_panel(UP, rectangle(29.25, 6.0, 30.75, 12.0), area, steps.append)
    assert len(steps) == 1


def test_the_drift_and_the_slide_beside_the_hall_of_magpie_annex() -> None:
    """By hand: §7.7.1 and §7.9, in feet and pounds.

    γ = 0.13 x 20 + 14 = 16.6 pcf; balanced 0.7 x 1.0 x 1.0 x 20 = 14.0 psf, 0.843 ft deep; hc = 7 - 0.843 = 6.157;
    hd = 0.43 x 80^(1/3) x 30^(1/4) - 1.5 = 2.836; w = 4 hd = 11.34 ft; surcharge 16.6 x 2.836 = 47.1 psf.
    The slide: 0.4 x 14.0 x 40 = 224 lb/ft over 15 ft, 14.9 psf; the hall's pf on unobstructed metal is the flat one.
    """
    of = annex()
    hd = 0.43 * 80 ** (1 / 3) * 30**0.25 - 1.5
    drift = of.surcharges["S drift step"][0].profile
    assert verified("Magpie Annex, drift", 16.6 * hd, drift.start, "psf") == pytest.approx(16.6 * hd)
    assert verified("Magpie Annex, width of the drift", 4 * hd, drift.width, "ft") == pytest.approx(4 * hd)
    slide = of.surcharges["S sliding"][0].profile
    assert (slide.start, slide.width) == (pytest.approx(0.4 * 16.8 * 40 / 15), pytest.approx(15.0))
