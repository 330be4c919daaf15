"""The only number formatter: every screen, table and file uses it."""

from __future__ import annotations

import math
import re
from typing import Literal

from engine.units.constants import INCH, UNITS
from engine.units.parse import parse

System = Literal["us", "si"]

SHOWN: dict[str, dict[System, tuple[str, int]]] = {
    "length": {"us": ("ft", 2), "si": ("m", 3)},
    "small length": {"us": ("in", 2), "si": ("mm", 0)},
    "force": {"us": ("lb", 0), "si": ("kN", 2)},
    "mass": {"us": ("lb", 0), "si": ("kg", 0)},
    "mass per length": {"us": ("lb/ft", 2), "si": ("kg/m", 2)},
    "pressure": {"us": ("psf", 1), "si": ("kPa", 3)},
    "stiffness": {"us": ("lb/in", 0), "si": ("N/mm", 0)},
    "line load": {"us": ("lb/ft", 1), "si": ("kN/m", 3)},
    "stress": {"us": ("ksi", 1), "si": ("MPa", 0)},
    "moment": {"us": ("lb ft", 0), "si": ("kN m", 3)},
    "second moment of area": {"us": ("in4", 3), "si": ("cm4", 2)},
    "section modulus": {"us": ("in3", 3), "si": ("cm3", 2)},
    "area": {"us": ("ft2", 1), "si": ("m2", 2)},
    "speed": {"us": ("mph", 0), "si": ("m/s", 1)},
    "angle": {"us": ("deg", 2), "si": ("deg", 2)},
    "power": {"us": ("kW", 2), "si": ("kW", 2)},
    "thermal resistance": {"us": ("h ft2 F/Btu", 1), "si": ("m2 K/W", 2)},
    "temperature difference": {"us": ("F", 0), "si": ("K", 0)},
    "rate": {"us": ("/h", 2), "si": ("/h", 2)},
    "time": {"us": ("h", 1), "si": ("h", 1)},
    "count": {"us": ("", 0), "si": ("", 0)},
    "ratio": {"us": ("", 2), "si": ("", 2)},
    "money": {"us": ("", 0), "si": ("", 0)},
    "unit price": {"us": ("", 3), "si": ("", 3)},
}
"""Dimension → system → display unit and number of decimals."""


THOUSANDS: dict[System, str] = {"us": ",", "si": "\u00a0"}
"""Separator of thousands by the style of a page: for SI a space that breaks no line, as many read a comma there as a
decimal sign. The decimal sign is a point in both, as in what is typed."""


def digits(value: float, decimals: int, style: System) -> str:
    """A rounded number with its thousands apart."""
    return f"{value:,.{decimals}f}".replace(",", THOUSANDS[style])


def number(value: float, dimension: str, system: System) -> float:
    """An SI value in its display unit."""
    unit, _ = SHOWN[dimension][system]
    return value / _size(unit, dimension)


def from_shown(value: float, dimension: str, system: System) -> float:
    """A number in its display unit, as SI."""
    unit, _ = SHOWN[dimension][system]
    return value * _size(unit, dimension)


def unit(dimension: str, system: System) -> str:
    """The display unit of a dimension ("" for counts and ratios)."""
    return SHOWN[dimension][system][0]


def text(
    value: float | None, dimension: str, system: System, *, with_unit: bool = True, style: System | None = None
) -> str:
    """An SI value for display: rounded, with thousands separators and unit; a dash where it is unknown.

    `style`: that of the page, for a value in brackets beside one of the other system; not given: that of `system`.
    """
    if value is None or not math.isfinite(value):
        return "–"
    name, decimals = SHOWN[dimension][system]
    shown = number(value, dimension, system)
    rounded = digits(0.0 if float(f"{shown:.{decimals}f}") == 0 else shown, decimals, style or system)
    return f"{rounded} {name}" if with_unit and name else rounded


_US = {"ft", "in", "lb", "lbf", "kip", "psf", "psi", "ksi", "mph", "F", "Btu"}
_NEUTRAL = {"deg", "W", "kW", "h"}
_METRIC = {part for sizes in UNITS.values() for unit in sizes for part in re.findall(r"[A-Za-z]+", unit)}
_METRIC -= _US | _NEUTRAL
_SMALL = {"in", "mm", "cm"}


def system_of(written: str, default: System) -> System:
    """The system of the unit in which a quantity is written; the default where its unit belongs to both."""
    names = _unit_names(written)
    return "us" if names & _US else "si" if names & _METRIC else default


