"""Every letter that could steer a terminal, by the Unicode standard: C0 and C1 controls, format characters."""

from __future__ import annotations

import sys
import unicodedata

STEERING = frozenset(
    letter for letter in map(chr, range(sys.maxunicode + 1)) if unicodedata.category(letter) in ("Cc", "Cf", "Zl", "Zp")
)
"""C0, C1 (Cc); bidi, zero width, tags (Cf); line and paragraph ends (Zl, Zp): UAX #44, table 12."""

BIDI = "\u061c\u200e\u200f" + "".join(map(chr, (*range(0x202A, 0x202F), *range(0x2066, 0x206A))))
ZERO_WIDTH = "\u200b\u200c\u200d\u2060\ufeff"

EVIL = "a" + "".join(map(chr, (*range(1, 32), *range(127, 160)))) + BIDI + ZERO_WIDTH + "\u2028\u2029z"
"""All C0 and C1 controls but NUL, all that turn the reading direction or have no width; a name that a file can have."""

IN_TOML = "".join(f"\\u{ord(letter):04x}" for letter in f"\0{EVIL}")
"""The same, and NUL, as it is written between quotes."""


def steering_in(text: str, allowed: str = "\n") -> set[str]:
    """Letters of a text that could steer a terminal; line breaks may."""
    return STEERING.intersection(text) - set(allowed)
