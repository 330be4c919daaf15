"""Units in SI."""

from __future__ import annotations

FOOT = 0.3048
INCH = FOOT / 12
POUND = 0.45359237
GRAVITY = 9.80665
POUND_FORCE = POUND * GRAVITY
PSF = POUND_FORCE / FOOT**2
KSI = 1000 * POUND_FORCE / INCH**2
MPH = 1609.344 / 3600

UNITS: dict[str, dict[str, float]] = {
    "length": {"ft": FOOT, "in": INCH, "m": 1.0, "cm": 0.01, "mm": 0.001},
    "force": {"lb": POUND_FORCE, "lbf": POUND_FORCE, "kip": 1000 * POUND_FORCE, "N": 1.0, "kN": 1000.0},
    "mass": {"lb": POUND, "kg": 1.0, "g": 0.001},
    "mass per length": {"lb/ft": POUND / FOOT, "kg/m": 1.0},
    "pressure": {"psf": PSF, "psi": 144 * PSF, "Pa": 1.0, "hPa": 100.0, "kPa": 1000.0},
    "stiffness": {"lb/in": POUND_FORCE / INCH, "kip/in": 1000 * POUND_FORCE / INCH, "N/mm": 1000.0, "kN/m": 1000.0},
    "line load": {"lb/ft": POUND_FORCE / FOOT, "kN/m": 1000.0},
    "stress": {"ksi": KSI, "psi": KSI / 1000, "MPa": 1e6, "GPa": 1e9},
    "moment": {
        "lb ft": POUND_FORCE * FOOT,
        "lb in": POUND_FORCE * INCH,
        "kip ft": 1000 * POUND_FORCE * FOOT,
        "kip in": 1000 * POUND_FORCE * INCH,
        "N m": 1.0,
        "kN m": 1000.0,
    },
    "second moment of area": {"in4": INCH**4, "cm4": 1e-8, "mm4": 1e-12},
    "section modulus": {"in3": INCH**3, "cm3": 1e-6, "mm3": 1e-9},
    "area": {"ft2": FOOT**2, "in2": INCH**2, "m2": 1.0},
    "speed": {"mph": MPH, "m/s": 1.0, "km/h": 1 / 3.6},
    "angle": {"deg": 1.0, "°": 1.0},
    "power": {"W": 1.0, "kW": 1000.0},
    "thermal resistance": {"h ft2 F/Btu": 0.1761101838, "m2 K/W": 1.0},
    "temperature difference": {"F": 5 / 9, "K": 1.0, "C": 1.0},
    "rate": {"/h": 1.0, "/ h": 1.0},
    "time": {"h": 1.0},
}
"""Dimension → unit → its size in SI, but angles in degrees and labour in hours; `parse` reads slopes such as 1:12."""

SI = {"force": "N", "pressure": "Pa", "moment": "N m", "small length": "m", "length": "m"}
"""Dimension of a link's demand → its SI unit in JSON and CSV."""
