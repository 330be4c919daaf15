"""The door between what people write and SI, in both directions.

Inside the engine every number is SI. `parse` reads one quantity as it is written and refuses a unit of another
dimension; `text` shows one.
"""

from engine.units.constants import FOOT, GRAVITY, INCH, KSI, MPH, POUND, POUND_FORCE, PSF, SI, UNITS
from engine.units.display import SHOWN, System, both, from_shown, number, text, unit
from engine.units.parse import EXAMPLE, article, parse, quoted

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
    "from_shown",
    "number",
    "parse",
    "quoted",
    "text",
    "unit",
]
