"""A picture in a terminal: dots between letters.

A cell is two dots wide and four high, so a dot is about as high as it is wide. Places are in dots, x to
the right and y down from the upper left corner; letters are placed by cell. Anything outside is clipped.
"""

from __future__ import annotations

from itertools import chain

import numpy as np
import numpy.typing as npt
from textual.content import Content, Span

from engine.common.arrays import Ints

ACROSS, DOWN = 2, 4
"""Dots in a cell."""

_WEIGHTS = np.array([[0x01, 0x08], [0x02, 0x10], [0x04, 0x20], [0x40, 0x80]])
"""Bit of the braille letter for each dot of a cell."""

_BLANK = 0x2800

Styles = npt.NDArray[np.object_]


class Canvas:
    """Dots and letters on `width` x `height` cells, one at least; a letter hides the dots of its cell."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = cells = max(1, width), max(1, height)
        self.dots = np.zeros((self.height * DOWN, self.width * ACROSS), dtype=bool)
        self.letters = np.full(cells[::-1], "", dtype="<U1")
        self.styles = np.full(cells[::-1], "", dtype=object)
        self.grounds = np.full(cells[::-1], "", dtype=object)

    def line(self, x0: float, y0: float, x1: float, y1: float, style: str = "", *, every: int = 1) -> None:
        """A straight line, both ends included; dotted if only one dot in `every` is drawn."""
        steps = round(max(abs(x1 - x0), abs(y1 - y0)))
        x, y = np.rint(np.linspace([x0, y0], [x1, y1], steps + 1)[::every]).astype(int).T
        self._set(x, y, style)

    def frames(self, x0: Ints, y0: Ints, x1: Ints, y1: Ints, style: str = "", *, every: int = 1) -> None:
        """The four sides of many rectangles at once, as lines from their upper left corners would draw them."""
        x, of = _along(x0, x1, every)
        for y in (y0, y1):
            self._set(x, y[of], style)
        y, of = _along(y0, y1, every)
        for x in (x0, x1):
            self._set(x[of], y, style)

    def fill(self, x0: float, y0: float, x1: float, y1: float, style: str = "") -> None:
        """A filled rectangle, both corners included."""
        x, y = np.meshgrid(np.arange(round(x0), round(x1) + 1), np.arange(round(y0), round(y1) + 1))
        self._set(x.ravel(), y.ravel(), style)

    def words(self, column: int, row: int, text: str, style: str = "") -> None:
        """Letters from a cell on to the right."""
        for place, letter in enumerate(text, start=column):
            if 0 <= place < self.width and 0 <= row < self.height:
                self.letters[row, place], self.styles[row, place] = letter, style

    def ground(self, left: int, top: int, right: int, bottom: int, style: str) -> None:
        """Background of a rectangle of cells, both corners included: a style such as "on $panel"."""
        self.grounds[max(0, top) : max(0, bottom + 1), max(0, left) : max(0, right + 1)] = style

    def content(self) -> Content:
        """The picture as text."""
        bits = self.dots.reshape(self.height, DOWN, self.width, ACROSS).transpose(0, 2, 1, 3)
        codes = (bits * _WEIGHTS).sum(axis=(2, 3))
        dotted = np.where(codes > 0, (_BLANK + codes).astype("<u4").view("<U1"), " ")
        shown = np.where(self.letters == "", dotted, self.letters)
        styles = [(*_together(*both), "") for both in zip(self.styles, self.grounds, strict=True)]
        return _styled("\n".join(map("".join, shown)), list(chain.from_iterable(styles))[:-1])

    def _set(self, x: Ints, y: Ints, style: str) -> None:
        inside = (x >= 0) & (x < self.width * ACROSS) & (y >= 0) & (y < self.height * DOWN)
        self.dots[y[inside], x[inside]] = True
        self.styles[y[inside] // DOWN, x[inside] // ACROSS] = style


def _along(first: Ints, last: Ints, every: int) -> tuple[Ints, Ints]:
    """Places from `first` to `last` at steps of `every`, for many stretches at once, and the stretch of each place."""
    counts = (last - first) // every + 1
    of = np.repeat(np.arange(len(counts)), counts)
    return first[of] + every * (np.arange(len(of)) - (np.cumsum(counts) - counts)[of]), of


def _together(styles: Styles, grounds: Styles) -> list[str]:
    return [f"{style} {ground}".strip() for style, ground in zip(styles, grounds, strict=True)]


def _styled(text: str, styles: list[str]) -> Content:
    """Text with a style for each letter; neighbours of one style share a span."""
    ends = [n for n in range(1, len(styles) + 1) if n == len(styles) or styles[n] != styles[n - 1]]
    return Content(
        text, [Span(start, end, styles[start]) for start, end in zip([0, *ends], ends, strict=False) if styles[start]]
    )
