"""SVG drawings written directly, with every text escaped."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from html import escape

Style = str


def shortened(words: str, longest: int) -> str:
    """Text cut to the length that a drawing has room for."""
    return words if len(words) <= longest else f"{words[: longest - 1].rstrip()}…"


class Drawing:
    """Elements in pixels, or in the `unit` of the drawing's size, y downward.

    `styles` are CSS rules, selector → declarations, black and grey only; they apply within drawings of this
    `kind`, so that several fit in one page.
    """

    def __init__(
        self, kind: str, width: float, height: float, title: str, styles: Mapping[str, str], unit: str = ""
    ) -> None:
        self.width, self.height, self.title = width, height, title
        rules = [f".{kind} {selector} {{ {said} }}" for selector, said in styles.items()]
        self._parts = [
            f'<svg class="{kind}" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(width)} {_n(height)}" role="img"',
            f'width="{_n(width)}{unit}" height="{_n(height)}{unit}" font-family="Helvetica, Arial, sans-serif">',
            f"<title>{escape(title)}</title>",
            "<style>",
            *rules,
            "</style>",
        ]

    def line(self, x1: float, y1: float, x2: float, y2: float, style: Style) -> None:
        """A straight line."""
        self._parts.append(f'<line class="{style}" x1="{_n(x1)}" y1="{_n(y1)}" x2="{_n(x2)}" y2="{_n(y2)}"/>')

    def rectangle(self, x: float, y: float, width: float, height: float, style: Style) -> None:
        """A rectangle from its upper left corner."""
        self._parts.append(f'<rect class="{style}" x="{_n(x)}" y="{_n(y)}" width="{_n(width)}" height="{_n(height)}"/>')

    def circle(self, x: float, y: float, radius: float, style: Style) -> None:
        """A circle."""
        self._parts.append(f'<circle class="{style}" cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}"/>')

    def path(self, places: Sequence[tuple[float, float]], dashes: str = "") -> None:
        """Straight lines from place to place; `dashes` distinguish one from another."""
        points = " ".join(f"{_n(x)},{_n(y)}" for x, y in places)
        self._parts.append(f'<polyline stroke-dasharray="{dashes or "none"}" points="{points}"/>')

    def text(
        self, x: float, y: float, words: str, style: Style = "", *, anchor: str = "start", turned: bool = False
    ) -> None:
        """One line of text; `turned` reads upward."""
        turn = f' transform="rotate(-90 {_n(x)} {_n(y)})"' if turned else ""
        self._parts.append(
            f'<text class="{style}" x="{_n(x)}" y="{_n(y)}" text-anchor="{anchor}"{turn}>{escape(words)}</text>'
        )

    def written(self) -> str:
        """The whole drawing."""
        return "\n".join([*self._parts, "</svg>"]) + "\n"


def _n(value: float) -> str:
    """A coordinate rounded to a hundredth, so that the same drawing gives the same text on every machine."""
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")
