"""The chain of one method: every link from the module to the structure, with a bar of what is used of it."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from textual.content import Content

from engine import links
from engine.comparison.compare import Column, Comparison
from engine.design.verdict import verdict_sentence
from engine.links import Check, Location
from engine.units import System, text
from tui.render import bars
from tui.render.method_tabs import nothing_to_show, tabs
from tui.render.styles import MUTED, wrapped

NAME, FIGURES, USED = 18, 22, 11
LEAST_SCALE = 1.5
"""Bars reach at least so far beyond nothing, so that the tick at 1.0 has room on its right."""

CASES = {"D": "D weight", "S": "S snow", "W": "W wind", "E": "E earthquake"}
"""What the letters of load combinations stand for."""


def draw(comparison: Comparison, column: Column, chosen: int, system: System, width: int, height: int) -> Content:
    """Methods, the sentence, the chain, and the chosen link in full; roomy where there is room."""
    lines = [tabs(comparison, column), Content("")]
    if not column.checks or column.design is None or column.design.candidate is None:
        return Content("\n").join([*lines, nothing_to_show(column, width)])
    sentences = [verdict_sentence(comparison.scenario.job, column.design.candidate)]
    sentences += [f"{flag.text[0].upper()}{flag.text[1:]}." for flag in column.flags if flag.code == "bare_roof_over"]
    style = "bold $text-success" if column.status == "holds" else "bold $text-error"
    lines += [line for sentence in sentences for line in wrapped(sentence, width, style)]
    lines.append(Content(""))
    full = max(LEAST_SCALE, 1.02 * max(check.utilisation or 0.0 for check in column.checks.values()))
    roomy = height >= 2 * len(column.checks) + 14
    for number, check in enumerate(column.checks.values()):
        if roomy and number:
            lines.append(Content.styled("    ↓", MUTED))
        lines.append(_link(check, number == chosen, full, system, width))
    return Content("\n").join([*lines, Content(""), *_in_full(comparison, column, chosen, system, width)])


def _link(check: Check, chosen: bool, full: float, system: System, width: int) -> Content:
    name = f"{'▸' if chosen else ' '} {check.title}".ljust(NAME)[:NAME]
    line = Content.styled(name, "bold reverse" if chosen else "") + Content(
        _figures(check, system).rjust(FIGURES) + "  "
    )
    room = width - NAME - FIGURES - USED - 4
    if check.utilisation is None:
        return line + Content.styled(bars.figure(check.utilisation), bars.style(check.utilisation))
    drawn = bars.bar(check.utilisation, room, full) + Content(" ") if room >= 8 else Content("")
    return line + drawn + Content.styled(bars.figure(check.utilisation), f"{bars.style(check.utilisation)} bold")


def _figures(check: Check, system: System) -> str:
    """What is asked of what it may carry."""
    if check.demand is None or check.resistance is None:
        return text(check.demand, check.dimension, system) if check.demand is not None else ""
    asked = text(check.demand, check.dimension, system, with_unit=False)
    return f"{asked} of {text(check.resistance, check.dimension, system)}"


def _in_full(comparison: Comparison, column: Column, chosen: int, system: System, width: int) -> Iterator[Content]:
    """The chosen link: what it is, where and when it is asked most, and what was not checked."""
    link = links.LINKS[chosen]
    check = column.checks[link.key]
    said = [("", f"{check.title}: {link.help(comparison.scenario.job)}")]
    if check.place.name:
        said.append(("where", where(check.place, system)))
    if check.combination:
        said.append(("when", when(check.combination)))
    if check.note:
        said.append(("note", check.note))
    for label, words in said:
        for number, line in enumerate(textwrap.wrap(words, max(20, width - 7))):
            yield Content.styled((label if number == 0 else "").ljust(7), MUTED) + Content(line)


def where(place: Location, system: System) -> str:
    """A place in words, with its distances from rake and eave."""
    x, y = (text(value, "length", system) if value is not None else "" for value in (place.x, place.y))
    return ", ".join(filter(None, [place.name, x and f"{x} from the rake", y and f"{y} from the eave"]))


def when(combination: str) -> str:
    """A load combination, and what its letters stand for."""
    letters = [meaning for letter, meaning in CASES.items() if letter in combination]
    return f"{combination}   ({', '.join(letters)})" if letters else combination
