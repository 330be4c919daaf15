"""A row of text in columns: a label, then cells of one width."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from itertools import zip_longest


def row(label: str, cells: Sequence[str], labels: int, width: int) -> Iterator[str]:
    """The lines of a row; what is too long for its cell goes on below, so that no two run together."""
    wrapped = [textwrap.wrap(cell, width - 1) if len(cell) >= width else [cell] for cell in cells]
    for number, parts in enumerate(zip_longest(*wrapped, fillvalue="")):
        yield ("" if number else label).ljust(labels)[:labels] + "".join(part.rjust(width) for part in parts)
