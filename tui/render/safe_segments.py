"""The last look at what is painted: whatever a widget draws, no letter of it steers the terminal."""

from __future__ import annotations

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

from engine.common.safe_text import safe_text


class SafeSegments(LineFilter):
    """Shows control and format characters as escapes; a line that grows by them ends where it did."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """The line, safe to paint."""
        if all(segment.text.isprintable() for segment in segments):
            return segments
        safe = [Segment(safe_text(segment.text), segment.style, segment.control) for segment in segments]
        return Segment.adjust_line_length(safe, Segment.get_line_length(segments))
