"""The load path of one method: every link from the module to the structure, with a bar of its utilisation."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from textual.content import Content

from engine import links
from engine.comparison.compare import Column, Comparison
from engine.comparison.figures.utilisation import of_resistance, why_no_ratio
from engine.comparison.figures.verdict import not_checked
from engine.design.verdict import verdict_sentence
from engine.links import Check, Location
from engine.links.check import Part
from engine.links.unchecked import in_words
from engine.units import System, in_one, text
from tui.render import bars
from tui.render.method_tabs import nothing_to_show, tabs
from tui.render.styles import MUTED, STATUS_STYLE, wrapped

NAME, FIGURES, UTILISATION = 20, 22, 11
"""Cells of the columns beside the bars."""

MIN_SCALE = 1.5
"""Smallest full scale of the bars: leaves room beyond the tick at 1.0."""

CASES = {"D": "D weight", "S": "S snow", "W": "W wind", "E": "E earthquake"}
"""Letters of load combinations in words."""


def draw(comparison: Comparison, column: Column, selected: int, system: System, width: int, height: int) -> Content:
    """Methods, the verdict, all links, and the selected one in full; with space between the links if there is room."""
    roomy = height >= 2 * len(column.checks) + 14
    lines = [tabs(comparison, column, width), *([Content("")] if roomy else [])]
    if not column.checks or column.design is None or column.design.candidate is None:
        return Content("\n").join([*lines, nothing_to_show(column, width, system)])
    sentences = [in_one(verdict_sentence(comparison.scenario.job, column.design.candidate), system)]
    sentences += [
        f"{flag.text[0].upper()}{in_one(flag.text[1:], system)}."
        for flag in column.flags
        if flag.code == "bare_roof_over"
    ]
    sentences += [f"Not checked: {words}." for words in filter(None, [not_checked(column)])]
    style = f"bold {STATUS_STYLE[column.status]}"
    lines += [line for sentence in sentences for line in wrapped(sentence, width, style)]
    lines.append(Content(""))
    full = max(MIN_SCALE, 1.02 * max(check.utilisation or 0.0 for check in column.checks.values()))
    for number, check in enumerate(column.checks.values()):
        if roomy and number:
            lines.append(Content.styled("    ↓", MUTED))
        lines.append(_link(column, check, number == selected, full, system, width))
    lines += [Content(""), *_in_full(comparison, column, selected, system, width, roomy=roomy)]
    return Content("\n").join(_cut(lines, height))


def _link(column: Column, check: Check, selected: bool, full: float, system: System, width: int) -> Content:
    name = f"{'▸' if selected else ' '} {check.title}".ljust(NAME)[:NAME]
    line = Content.styled(name, "bold reverse" if selected else "") + Content(
        _figures(check, system).rjust(FIGURES) + "  "
    )
    room = width - NAME - FIGURES - UTILISATION - 4
    if check.utilisation is None:
        return line + Content.styled(why_no_ratio(column, check), MUTED)
    drawn = bars.bar(check.utilisation, room, full) + Content(" ") if room >= 8 else Content("")
    return line + drawn + Content.styled(bars.figure(check.utilisation), f"{bars.style(check.utilisation)} bold")


def _figures(check: Check, system: System) -> str:
    """Demand of resistance: "356 of 350 lb"; the number of loads where several act together."""
    if check.parts:
        return f"{len(check.parts)} loads together"
    return of_resistance(check, check.dimension, system)


def _in_full(
    comparison: Comparison, column: Column, selected: int, system: System, width: int, *, roomy: bool
) -> list[Content]:
    """The selected link: what is not checked, the loads that act together, combination, place, and its meaning."""
    link = links.LINKS[selected]
    check = column.checks[link.key]
    rows = [
        *_not_checked(column, check),
        ("loads", " + ".join(_part(part, check.dimension, system) for part in check.parts)),
        ("when", when(check.combination) if check.combination else ""),
        ("where", where(check.place, system) if check.place.name else ""),
        ("note", check.note),
        ("what", f"{check.title}: {link.help(comparison.scenario.job)}" if roomy or not check.utilisation else ""),
    ]
    found = []
    for label, words in rows:
        for number, line in enumerate(textwrap.wrap(words, max(20, width - 7))):
            found.append(Content.styled((label if number == 0 else "").ljust(7), MUTED) + Content(line))
    return found


def _not_checked(column: Column, check: Check) -> Iterator[tuple[str, str]]:
    """Links that a check leaves out: still open, with who closes it, or shown by others, with the document."""
    shown = {each.entry: each.acceptance.sentence for each in column.unchecked.shown}
    for words, entry in in_words(check.unchecked):
        if entry in shown:
            yield "others", f"{words} shown by others: {shown[entry]}"
        else:
            yield "open", f"{words} not checked: {entry.reason}. {entry.ask}"


def _part(part: Part, dimension: str, system: System) -> str:
    return f"{part.name} {of_resistance(part, dimension, system)} ({part.ratio:.2f})"


def _cut(lines: list[Content], height: int) -> list[Content]:
    """The lines that fit; the last one says that there are more."""
    if len(lines) <= height:
        return lines
    return [*lines[: height - 1], Content.styled("...    enter shows all of it", MUTED)]


def where(place: Location, system: System) -> str:
    """A place in words, with its distances from rake and eave."""
    x, y = (text(value, "length", system) if value is not None else "" for value in (place.x, place.y))
    return ", ".join(filter(None, [place.name, x and f"{x} from the rake", y and f"{y} from the eave"]))


def when(combination: str) -> str:
    """A load combination, and its letters in words."""
    letters = [meaning for letter, meaning in CASES.items() if letter in combination]
    return f"{combination}   ({', '.join(letters)})" if letters else combination
