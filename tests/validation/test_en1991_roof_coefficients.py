"""Printed: Zones and pressures of roofs by EN 1991-1-4, from published examples and the tests of public libraries.

The figures were copied from the published examples by way of a summary of them; no standard was read in print.
"""

from __future__ import annotations

import pytest

from engine.loads.en1991.peak_velocity_pressure import peak_velocity_pressure, reference_height
from engine.loads.en1991.roof_zones import EAVE, HIGH, LEFT
from support.european import Winds, building, site
from support.published import verified

TWO_DIGITS = 0.011
"""Pressures are printed to two decimals, from a velocity pressure that is rounded too [kN/m2]."""


def length(ends: tuple[float, float]) -> float:
    return ends[1] - ends[0]


def test_zones_of_a_report() -> None:
    """Printed: The second student report: plan 18.4 x 7.6 m, height 6.813 m, wind on the eave."""
    winds = Winds(building("gable", 10.0, 18.4, 7.6, 6.813))
    corner, between = winds.zones("F", EAVE)[0], winds.zones("G", EAVE)[0]
    behind = winds.zones("H", EAVE)[0]
    assert verified("F, along the eave", 3.407, length(corner.x), "m") == pytest.approx(3.407, abs=5.1e-4)
    assert verified("F, depth", 1.363, length(corner.y), "m") == pytest.approx(1.363, abs=5e-4)
    assert verified("G, along the eave", 11.587, length(between.x), "m") == pytest.approx(11.587, abs=5.1e-4)
    assert verified("H, depth", 2.437, length(behind.y), "m") == pytest.approx(2.437, abs=5.1e-4)


def test_flat_roof_with_sharp_eaves() -> None:
    """Library: Public structural library desssign, its test of a flat roof 10 x 20 m, 5 m high, 25 m/s, terrain II."""
    roof = building("flat", 0.0, 20.0, 10.0, 5.0)
    winds, qp = Winds(roof), peak_velocity_pressure(site(), reference_height(roof)) / 1000
    corner, behind = winds.zones("F", EAVE)[0], winds.zones("H", EAVE)[0]
    assert verified("F, along the eave", 2.5, length(corner.x), "m") == pytest.approx(2.5)
    assert verified("F, depth", 1.0, length(corner.y), "m") == pytest.approx(1.0)
    assert verified("H, end", 5.0, behind.y[1], "m") == pytest.approx(5.0)
    for zone, printed in {"F": -1.36, "G": -0.90, "H": -0.53, "I": -0.15}.items():
        ours = qp * winds.pair(zone)[0]
        assert verified(f"w of {zone}", printed, ours, "kN/m2") == pytest.approx(printed, abs=TWO_DIGITS)
    ours = qp * winds.pair("I", down=True)[0]
    assert verified("w of I, down", 0.15, ours, "kN/m2") == pytest.approx(0.15, abs=TWO_DIGITS)


def test_flat_roof_with_a_parapet() -> None:
    """Library: desssign, its test of a flat roof 12 x 17 m, 3 m high with a parapet of 0.5 m, 27.5 m/s, terrain I."""
    roof = building("flat", 0.0, 17.0, 12.0, 3.0, parapet_height="0.5 m")
    winds = Winds(roof)
    assert verified("ze", 3.5, reference_height(roof), "m") == pytest.approx(3.5)
    qp = peak_velocity_pressure(site(wind_speed="27.5 m/s", terrain="I"), reference_height(roof)) / 1000
    assert verified("e / 4", 1.5, length(winds.zones("F", EAVE)[0].x), "m") == pytest.approx(1.5)
    for zone, printed in {"F": -1.23, "G": -0.82, "H": -0.72, "I": -0.21}.items():
        ours = qp * winds.pair(zone)[0]
        assert verified(f"w of {zone}", printed, ours, "kN/m2") == pytest.approx(printed, abs=TWO_DIGITS)


