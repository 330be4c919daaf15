"""A public permit calculation for a house in California, 2023, to ASCE 7-16 (worked example A of the plan of record).

Printed: V 110 mph, exposure B, h 15 ft, Kz 0.57: qh 15.01 psf; GCp -2.0, γE 1.5, A 12.7 ft²:
γa 0.76, p -34.1 psf; 0.6D + 0.6W with D 2.9 psf over that area: 238.9 lb on the anchor. For tilted
rows the same sheet prints γp 0.9, γc 0.98, γE 1.5, GCrn 1.4: 27.9 psf; and for the anchor, 5/16 in lag screws in
Douglas fir: 266 lb/in of penetration by NDS, x 1.6 (wind) x 0.8 (heat) x 3.25 in x 2 screws: 2213 lb.
"""

from __future__ import annotations

import numpy as np
import pytest

from engine.standards.asce7 import tilted
from engine.standards.asce7.flush import EXPOSED_EDGE_FACTOR, pressure_equalization
from engine.standards.asce7.site import Site
from engine.standards.asce7.velocity import velocity_pressure
from engine.strength.wood_screws import lag_withdrawal
from verified import verified

AREA = 12.7
SITE = Site(standard="ASCE 7-16", wind_speed="110 mph", exposure="B", ground_snow="0 psf")


def test_velocity_pressure() -> None:
    """They took Kz 0.57 from the table, we 0.575 from its formula: 0.9 % apart, as the plan of record says."""
    assert verified("qh (Kz from the printed table)", 15.01, velocity_pressure(SITE, 15.0), "psf") == pytest.approx(15.01, rel=0.0105)
    assert 0.00256 * 0.57 * 0.85 * 110**2 == pytest.approx(15.01, abs=0.006)


def test_equalization_pressure_and_anchor() -> None:
    """γa printed to two decimals, p to one; from their qh."""
    equalization = float(pressure_equalization(np.array([AREA]))[0])
    assert verified("γa at 12.7 ft²", 0.76, equalization) == pytest.approx(0.76, abs=0.005)
    pressure = 15.01 * -2.0 * EXPOSED_EDGE_FACTOR * equalization
    assert pressure == pytest.approx(-34.1, abs=0.15)  # γa rounded to 0.76 before it was multiplied: ± 0.005/0.76
    # they printed the uplift on the anchor from their rounded pressure; the roof's slope is not printed, so D counts in full
    assert (0.6 * 34.1 - 0.6 * 2.9) * AREA == pytest.approx(238.9, rel=0.005)


def test_tilted_rows() -> None:
    """Eq. 29.4-6; they give γc for a module 6.33 ft long up the row, and no parapet. Pressure to one decimal from their qh and rounded factors."""
    assert tilted.parapet_factor(0.0, 15.0) == pytest.approx(0.9)
    assert tilted.chord_factor((0.98 - 0.6) / 0.06) == pytest.approx(0.98)
    assert 15.01 * 1.4 * EXPOSED_EDGE_FACTOR * tilted.chord_factor(6.33) * tilted.parapet_factor(0.0, 15.0) == pytest.approx(27.9, abs=0.15)


def test_lag_screws_in_douglas_fir() -> None:
    """NDS withdrawal, G 0.50; printed to the pound."""
    assert verified("lag 5/16 in, G 0.50", 266, lag_withdrawal(0.50, 5 / 16), "lb/in") == pytest.approx(266, abs=0.5)
    assert 266 * 3.25 * 1.6 * 0.8 * 2 == pytest.approx(2213.12)
