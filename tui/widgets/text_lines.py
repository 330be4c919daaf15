"""Text of which only the lines that change are laid out and painted anew."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import accumulate, zip_longest
from typing import Self

from textual.content import Content
from textual.geometry import Region, Size
from textual.strip import Strip
from textual.style import Style
from textual.visual import Visual
from textual.widgets import Static


class TextLines(Static):
    """Lines of text, plain or styled, never markup; a line that is too long continues on the next row."""

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:
        self._lines: Sequence[Content] = (Content(""),)
        self._painted: dict[int, list[Strip]] = {}  # rows of a line, by its number
        self._painted_for: tuple[int, Style] | None = None  # width and style of those rows
        self._starts: list[int] = []  # first row of each line, then the number of rows; empty until laid out
        super().__init__(id=id, classes=classes, markup=False)

    def show_text(self, text: Content) -> None:
        """Show another text."""
        self.show_lines(text.split(allow_blank=True))

    def show_lines(self, lines: Sequence[Content]) -> None:
        """Show other lines; the same ones again cost nothing."""
        changed = [number for number, pair in enumerate(zip_longest(self._lines, lines)) if not _are_same(*pair)]
        if not changed:
            return
        self._lines = lines
        starts, width = self._starts_at(self.size.width), self.size.width
        if starts != self._starts or self._is_as_wide_as_its_text:
            self.refresh(layout=True)
            return
        for number in changed:
            self._painted.pop(number, None)
        self.refresh(*(Region(0, starts[n], width, starts[n + 1] - starts[n]) for n in changed))

    def render(self) -> Content:
        """The whole text, for the selection and for the width that it needs."""
        return Content("\n").join(self._lines)

    def render_line(self, y: int) -> Strip:
        """One row; a selection is drawn by the framework, which paints the whole text for it."""
        if self.text_selection is not None:
            return super().render_line(y)
        width = self.size.width
        if self._painted_for != (width, self.visual_style) or not self._starts:
            self._painted_for = width, self.visual_style
            self._painted.clear()
            self._starts = self._starts_at(width)
        number = bisect_right(self._starts, y) - 1
        if number == len(self._lines):
            return Strip.blank(width, self.visual_style.rich_style)
        if number not in self._painted:
            strips = Visual.to_strips(self, self._lines[number], width, None, self.visual_style)
            self._painted[number] = [_of_line(number, strip) for strip in strips]
        return self._painted[number][y - self._starts[number]]

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """Rows that the text takes."""
        return self._starts_at(width)[-1]

    def refresh(self, *regions: Region, repaint: bool = True, layout: bool = False, recompose: bool = False) -> Self:
        """Paint rows anew, or everything, as after a change of theme."""
        if not regions:
            self._starts = []
        return super().refresh(*regions, repaint=repaint, layout=layout, recompose=recompose)

    def _starts_at(self, width: int) -> list[int]:
        rules = self.styles.get_rules()
        heights = (line.get_height(rules, width) if width else 0 for line in self._lines)
        return list(accumulate(heights, initial=0))

    @property
    def _is_as_wide_as_its_text(self) -> bool:
        return self.styles.width is not None and self.styles.width.is_auto


def _are_same(old: Content | None, new: Content | None) -> bool:
    return old is not None and new is not None and old.is_same(new)


def _of_line(number: int, strip: Strip) -> Strip:
    """A row of that line: text is selected by it. Painted alone, every line takes itself for the first."""
    places = (segment.style.meta.get("offset") for segment in strip if segment.style)
    place = next(filter(None, places), None)
    return strip.apply_offsets(place[0], number) if place else strip
