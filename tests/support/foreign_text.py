"""Every letter that could steer a terminal, by the Unicode standard: C0 and C1 controls, format characters."""

from __future__ import annotations

import sys
import unicodedata

STEERING = frozenset(
    letter for letter in map(chr, range(sys.maxunicode + 1)) if unicodedata.category(letter) in ("Cc", "Cf", "Zl", "Zp")
)
"""C0, C1 (Cc); bidi, zero width, tags (Cf); line and paragraph ends (Zl, Zp): UAX #44, table 12."""

EVIL = "a" + "".join(chr(code) for code in (*range(1, 32), *range(127, 160))) + "\u202e\u2066\u200b\ufeff\u2028z"
"""All C0 and C1 controls but NUL, and some of each other kind; a name that a file can have."""

IN_TOML = "".join(f"\\u{ord(letter):04x}" for letter in EVIL)
"""The same as it is written between quotes."""


def steering_in(text: str, allowed: str = "\n") -> set[str]:
    """Letters of a text that could steer a terminal; line breaks may."""
    return STEERING.intersection(text) - set(allowed)
