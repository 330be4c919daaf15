"""Headroom as a picture: how far wind and snow may go, what each link has to spare, and what each input changes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from textual.content import Content

from engine import links
from engine.common.sentences import capitalized
from engine.comparison.compare import Column, Comparison
from engine.comparison.figures.utilisation import of_resistance, why_no_ratio
from engine.links import Check, Link
from engine.scenario.changes import Steps
from engine.studies.headroom import CapacityMargin, Headroom
from engine.studies.sensitivity import InputEffect, Sensitivity, VariedOutcome
from engine.units import System, text
from tui.render import bars
from tui.render.method_tabs import nothing_to_show, tabs
from tui.render.styles import MUTED, cautions, fitted, wrapped
from tui.render.what_if import FAILS, margin_in_words, required_in_words

WIDE, TALL = 120, 40
"""Width from which the inputs are beside the links, and height from which the other methods are listed [cells]."""

BETWEEN = 3
"""Cells between the two halves."""

HEAD = 2
"""Lines above the rows."""

NAME, INPUT, FIGURES, LINK = 22, 27, 25, 16
"""Cells of a row's name, of an input's name, of the figures beside a bar, and of the link that reaches its limit."""

MIN_BAR = 8
"""Cells of the shortest bar."""

FULL = 1.5
"""Utilisation at the end of the bars."""


@dataclass(frozen=True, eq=False)
class Found:
    """The margins and the effects of every method of a comparison; no effects while they are computed."""

    comparison: Comparison
    margins: tuple[Headroom, ...]
    effects: tuple[Sensitivity, ...] = ()


@dataclass(frozen=True)
class Row:
    """A row that can be in focus: its method, the link it is about or none, its input, its line and its sentence."""

    method: str
    link: str
    path: Steps
    line: Content
    sentence: str


Line = Content | Row


@dataclass(frozen=True)
class Sheet:
    """What is drawn, and the rows on it.

    `at`: the numbers of the rows on each line, in the left half and in the right one, which begins after `half` cells.
    """

    rows: tuple[Row, ...]
    content: Content
    at: Sequence[tuple[int | None, int | None]] = ()
    half: int = 0

    def row_at(self, x: int, y: int) -> int | None:
        """Number of the row at a cell; None if there is none."""
        return self.at[y][x > self.half] if y < len(self.at) else None


def draw(found: Found, column: Column, selected: int, system: System, width: int, height: int) -> Sheet:
    """One method, and the others below it while there is room; the row in focus in words at the bottom."""
    comparison = found.comparison
    head = [tabs(comparison, column, width), Content("")]
    if column.design is None or column.candidate is None:
        return Sheet((), Content("\n").join([*head, nothing_to_show(column, width, system)]))
    half = (width - BETWEEN) // 2 if width >= WIDE else width
    left = [*_limits(found, column, system, half), Content(""), *_links(column, system, half)]
    right = list(_inputs(found, column, half))
    for other in comparison.columns if height >= TALL else ():
        if other is not column and other.candidate:
            left += [Content(""), *_limits(found, other, system, half)]
            right += [Content(""), *_inputs(found, other, half)]
    rows = tuple(line for line in (*left, *right) if isinstance(line, Row))
    selected = min(selected, len(rows) - 1)
    in_focus, is_wide = rows[selected], width >= WIDE
    words = [Content(""), *wrapped(in_focus.sentence, width, "bold")]
    halves = [left, right] if is_wide else [[*left, Content(""), *right, Content(""), *cautions(comparison, width)], []]
    words += cautions(comparison, width) if is_wide else []
    room = max(3, height - len(head) - len(words))
    shown = (_window(lines, in_focus, room) for lines in halves)
    pairs = list(zip_longest(*shown, [Content("")] * room, fillvalue=Content("")))
    for one, beside, _ in pairs:
        drawn = _drawn(one, in_focus)
        gap = Content(" " * (half + BETWEEN - len(drawn))) if is_wide else Content("")
        head.append(drawn + gap + _drawn(beside, in_focus))
    numbers = {id(row): number for number, row in enumerate(rows)}
    at = [(None, None)] * HEAD + [(numbers.get(id(one)), numbers.get(id(beside))) for one, beside, _ in pairs]
    return Sheet(rows, Content("\n").join([*head, *words]), at, half)


def _window(lines: Sequence[Line], in_focus: Row, room: int) -> list[Line]:
    """The lines that fit, with the one in focus; a sign stands where there are more."""
    if len(lines) <= room:
        return list(lines)
    place = next((number for number, line in enumerate(lines) if line is in_focus), 0)
    first = min(max(0, place - room // 2), len(lines) - room)
    shown = list(lines[first : first + room])
    shown[0] = shown[0] if first == 0 else Content.styled("  ↑ more", MUTED)
    shown[-1] = shown[-1] if first + room == len(lines) else Content.styled("  ↓ more", MUTED)
    return shown


def _drawn(line: Line, in_focus: Row) -> Content:
    if isinstance(line, Content):
        return line
    return Content("▸ ") + line.line.stylize("reverse", 0, NAME) if line is in_focus else Content("  ") + line.line


# -- wind and snow to the limit ------------------------------------------------------------------


def _limits(found: Found, column: Column, system: System, width: int) -> Iterator[Line]:
    """The wind and snow at which a method reaches its limit, and the strengths that its rail span needs."""
    margins = next(each for each in found.margins if each.id == column.id)
    yield _title(f"{column.title}: how far wind and snow may go, {margins.spacing}", width)
    holds = column.design is not None and column.design.verdict.utilisation <= 1
    for margin in margins.reaches:
        line = _limit(margin, system, width, holds=holds)
        sentence = f"{column.title}: {margin_in_words(margin, system)}."
        yield Row(column.id, "", tuple(margin.input.path.split(".")), line, capitalized(sentence))
    for required in filter(None, (margins.needed, margins.attachment_needed)):
        yield from wrapped(required_in_words(required, system), width - 2, MUTED, sign="  ")


def _limit(margin: CapacityMargin, system: System, width: int, *, holds: bool) -> Content:
    """A row: the stated value, its part of the limit as a bar, the limit, and how much is to spare.

    Where less of it is what a link does not bear, as the added load beside little snow, words stand in place of a bar.
    """
    dimension, at, stated = margin.input.dimension, margin.at, margin.stated
    name = Content(fitted(f"{margin.input.name} {text(stated, dimension, system)}", NAME).ljust(NAME))
    if at is None:
        words = "over at every value" if margin.over else f"no limit up to {text(margin.searched, dimension, system)}"
        return name + Content.styled(f"  {words}", "$text-error" if margin.over else MUTED)
    limit = text(at, dimension, system)
    if holds != (stated <= at):
        return name + Content.styled(f"  {'holds down to' if holds else 'over below'} {limit}, {margin.link}", MUTED)
    figures = f"{limit:>10} {_percent(at - stated, stated):>6}"
    return _row(name, stated / at if at else FULL, figures, width, margin.link)


# -- what each link has to spare -----------------------------------------------------------------


def _links(column: Column, system: System, width: int) -> Iterator[Line]:
    """What each link of a method has to spare."""
    yield _title(f"{column.title}: what each link has to spare", width)
    for link in links.LINKS:
        check = column.checks[link.key]
        sentence = (
            f"{capitalized(column.title)}, {check.title}: {_spare(check, system) or why_no_ratio(column, check)}."
        )
        yield Row(column.id, link.key, _strength_of(link, column, check), _link(column, check, system, width), sentence)


def _link(column: Column, check: Check, system: System, width: int) -> Content:
    name = Content(fitted(check.title, NAME).ljust(NAME))
    if check.utilisation is None:
        return name + Content.styled(f"  {why_no_ratio(column, check)}", MUTED)
    spare = ""
    if not check.parts and check.demand is not None and check.resistance is not None:
        spare = text(check.resistance - check.demand, check.dimension, system)
    return _row(name, check.utilisation, f"{spare:>10} {_percent(1 - check.utilisation, 1.0):>6}", width)


def _spare(check: Check, system: System) -> str:
    """The demand and the resistance of a check, and what lies between them."""
    if check.utilisation is None:
        return ""
    loads = f"{len(check.parts)} loads together" if check.parts else of_resistance(check, check.dimension, system)
    apart = _percent(1 - check.utilisation, 1.0).lstrip("+−")
    return f"{loads}, {apart} {'over' if check.utilisation > 1 else 'to spare'} in {check.combination}"


def _strength_of(link: Link, column: Column, check: Check) -> Steps:
    """Path of the strength of a link; empty where none is named."""
    if column.design is None or check.utilisation is None:
        return ()
    paths = link.strengths(column.design.job, check)
    return tuple(paths[0].split(".")) if paths else ()


# -- what each input changes ---------------------------------------------------------------------


def _inputs(found: Found, column: Column, width: int) -> Iterator[Line]:
    """The utilisation and the attachments with each input lowered and raised, the largest effect first."""
    effects = next((each for each in found.effects if each.id == column.id), None)
    yield _title(f"{column.title}: an input lowered … raised", width)
    if effects is None:
        yield Content.styled("  being computed …", MUTED)
        return
    now = effects.now
    head = f"  now {now.used:.2f}, {now.attachments} attachments"
    yield Content.styled(head + "new layout".rjust(width - len(head)), MUTED)
    for effect in effects.effects:
        if effect.shows(now):
            path = tuple(effect.perturbation.input.path.split("."))
            yield Row(column.id, "", path, _effect(effect, now, width), _effect_in_words(effect, column))
    unmoved = [effect.perturbation.input.name for effect in effects.effects if not effect.shows(now)]
    yield from wrapped(f"No change from {'; '.join(unmoved)}.", width - 2, MUTED, sign="  ") if unmoved else ()


def _effect(effect: InputEffect, now: VariedOutcome, width: int) -> Content:
    """A row: the utilisations as a line from one to the other, and the attachments of a new layout."""
    ends = (effect.down, effect.up)
    low, high = (text(end.used, "ratio", "us") if end else "–" for end in ends)
    counts = " … ".join(f"{end.attachments}{'' if end.holds else FAILS}" if end else "–" for end in ends)
    used = [end.used for end in ends if end]
    room = width - INPUT - len(f"  ±20% 0.00   0.00 {counts}")
    drawn = bars.span(min(used), now.used, max(used), room, FULL) if room >= MIN_BAR else Content("")
    start = f"{fitted(effect.perturbation.input.name, INPUT):<{INPUT}} ±{effect.perturbation.part:.0%} {low:>4} "
    return Content(start) + drawn + Content(f" {high:<4} {counts}")


def _effect_in_words(effect: InputEffect, column: Column) -> str:
    """What comes of an input lowered and raised."""
    part, name = f"{effect.perturbation.part:.0%}", effect.perturbation.input.name
    ends = (("lowered", effect.down), ("raised", effect.up))
    told = [f"{word} by {part} {_end_in_words(end) if end else 'is outside the range allowed'}" for word, end in ends]
    return f"{capitalized(column.title)}: {name} {'; '.join(told)}."


def _end_in_words(end: VariedOutcome) -> str:
    new = "a new layout" if end.holds else "the best new layout does not hold,"
    return f"gives {end.used:.2f}, {new} has {end.attachments} attachments"


# -- parts of rows -------------------------------------------------------------------------------


def _title(words: str, width: int) -> Content:
    return Content.styled(f"── {words} ".ljust(width, "─")[:width], MUTED)


def _row(name: Content, used: float, figures: str, width: int, link: str = "") -> Content:
    """A name, a bar with its figure, more figures, and the link that reaches its limit where there is room for it."""
    has_link = width >= NAME + FIGURES + LINK + MIN_BAR
    room = width - NAME - FIGURES - has_link * LINK
    bar = bars.bar(used, room, FULL) if room >= MIN_BAR else Content("")
    figure = Content.styled(f" {used:.2f}", f"{bars.style(used)} bold")
    return name + bar + figure + Content(figures) + Content(f"  {link}"[:LINK] if has_link else "")


def _percent(part: float, whole: float) -> str:
    """A part with its sign: "+12%", "−3%"; empty where there is no whole."""
    if not whole:
        return ""
    return f"{'−' if part < 0 else '+'}{abs(part / whole):.0%}"
