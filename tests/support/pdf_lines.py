"""The straight lines of a page, read from its PDF by pypdf: independent of what wrote them."""

from __future__ import annotations

import numpy as np
import pypdf
from pypdf.generic import ContentStream


def straight_lines(reader: pypdf.PdfReader) -> np.ndarray:
    """Both ends of every straight line of the page [pt], shape (lines, 4); the page turns nothing."""
    found, moved, before = [], [np.eye(3)], np.zeros(3)
    content = reader.pages[0]["/Contents"].get_object()
    for operands, operator in ContentStream(content, reader).operations:
        if operator == b"q":
            moved.append(moved[-1])
        elif operator == b"Q":
            moved.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = map(float, operands)
            moved[-1] = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ moved[-1]
        elif operator in (b"m", b"l"):
            here = np.array([*map(float, operands), 1]) @ moved[-1]
            if operator == b"l":
                found.append([*before[:2], *here[:2]])
            before = here
    return np.array(found)
