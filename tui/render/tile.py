"""A tile for each method, side by side: verdict, elevation, attachments, controlling component, loads and price."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rich.segment import Segment
from rich.style import Style
from textual.content import Content
from textual.renderables.digits import Digits

from engine.comparison.compare import Column, Comparison
from engine.comparison.figures import figure_named
from engine.comparison.figures.money import prices_are_stated
from engine.comparison.figures.verdict import decisive_figure, not_checked, shown_by_others, verdict_word
from engine.units import System, in_one
from tui.render import bars, tile_elevation
from tui.render.styles import MUTED, PLACEHOLDER, STATUS_STYLE

FRAME, FOCUSED_FRAME = tuple("╭─╮│╰╯"), tuple("┏━┓┃┗┛")
"""Corners and sides of a tile; the one in focus is heavier, so that it shows without colour too."""

FRAME_STYLE, FOCUSED_STYLE = "$border-blurred", "$border bold"

MIN_ROWS = 6
"""Rows of a tile with the least text in its frame."""

MIN_WIDTH = 16
"""Cells of the narrowest tile: its frame, a bar with its figure, and the beginning of a name."""

FULL_TEXT = 7
"""Rows of the whole text, in which the number of attachments is large."""

FRAME_CELLS = 8
"""Cells of a tile's upper edge beside its title and verdict."""

PADDED = 30
"""Width from which the text of a tile is set off from its frame [cells]."""

FULL = 1.25
"""Utilisation at the end of a bar."""

MIN_BAR = 10
"""Minimum cells of a bar with its figure."""

NAME = 15
"""Maximum cells of a component's name."""


@dataclass(frozen=True)
class Row:
    """Common to all tiles: units, size of their text [cells], and whether the verdict is part of it."""

    answer: Comparison
    system: System
    width: int
    height: int
    verdict_inside: bool

    @property
    def name(self) -> int:
        """Cells of the components' names."""
        found = filter(None, map(decisive_figure, self.answer.columns))
        return min(NAME, self.width - MIN_BAR, max((len(name) for name, _ in found), default=0))


@dataclass(frozen=True)
class Tile:
    """One tile without its frame: the method's id, title with the key that goes to it, verdict beside it, and text."""

    method: str
    title: str
    verdict: Content
    lines: tuple[Content, ...]
    width: int


