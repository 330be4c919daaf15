"""Text of others on a terminal: control and format characters are escapes, all other letters are themselves."""

from __future__ import annotations

import pytest

from engine.common.safe_text import safe_lines, safe_text


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Kestrel Yard, 8.00 ft – 5 °", "Kestrel Yard, 8.00 ft – 5 °"),
        ("שלום 猫 é no\u00a0break", "שלום 猫 é no\u00a0break"),
        ("\x1b[31mred", r"\u001b[31mred"),
        ("\x9b2J", r"\u009b2J"),
        ("a\nb\tc\rd\x7f", r"a\u000ab\u0009c\u000dd\u007f"),
        ("\u202eabc\u2066", r"\u202eabc\u2066"),
        ("zero\u200bwidth\u200d\ufeff", r"zero\u200bwidth\u200d\ufeff"),
        ("half \udcff", r"half \udcff"),
        ("line\u2028end", r"line\u2028end"),
        ("tag \U000e0041", r"tag \U000e0041"),
    ],
)
def test_safe_text(text: str, shown: str) -> None:
    assert safe_text(text) == shown


def test_lines_stay_lines() -> None:
    assert safe_lines("one\ntwo\x1b\n") == "one\ntwo\\u001b\n"