def in_system(written: str, dimension: str, system: System) -> str:
    """A written quantity as it stands, or converted if its unit is of the other system: "24 in", "610 mm"."""
    if system_of(written, system) == system:
        return written
    names = _unit_names(written)
    shown = "small length" if dimension == "length" and names <= _SMALL else dimension
    return text(parse(written, dimension), shown, system)


FIGURES = 5
"""Figures of a quantity in a text that is given in SI."""

_SPELLED_US = sorted(unit for sizes in UNITS.values() for unit in sizes if set(re.findall(r"[A-Za-z]+", unit)) & _US)
_US_QUANTITY = re.compile(rf"(\d+(?:\.\d+)?) ({'|'.join(map(re.escape, reversed(_SPELLED_US)))})(?![\w/])")


def in_words_of(system: System, words: str, dimension: str = "") -> str:
    """A text whose US quantities are given in SI where that is shown: "3 in to 12 ft" is "76.2 mm to 3.6576 m".

    Args:
        system: the one to show; for "us" the text stays as it is.
        words: a range, a help or an example.
        dimension: "mass" or "mass per length" where "lb" is one; else it is a force.
    """
    return words if system == "us" else _US_QUANTITY.sub(lambda found: _in_si(found[1], found[2], dimension), words)


def _in_si(figure: str, unit_name: str, dimension: str) -> str:
    if unit_name not in UNITS.get(dimension, ()):
        dimension = next(each for each, sizes in UNITS.items() if unit_name in sizes and "mass" not in each)
    shown, _ = SHOWN["small length" if unit_name == "in" else dimension]["si"]
    value = float(f"{float(figure) * UNITS[dimension][unit_name] / UNITS[dimension][shown]:.{FIGURES}g}")
    return f"{value:.10f}".rstrip("0").rstrip(".") + f" {shown}"


def _unit_names(written: str) -> set[str]:
    return set(re.findall(r"[A-Za-z]+", re.sub("[\"\u2032\u2033']", " ft ", written)))


def _size(unit_name: str, dimension: str) -> float:
    return UNITS["length" if dimension == "small length" else dimension][unit_name] if unit_name else 1.0


def _written_in(system: System) -> str:
    """A pattern of a value in a display unit of a system."""
    names = {name for name, _ in (shown[system] for shown in SHOWN.values()) if name}
    return rf"-?[\d,{THOUSANDS['si']}]+(?:\.\d+)? (?:{'|'.join(map(re.escape, sorted(names, key=len, reverse=True)))})"


_PAIR = re.compile(rf"({_written_in('us')}) \(({_written_in('si')})\)")


_TURNED = re.compile(rf"({_written_in('si')}) \(({_written_in('us')})\)")


def ordered(sentence: str, system: System) -> str:
    """A sentence with the values that `both` wrote, those of a system first: "2.438 m (8.00 ft)" in SI."""
    return sentence if system == "us" else _PAIR.sub(_turned, sentence)


def _turned(pair: re.Match[str]) -> str:
    return f"{pair[2]} ({pair[1]})".replace(",", THOUSANDS["si"])


def in_one(sentence: str, system: System) -> str:
    """A sentence with the values of one system only, of those that `both` wrote: "2.438 m" in SI."""
    if system == "us":
        return _TURNED.sub(lambda pair: pair[2].replace(THOUSANDS["si"], ","), _PAIR.sub(r"\1", sentence))
    return _TURNED.sub(r"\1", ordered(sentence, "si"))


def both(value: float, dimension: str, first: System = "us") -> str:
    """An SI value in both systems, for sentences: "8.00 ft (2.438 m)"; `first` as `ordered` has it."""
    us, si = (text(value, dimension, system, style=first) for system in ("us", "si"))
    return us if us == si else f"{us} ({si})" if first == "us" else f"{si} ({us})"


TAPE_PARTS = 8
"""Parts of an inch that a tape on a roof is read to."""


def feet_and_inches(value: float) -> str:
    r"""A length as a tape in feet and inches shows it, to the nearest 1/8 in: "40' 5 3/8\"", "7 1/2\""."""
    eighths = round(abs(value) / INCH * TAPE_PARTS)
    inches, part = divmod(eighths, TAPE_PARTS)
    feet, inches = divmod(inches, 12)
    sign, whole = "-" if value < 0 and eighths else "", f"{feet}' " if feet else ""
    if not part:
        return f'{sign}{whole}{inches}"'
    divisor = math.gcd(part, TAPE_PARTS)
    between = f"{inches} " if inches or feet else ""
    return f'{sign}{whole}{between}{part // divisor}/{TAPE_PARTS // divisor}"'
