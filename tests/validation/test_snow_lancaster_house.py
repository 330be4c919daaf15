"""Printed: A public worked solution to ASCE 7-16 chapter 7 (expert-openion.blogspot.com, 2021: a heated single-storey house in Lancaster, PA).

Printed: pg 30 psf, terrain B, partially exposed, heated, risk category II, roof 1 on 20: Ct 1.0, Ce 1.0,
Is 1.0; flat-roof snow 21 psf; low slope, minimum 20 Is = 20 psf; no rain-on-snow surcharge. A general
finite-element program's own verification (xc, test_snowASCE7.py) prints the same 21.0 psf.
"""

from __future__ import annotations

import math

import pytest

from engine.loads.asce7 import snow
from engine.loads.asce7.site import Site
from support.published import verified

SITE = Site(
    standard="ASCE 7-16", wind_speed="110 mph", exposure="B", ground_snow="30 psf", snow_exposure="partially exposed"
)
SLOPE = math.degrees(math.atan(1 / 20))


def test_flat_roof_snow() -> None:
    assert verified("Ct, heated", 1.0, snow.roof_thermal_factor(SITE, "heated")) == 1.0
    assert verified("flat-roof snow", 21.0, snow.flat_roof_snow(SITE, 1.0), "psf") == pytest.approx(21.0, abs=1e-9)


def test_minimum_and_rain() -> None:
    assert verified("least snow", 20.0, snow.minimum_snow(SITE, SLOPE), "psf") == pytest.approx(20.0)
    assert verified("rain on snow", 0.0, snow.rain_on_snow(SITE, SLOPE, 200.0), "psf") == 0.0