def test_duopitch_roof() -> None:
    """Library: desssign, its test of a duopitch roof of 10 deg, 8 x 12 m, 7 m high, 30 m/s, terrain I."""
    roof = building("gable", 10.0, 12.0, 8.0, 7.0)
    winds = Winds(roof)
    qp = peak_velocity_pressure(site(wind_speed="30 m/s", terrain="I"), reference_height(roof)) / 1000
    assert qp == pytest.approx(1.439, abs=5e-4)
    across = {"F": (EAVE, -1.88), "G": (EAVE, -1.44), "H": (EAVE, -0.65), "J": (HIGH, -1.15), "I": (HIGH, -0.72)}
    along = {"F": (LEFT, -2.09), "G": (LEFT, -1.87), "H": (LEFT, -0.94), "I": (LEFT, -0.79)}
    for name, zones in {"across": across, "along": along}.items():
        for zone, (wind, printed) in zones.items():
            ours = qp * winds.pair(zone, wind)[0]
            assert verified(f"{name} the ridge, w of {zone}", printed, ours, "kN/m2") == pytest.approx(
                printed, abs=TWO_DIGITS
            ), zone
    ours = qp * winds.pair("F", EAVE, down=True)[0]
    assert verified("F, pressed", 0.14, ours, "kN/m2") == pytest.approx(0.14, abs=TWO_DIGITS)


def test_low_slope_of_a_design_office() -> None:
    """Printed: A published design-office example, duopitch of 6.84 deg, cpe,10 and cpe,1."""
    winds = Winds(building("gable", 6.84, 30.0, 20.0, 6.0))
    for zone, printed in {"F": (-1.553, -2.408), "G": (-1.126, -1.908), "H": (-0.545, -1.034)}.items():
        ours = winds.pair(zone, EAVE)
        assert verified(f"cpe of {zone}", printed, ours) == pytest.approx(printed, abs=1e-3)


def test_spanish_sheet() -> None:
    """Library: The public test of a spreadsheet for the Spanish code, which has the same tables: duopitch of 17 deg."""
    winds = Winds(building("gable", 17.0, 30.0, 20.0, 8.0))
    for zone, wind, printed in (
        *(("F", EAVE, -0.8467), ("G", EAVE, -0.76), ("H", EAVE, -0.2867), ("J", HIGH, -0.9333)),
        *(("F", LEFT, -1.2733), ("G", LEFT, -1.3133), ("H", LEFT, -0.6267)),
    ):
        ours = winds.pair(zone, wind)[0]
        assert verified(f"cpe,10 of {zone}, {wind}", printed, ours) == pytest.approx(printed, abs=5.1e-5), zone
    for zone, printed in {"F": 0.2667, "H": 0.2267}.items():
        ours = winds.pair(zone, EAVE, down=True)[0]
        assert verified(f"cpe,10 of {zone}, pressed", printed, ours) == pytest.approx(printed, abs=5.1e-5)


def test_monopitch_roof() -> None:
    """Library: The test of a public program for EN 1991-1-4 (its name was not noted): monopitch of 6 deg, zone H."""
    winds = Winds(building("monoslope", 6.0, 30.0, 20.0, 8.0))
    for wind, printed in ((HIGH, -0.81), (EAVE, -0.57)):
        ours = winds.pair("H", wind)[0]
        assert verified(f"cpe,10 of H, {wind}", printed, ours) == pytest.approx(printed, abs=5.1e-3)


def test_monopitch_roof_along() -> None:
    """By hand: Table 7.3b between 5 and 15 deg, monopitch of 8 deg, wind on a rake."""
    winds = Winds(building("monoslope", 8.0, 30.0, 20.0, 8.0))
    for zone, by_hand in {"Fup": (-2.19, -2.69), "I": (-0.56, -0.71)}.items():
        ours = winds.pair(zone, LEFT)
        assert verified(f"cpe of {zone}", by_hand, ours) == pytest.approx(by_hand, abs=1e-9)