def tiles(answer: Comparison, system: System, width: int, height: int, keys: Sequence[str] = ()) -> tuple[Tile, ...]:
    """A tile for each method.

    Args:
        answer: the comparison.
        system: units shown.
        width: width of all tiles together [cells].
        height: height of each [rows].
        keys: the keys that go to the methods.
    """
    count = len(answer.columns)
    widths = [width * (number + 1) // count - width * number // count for number in range(count)]
    each = min(widths, default=0)
    titles = [" ".join([*keys[number : number + 1], column.title]) for number, column in enumerate(answer.columns)]
    words = [verdict_word(column) for column in answer.columns]
    heads = (len(title) + len(word) for title, word in zip(titles, words, strict=True))
    inside = max(heads, default=0) + FRAME_CELLS > each
    row = Row(answer, system, each - 2 - 2 * (each >= PADDED), height - 2, inside)
    return tuple(
        Tile(column.id, title, Content.styled("" if inside else word, _verdict_style(column)), _text(column, row), own)
        for column, title, word, own in zip(answer.columns, titles, words, widths, strict=True)
    )


def side_by_side(tiles: Sequence[Tile], height: int, focused: str = "") -> list[Content]:
    """The tiles in their frames as lines; `focused` is the id of the method in focus."""
    framed = [_framed(tile, height - 2, is_focused=tile.method == focused) for tile in tiles]
    return [Content("").join(lines) for lines in zip(*framed, strict=True)]


def _framed(tile: Tile, height: int, *, is_focused: bool) -> list[Content]:
    """A tile in its frame, with title and verdict; blank lines fill it."""
    style = FOCUSED_STYLE if is_focused else FRAME_STYLE
    left, across, right, side, low_left, low_right = FOCUSED_FRAME if is_focused else FRAME
    inside = tile.width - 2
    title = Content.styled(f" {_fitting(inside - 3, tile.title)} ", "bold")
    verdict = Content.assemble(" ", tile.verdict, " ") if tile.verdict else tile.verdict
    fill = Content.styled(across * (inside - 2 - len(title) - len(verdict)), style)
    head = Content.styled(left + across, style) + title + fill + verdict + Content.styled(across + right, style)
    edge = Content.styled(side, style)
    gap = " " * (tile.width >= PADDED)
    body = [edge + gap + line + " " * (inside - len(gap) - len(line)) + edge for line in tile.lines[:height]]
    body += [edge + " " * inside + edge] * (height - len(body))
    return [head, *body, Content.styled(low_left + across * inside + low_right, style)]


def _text(column: Column, row: Row) -> tuple[Content, ...]:
    """The text of a tile, as much as there is room for."""
    lines = []
    if row.verdict_inside:
        word = verdict_word(column)
        short = word.partition(",")[0]
        exact = [f"{short} if exact"] if column.holds_only_exactly else []
        fitting = _fitting(row.width, word, *exact, short, column.status.word)
        lines = [Content.styled(fitting, _verdict_style(column))]
    room = row.height - len(lines)
    if column.candidate is None:
        lines += _reason(column, row, room)
    elif room < FULL_TEXT:
        lines += [Content.styled(_attachments(column, row), "bold"), _bar(column, row)]
        lines += [Content(_loads(column, row))] * (room > 3)
        lines.append(_price(column, row))
    else:
        lines += [*_elevation(column, row, room - FULL_TEXT), *_large_attachments(column, row), _bar(column, row)]
        lines += [Content(_loads(column, row)), _price(column, row)]
        lines.append(Content.styled(_fitting(row.width, _remark(column)), MUTED))
    return tuple(lines)


def _reason(column: Column, row: Row, rows: int) -> list[Content]:
    """Why nothing was checked."""
    words = in_one(column.flags[0].text, row.system) if column.flags else "Nothing is checked."
    return [Content(line) for line in textwrap.wrap(words, row.width, max_lines=rows, placeholder=" …")]


def _elevation(column: Column, row: Row, rows: int) -> list[Content]:
    """The elevation, where there is room for it."""
    if rows < tile_elevation.MIN_HEIGHT:
        return []
    return tile_elevation.draw(column, tile_elevation.common_scale(row.answer, row.width), row.width, rows)


def _large_attachments(column: Column, row: Row) -> Iterator[Content]:
    """The number of attachments, three rows high, beside its minimum."""
    digits = Digits(_cell("attachments", column, row)).render(Style(bold=True))
    large = "".join(part.text for part in digits if isinstance(part, Segment))
    minimum, per_module = _cell("attachments_minimum", column, row), _cell("attachments_per_module", column, row)
    beside = ("attachments", f"minimum by rule of practice {minimum}", f"{per_module} per module")
    for line, words in zip(large.splitlines(), beside, strict=True):
        room = row.width - len(line) - 2
        yield Content.styled(f"{line}  ", "bold") + _fitting(room, words, words.replace(" by rule of practice", ""))


def _attachments(column: Column, row: Row) -> str:
    count, minimum = _cell("attachments", column, row), _cell("attachments_minimum", column, row)
    start = f"{count} attachments, min"
    return _fitting(
        row.width,
        f"{start}imum by rule of practice {minimum}",
        f"{start}imum {minimum}",
        f"{start} {minimum}",
        f"{count}, minimum {minimum}",
    )


def _bar(column: Column, row: Row) -> Content:
    """The controlling component with its bar."""
    name, used = decisive_figure(column) or ("nothing is checked", None)
    if used is None:
        return Content(name)
    figure = bars.figure(used).removesuffix(" OVER")
    room = row.width - row.name - len(figure) - 2
    short = textwrap.shorten(name, row.name, placeholder="…").ljust(row.name)
    return Content.assemble(f"{short} ", bars.bar(used, room, FULL), (f" {figure}", f"{bars.style(used)} bold"))


def _loads(column: Column, row: Row) -> str:
    up, down = _cell("point_load_up_n", column, row), _cell("point_load_down_n", column, row)
    long = f"largest uplift {up}, down load {down}"
    return _fitting(row.width, long, f"uplift {up}, down {down}", f"↑ {up}  ↓ {down}")


def _price(column: Column, row: Row) -> Content:
    """The price of hardware and labour; a mark and a word say where prices are placeholders."""
    price = f"{_cell('total_cost', column, row)} {row.answer.scenario.job.currency}"
    if prices_are_stated(column):
        return Content(_fitting(row.width, f"{price} for hardware and labour", price))
    price = f"{price} {PLACEHOLDER}"
    return Content(_fitting(row.width, f"{price} placeholder prices", f"{price} placeholder", price))


def _remark(column: Column) -> str:
    """Components left to show, or those that others have shown."""
    left, shown = not_checked(column), shown_by_others(column)
    if left:
        return f"not checked: {left}"
    return f"shown by others: {shown}" if shown else ""


def _cell(key: str, column: Column, row: Row) -> str:
    return figure_named(key).cell(column, row.system)


def _verdict_style(column: Column) -> str:
    return f"{STATUS_STYLE[column.status]} bold"


def _fitting(width: int, *variants: str) -> str:
    """The first that fits, else the last one cut with a sign."""
    fits = (words for words in variants if len(words) <= width)
    return next(fits, None) or textwrap.shorten(variants[-1], max(1, width), placeholder=" …")
