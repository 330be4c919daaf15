r"""Text of others (titles, keys, file names) made safe to show: what could steer a terminal is written as an escape.

A file may hold "\u001b[2J", which clears a terminal, or a character that reverses the reading direction. Both
are shown as they would be written in TOML or JSON.
"""

from __future__ import annotations

import unicodedata

UNSAFE = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp"})
"""Unicode categories shown as escapes: control, format (bidi, zero width), half pairs, line and paragraph ends."""


def safe_text(text: str) -> str:
    """Text of one line, in which control and format characters, line breaks too, are escapes."""
    return text if text.isprintable() else "".join(map(_shown, text))


def safe_lines(text: str) -> str:
    """Text of several lines, each made safe; the line breaks stay."""
    return "\n".join(map(safe_text, text.split("\n")))


def _shown(character: str) -> str:
    if unicodedata.category(character) not in UNSAFE:
        return character
    code = ord(character)
    return f"\\u{code:04x}" if code <= 0xFFFF else f"\\U{code:08x}"
