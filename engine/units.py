r"""The door between what people write and SI, in both directions.

Inside the engine every number is SI. `parse` reads one quantity as the trade writes it
("5 ft", "5'-6\"", "15/32 in", "1:12", "25 psf") and refuses a unit of another dimension;
`text` is the one formatter: every screen, table and file shows numbers through it.
"""

from __future__ import annotations

import math
import re
from typing import Literal

System = Literal["us", "si"]

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
    "area": {"ft2": FOOT**2, "in2": INCH**2, "m2": 1.0},
    "speed": {"mph": MPH, "m/s": 1.0, "km/h": 1 / 3.6},
    "angle": {"deg": 1.0, "°": 1.0},
    "power": {"W": 1.0, "kW": 1000.0},
    "temperature": {"°F": 1.0},
    "thermal resistance": {"h ft2 F/Btu": 0.1761101838, "m2 K/W": 1.0},
    "rate": {"/h": 1.0, "/ h": 1.0},
}
"""Dimension → unit → its size in the engine's unit (angles in degrees; see `parse` for slopes)."""

SHOWN: dict[str, dict[System, tuple[str, int]]] = {
    "length": {"us": ("ft", 2), "si": ("m", 3)},
    "small length": {"us": ("in", 2), "si": ("mm", 0)},
    "force": {"us": ("lb", 0), "si": ("kN", 2)},
    "mass": {"us": ("lb", 0), "si": ("kg", 0)},
    "mass per length": {"us": ("lb/ft", 2), "si": ("kg/m", 2)},
    "pressure": {"us": ("psf", 1), "si": ("kPa", 3)},
    "line load": {"us": ("lb/ft", 1), "si": ("kN/m", 3)},
    "stress": {"us": ("ksi", 1), "si": ("MPa", 0)},
    "moment": {"us": ("lb ft", 0), "si": ("kN m", 3)},
    "second moment of area": {"us": ("in4", 3), "si": ("cm4", 2)},
    "area": {"us": ("ft2", 1), "si": ("m2", 2)},
    "speed": {"us": ("mph", 0), "si": ("m/s", 1)},
    "angle": {"us": ("deg", 2), "si": ("deg", 2)},
    "power": {"us": ("kW", 2), "si": ("kW", 2)},
    "thermal resistance": {"us": ("h ft2 F/Btu", 1), "si": ("m2 K/W", 2)},
    "temperature": {"us": ("°F", 0), "si": ("°F", 0)},
    "rate": {"us": ("/h", 2), "si": ("/h", 2)},
    "time": {"us": ("h", 1), "si": ("h", 1)},
    "count": {"us": ("", 0), "si": ("", 0)},
    "ratio": {"us": ("", 2), "si": ("", 2)},
    "money": {"us": ("", 0), "si": ("", 0)},
    "unit price": {"us": ("", 3), "si": ("", 3)},
}
"""Dimension → system → the unit it is shown in and how many decimals."""

EXAMPLE = {
    "length": "'5 ft', '16 in' or '1.2 m'",
    "force": "'600 lb' or '2.7 kN'",
    "mass": "'46 lb' or '21 kg'",
    "mass per length": "'0.6 lb/ft' or '0.9 kg/m'",
    "pressure": "'25 psf' or '1.2 kPa'",
    "line load": "'12 lb/ft' or '0.2 kN/m'",
    "stress": "'65 ksi' or '450 MPa'",
    "moment": "'580 lb ft' or '0.8 kN m'",
    "second moment of area": "'0.4 in4' or '16 cm4'",
    "area": "'10 ft2' or '0.9 m2'",
    "speed": "'115 mph' or '51 m/s'",
    "angle": "'1:12' or '4.8 deg'",
    "power": "'420 W'",
    "thermal resistance": "'30 h ft2 F/Btu'",
    "temperature": "'100 °F'",
    "rate": "'45 / h'",
}

_NUMBER = r"\d+(?:\.\d*)?(?:[eE][+-]?\d+)?|\.\d+(?:[eE][+-]?\d+)?"
_PLAIN = re.compile(rf"(?P<sign>[+-]?)\s*(?:(?P<whole>\d+)[ -]+)?(?P<top>{_NUMBER})(?:\s*/\s*(?P<bottom>\d+))?\s*(?P<unit>[^\d\s].*)?")
_FEET_INCHES = re.compile(
    rf"(?P<sign>[+-]?)\s*(?P<feet>\d+)\s*(?:'|ft)[\s-]*(?:(?P<whole>\d+)[ -]+)?(?P<top>{_NUMBER})(?:/(?P<bottom>\d+))?\s*(?:\"|in)"
)
_SLOPE = re.compile(rf"(?P<rise>{_NUMBER})\s*:\s*(?P<run>{_NUMBER})")


