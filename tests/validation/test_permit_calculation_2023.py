"""Printed: A public permit calculation for a house in California, 2023, to ASCE 7-16.

Printed: V 110 mph, exposure B, h 15 ft, Kz 0.57: qh 15.01 psf; GCp -2.0, γE 1.5, A 12.7 ft²:
γa 0.76, p -34.1 psf; 0.6D + 0.6W with D 2.9 psf over that area: 238.9 lb on the anchor. For tilted
rows the same sheet prints γp 0.9, γc 0.98, γE 1.5, GCrn 1.4: 27.9 psf; and for the anchor, 5/16 in lag screws in
Douglas fir: 266 lb/in of penetration by NDS, x 1.6 (wind) x 0.8 (heat) x 3.25 in x 2 screws: 2213 lb.
"""

from __future__ import annotations

import numpy as np
import pytest

from engine.common.combination import Combination
from engine.loads.asce7 import array_tilted
from engine.loads.asce7.array_edges import EDGE_FACTOR
from engine.loads.asce7.array_flush import pressure_equalization
from engine.loads.asce7.net_pressure import NetPressure
from engine.loads.asce7.site import Site
from engine.strength import strength
from engine.strength.wood_screws import WoodScrews, lag_withdrawal
from engine.units import POUND_FORCE
from support.published import verified

AREA = 12.7
SITE = Site(standard="ASCE 7-16", wind_speed="110 mph", exposure="B", ground_snow="0 psf")


def test_velocity_pressure() -> None:
    """The source has Kz 0.57 from the table, loadpath 0.575 from its formula: 0.9 % apart."""
    assert verified(
        "qh (Kz from the printed table)", 15.01, NetPressure.at(SITE, 15.0).reference_pressure, "psf"
    ) == pytest.approx(15.01, rel=0.0105)
    assert 0.00256 * 0.57 * 0.85 * 110**2 == pytest.approx(15.01, abs=0.006)


def test_equalization_pressure_and_anchor() -> None:
    """γa printed to two decimals, p to one; from their qh. The source continues with γa rounded to 0.76: ± 0.005/0.76 = 0.7 %.

    The roof's slope is not printed, so D counts in full.
    """
    equalization = float(pressure_equalization(np.array([AREA]))[0])
    assert verified("γa at 12.7 ft²", 0.76, equalization) == pytest.approx(0.76, abs=0.005)
    pressure = 15.01 * -2.0 * EDGE_FACTOR * equalization
    assert verified("pressure at their qh", -34.1, pressure, "psf") == pytest.approx(-34.1, rel=0.007)
    pull = (-0.6 * pressure - 0.6 * 2.9) * AREA
    assert verified("uplift on the anchor at their qh", 238.9, pull, "lb") == pytest.approx(238.9, rel=0.007)


def test_tilted_rows() -> None:
    """Eq. 29.4-6; γc is that of a module 6.33 ft long up the row, and there is no parapet.

    The pressure is printed to one decimal, from the source's qh and rounded factors.
    """
    parapet, chord = array_tilted.parapet_factor(0.0, 15.0), array_tilted.chord_factor(6.33)
    assert verified("γp without a parapet", 0.9, parapet) == pytest.approx(0.9)
    pressure = 15.01 * 1.4 * EDGE_FACTOR * chord * parapet
    assert verified("tilted rows, pressure at their qh", 27.9, pressure, "psf") == pytest.approx(27.9, abs=0.15)


def test_lag_screws_in_douglas_fir() -> None:
    """NDS withdrawal, G 0.50; printed to the pound, and multiplied so rounded: half a pound over 266."""
    assert verified("lag 5/16 in, G 0.50", 266, lag_withdrawal(0.50, 5 / 16), "lb/in") == pytest.approx(266, abs=0.5)
    screws = strength((WoodScrews(lag=2, size="5/16 in", thread="3.25 in", specific_gravity=0.50, hot="yes"),))
    allowed = screws.resistance(Combination("wind", {}, "wind")) / POUND_FORCE
    assert verified("two of them in wind and heat, 3.25 in", 2213, allowed, "lb") == pytest.approx(2213, rel=0.5 / 266)
