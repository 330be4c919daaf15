"""Small helpers for sentences."""


def capitalized(text: str) -> str:
    """The text with its first letter a capital, the others as they are; text is not empty."""
    return text[0].upper() + text[1:]
