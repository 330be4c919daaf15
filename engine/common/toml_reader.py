"""Reading TOML that anybody may have written."""

from __future__ import annotations

import re
import tomllib
from typing import Any

MAX_KEY_PARTS = 100
LONG_KEY = re.compile(rf"""(?<![\w-])(?:(?:[\w-]+|"[^"\n]*"|'[^'\n]*')[ \t]*\.[ \t]*){{{MAX_KEY_PARTS - 1}}}""")
"""A dotted key whose reading would take long: Python's reader takes the square of its parts."""


def tables_in(text: str) -> dict[str, Any]:
    """The tables that a text in TOML holds.

    Raises:
        TOMLDecodeError, RecursionError: it is not TOML.
        ValueError: a key or a number is too long for Python to read; the sentence says which.
    """
    if LONG_KEY.search(text):
        raise ValueError(f"a key of {MAX_KEY_PARTS} parts or more given; write a shorter one")
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        raise
    except ValueError:  # Python reads no integer of more than a few thousand digits
        raise ValueError("a number of thousands of digits given; write a shorter one") from None