def parse(written: str, dimension: str) -> float:
    r"""Read one quantity as people write it and give it in SI.

    Lengths may be in feet and inches ("5'-6\"", "5 ft 6 in"), angles a slope ("1:12").

    Raises:
        ValueError: one sentence saying what was given and what is allowed.

    """
    text = written.strip().replace("\u2033", '"').replace("\u2032", "'").replace("\u2212", "-")
    value = _slope(text) if dimension == "angle" else None
    if value is None and dimension == "length":
        value = _feet_and_inches(text)
    if value is None:
        value = _number_and_unit(text, dimension)
    if value is None:
        raise ValueError(f"{_quote(written)} given; write {article(dimension)} {dimension} with its unit, such as {EXAMPLE[dimension]}")
    if not math.isfinite(value):
        raise ValueError(f"{_quote(written)} given; {article(dimension)} {dimension} must be a finite number")
    return value


def _slope(text: str) -> float | None:
    found = _SLOPE.fullmatch(text)
    if not found or float(found["rise"]) == float(found["run"]) == 0:
        return None
    rise, run = float(found["rise"]), float(found["run"])
    return math.degrees(math.atan2(rise, run)) if run else None


def _feet_and_inches(text: str) -> float | None:
    found = _FEET_INCHES.fullmatch(text)
    if not found or _mixed(found) is None:
        return None
    size = float(found["feet"]) * FOOT + (_mixed(found) or 0.0) * INCH
    return -size if found["sign"] == "-" else size


def _number_and_unit(text: str, dimension: str) -> float | None:
    found = _PLAIN.fullmatch(text)
    if not found or _mixed(found) is None:
        return None
    factor = _factor(found["unit"] or "", dimension)
    if factor is None:
        return None
    size = (_mixed(found) or 0.0) * factor
    return -size if found["sign"] == "-" else size


def _mixed(found: re.Match[str]) -> float | None:
    """A plain number, "15/32" or "1 1/2"; None where the fraction makes no sense."""
    whole, bottom = found["whole"], found["bottom"]
    if whole and not bottom:
        return None
    divisor = float(bottom or 1)
    if divisor == 0 or math.isinf(divisor):
        return None
    return float(whole or 0) + float(found["top"]) / divisor


def _factor(unit: str, dimension: str) -> float | None:
    wanted = _spelled(unit)
    if dimension == "length":
        wanted = {"'": "ft", '"': "in"}.get(wanted, wanted)
    return UNITS[dimension].get(wanted)


def _spelled(unit: str) -> str:
    """One spelling for the ways a unit is typed: "lb-ft", "lb·ft", "ft²"."""
    plain = unit.strip().replace("²", "2").replace("⁴", "4").replace("^", "").replace("·", " ").replace("-", " ")
    return " ".join(plain.split()).removesuffix(".")


def article(word: str) -> str:
    """The article before a word."""
    return "an" if word[0] in "aeiou" else "a"


def _quote(written: str) -> str:
    shown = written if len(written) <= 60 else written[:57] + "..."
    return f"'{shown}'"


def number(value: float, dimension: str, system: System) -> float:
    """An SI value in the unit it is shown in."""
    unit, _ = SHOWN[dimension][system]
    return value / _size(unit, dimension)


def from_shown(value: float, dimension: str, system: System) -> float:
    """A number in the unit it is shown in, as SI."""
    unit, _ = SHOWN[dimension][system]
    return value * _size(unit, dimension)


def unit(dimension: str, system: System) -> str:
    """The unit a dimension is shown in ("" for counts and ratios)."""
    return SHOWN[dimension][system][0]


def text(value: float | None, dimension: str, system: System, *, with_unit: bool = True) -> str:
    """An SI value as it is shown: rounded, with thousands and unit; a dash for what is not known."""
    if value is None or not math.isfinite(value):
        return "–"
    name, decimals = SHOWN[dimension][system]
    rounded = f"{number(value, dimension, system):,.{decimals}f}"
    if float(rounded.replace(",", "")) == 0:
        rounded = rounded.removeprefix("-")
    return f"{rounded} {name}" if with_unit and name else rounded


def _size(unit_name: str, dimension: str) -> float:
    if not unit_name or dimension == "time":
        return 1.0
    return UNITS["length" if dimension == "small length" else dimension][unit_name]


def both(value: float, dimension: str) -> str:
    """An SI value in both systems, for sentences: "8.00 ft (2.438 m)"."""
    us, si = text(value, dimension, "us"), text(value, dimension, "si")
    return us if us == si else f"{us} ({si})"
