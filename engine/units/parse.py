r"""Reading of one quantity as the trade writes it: "5 ft", "5'-6\"", "15/32 in", "1:12", "25 psf"."""

from __future__ import annotations

import math
import re

from engine.units.constants import FOOT, INCH, UNITS

EXAMPLE = {
    "length": "'5 ft', '16 in' or '1.2 m'",
    "force": "'600 lb' or '2.7 kN'",
    "mass": "'46 lb' or '21 kg'",
    "mass per length": "'0.6 lb/ft' or '0.9 kg/m'",
    "pressure": "'25 psf' or '1.2 kPa'",
    "stiffness": "'2000 lb/in' or '350 N/mm'",
    "line load": "'12 lb/ft' or '0.2 kN/m'",
    "stress": "'65 ksi' or '450 MPa'",
    "moment": "'580 lb ft' or '0.8 kN m'",
    "second moment of area": "'0.4 in4' or '16 cm4'",
    "section modulus": "'1.8 in3' or '29 cm3'",
    "area": "'10 ft2' or '0.9 m2'",
    "speed": "'115 mph' or '51 m/s'",
    "angle": "'1:12' or '4.8 deg'",
    "power": "'420 W'",
    "thermal resistance": "'30 h ft2 F/Btu'",
    "temperature difference": "'180 F' or '100 K'",
    "rate": "'45 / h'",
    "time": "'12 h'",
}

_NUMBER = r"\d+(?:\.\d*)?(?:[eE][+-]?\d+)?|\.\d+(?:[eE][+-]?\d+)?"
_PLAIN = re.compile(
    rf"(?P<sign>[+-]?)\s*(?:(?P<whole>\d+)[ -]+)?(?P<top>{_NUMBER})(?:\s*/\s*(?P<bottom>\d+))?\s*(?P<unit>[^\d\s].*)?"
)
_FEET_INCHES = re.compile(
    rf"(?P<sign>[+-]?)\s*(?P<feet>\d+)\s*(?:'|ft)[\s-]*"
    rf"(?:(?P<whole>\d+)[ -]+)?(?P<top>{_NUMBER})(?:/(?P<bottom>\d+))?\s*(?:\"|in)"
)
_GROUPED = re.compile(r"(?<![\d.,])[1-9]\d{0,2}(?:[ \u00a0\u202f]\d{3})+(?![\d/])")
_SLOPE = re.compile(rf"(?P<rise>{_NUMBER})\s*:\s*(?P<run>{_NUMBER})")


def parse(written: str, dimension: str) -> float:
    r"""The SI value of one quantity as people write it.

    Lengths may be in feet and inches ("5'-6\"", "5 ft 6 in"), angles a slope ("1:12").

    Raises:
        ValueError: one sentence: the text given and the form allowed.

    """
    text = without_groups(written.strip()).replace("\u2033", '"').replace("\u2032", "'").replace("\u2212", "-")
    value = _slope(text) if dimension == "angle" else None
    if value is None and dimension == "length":
        value = _feet_and_inches(text)
    if value is None:
        value = _number_and_unit(text, dimension)
    if value is None:
        allowed = f"write {article(dimension)} {dimension} with its unit, such as {EXAMPLE[dimension]}"
        raise ValueError(f"{quoted(written)} given; {allowed}{_cause(text, dimension)}")
    if not math.isfinite(value):
        raise ValueError(f"{quoted(written)} given; {article(dimension)} {dimension} must be a finite number")
    return value


def without_groups(text: str) -> str:
    """A number whose thousands are set apart by spaces, as SI values are shown, without them: "1 250 mm"."""
    return _GROUPED.sub(lambda found: re.sub(r"\s", "", found[0]), text)


def _cause(text: str, dimension: str) -> str:
    """The cause of a quantity that cannot be read, if it is its comma or its unit; else nothing."""
    if re.search(r"\d,\d", text):
        return "; write decimals with a point and no comma"
    found = _PLAIN.fullmatch(text)
    if found and found["unit"] and _factor(found["unit"], dimension) is None:
        return f"; the unit {quoted(found['unit'])} is not one of {', '.join(UNITS[dimension])}"
    return ""


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
    """A plain number, "15/32" or "1 1/2"; None if the fraction is none."""
    whole, bottom = found["whole"], found["bottom"]
    if whole and not bottom:
        return None
    divisor = float(bottom or 1)
    if divisor == 0 or math.isinf(divisor):
        return None
    return float(whole or 0) + float(found["top"]) / divisor


def _factor(unit: str, dimension: str) -> float | None:
    spelled = _spelled(unit)
    if dimension == "length":
        spelled = {"'": "ft", '"': "in"}.get(spelled, spelled)
    return UNITS[dimension].get(spelled)


def _spelled(unit: str) -> str:
    """One spelling of a unit for all the ways to type it: "lb-ft", "lb·ft", "ft²"."""
    plain = unit.strip().replace("²", "2").replace("⁴", "4").replace("^", "").replace("·", " ").replace("-", " ")
    return " ".join(plain.split()).removesuffix(".")


def article(word: str) -> str:
    """The indefinite article of a word."""
    return "an" if word[0] in "aeiou" else "a"


def quoted(written: str) -> str:
    """The text in quotes, on one line, cut to 60 characters."""
    line = " ".join(written.split())
    return f"'{line if len(line) <= 60 else line[:57] + '...'}'"
