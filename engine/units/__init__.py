"""Conversion between quantities as people write them and SI.

Inside the engine every number is SI. `parse` reads one quantity and refuses a unit of another dimension; `text` writes
one for people.
"""

from engine.units.constants import FOOT, GRAVITY, INCH, KSI, MPH, POUND, POUND_FORCE, PSF, SI, UNITS
from engine.units.display import (
    SHOWN,
    System,
    both,
    digits,
    feet_and_inches,
    from_shown,
    in_one,
    in_system,
    in_words_of,
    number,
    ordered,
    system_of,
    text,
    unit,
)
from engine.units.parse import EXAMPLE, article, parse, quoted, without_groups

__all__ = [
    "EXAMPLE",
    "FOOT",
    "GRAVITY",
    "INCH",
    "KSI",
    "MPH",
    "POUND",
    "POUND_FORCE",
    "PSF",
    "SHOWN",
    "SI",
    "UNITS",
    "System",
    "article",
    "both",
    "digits",
    "feet_and_inches",
    "from_shown",
    "in_one",
    "in_system",
    "in_words_of",
    "number",
    "ordered",
    "parse",
    "quoted",
    "system_of",
    "text",
    "unit",
    "without_groups",
]
