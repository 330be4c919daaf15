"""Small helpers for sentences."""

from collections.abc import Sequence


def capitalized(text: str) -> str:
    """The text with its first letter a capital, the others as they are; text is not empty."""
    return text[0].upper() + text[1:]


def listed(words: Sequence[str], last: str) -> str:
    """Words in a row, the last one after "and" or "or": "a, b and c"."""
    *others, final = words
    return f"{', '.join(others)} {last} {final}" if others else final
