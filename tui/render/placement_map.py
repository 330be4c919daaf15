"""Placement maps on a screen: one a method, with the place in focus, and that place in words."""

from __future__ import annotations

from textual.content import Content

from engine.common.sentences import capitalized
from engine.project.job import Job
from engine.studies.placement import Place, Placement, PlacementMap
from engine.units import System, in_one
from tui.render.placement import axes_in_words, cell, place_in_words, position, summary
from tui.render.styles import BEST, MUTED, STATUS_STYLE, wrapped

MIN_CELL, MAX_CELL = 7, 11
"""Width of a place in the map [cells]."""

NOWHERE = -1
"""Number of the place in focus in the maps of other methods."""

LEGEND = f"320 attachments: holds · 320~ only if set out exactly · 1.05! over · – does not fit · {BEST} best"


def draw(found: Placement, method: str, at: int, job: Job, system: System, width: int, height: int) -> Content:
    """The map of the method shown, the place in focus in words, and the other maps while there is room.

    `at` is the number of the place in focus, row by row from the lowest.
    """
    shown = next((each for each in found.maps if each.column.id == method), None)
    if shown is None:
        return Content("This method could not be checked, so it has no map.")
    lines = [*_map(shown, at, job, system, width), Content(""), *_in_focus(shown, at, job, system, width)]
    for other in found.maps:
        more = [Content(""), *_map(other, NOWHERE, job, system, width)] if other is not shown else []
        lines += more if len(lines) + len(more) <= height - 3 else []
    lines += [Content(""), *wrapped(LEGEND, width, MUTED)]
    lines += wrapped(in_one(axes_in_words(shown, job, system), system), width, MUTED)
    return Content("\n").join(lines)


def _map(shown: PlacementMap, at: int, job: Job, system: System, width: int) -> list[Content]:
    """The name of a method, and its map with the eave at the bottom."""
    labels = [position(shown.up, place, system) for place in shown.up.places]
    first = max(map(len, labels)) + 1
    each = max(MIN_CELL, min(MAX_CELL, (width - first) // len(shown.along.places)))
    across = len(shown.along.places)
    heads = "".join(position(shown.along, place, system).rjust(each) for place in shown.along.places)
    lines = [Content.styled(shown.column.title, "bold"), Content.styled(f"{' ' * first}{heads}"[:width], MUTED)]
    for row in reversed(range(len(labels))):
        line = Content.styled(labels[row].rjust(first - 1) + " ", MUTED)
        for number in range(row * across, (row + 1) * across):
            line += _cell(shown, number, each, is_in_focus=number == at)
        lines.append(line)
    return [*lines, *wrapped(in_one(summary(shown, job), system), width)]


def _cell(shown: PlacementMap, number: int, width: int, *, is_in_focus: bool) -> Content:
    """A place; the one in focus stands between brackets, so that it shows without colours."""
    place = shown.places[number]
    words = f"{BEST if place is shown.best else ''}{cell(place).rstrip()}"
    words = f"[{words}]" if is_in_focus else f"{words} "
    shown_as = Content.styled(words, f"{_style(place)}{' reverse' if is_in_focus else ''}")
    return Content(" " * max(0, width - len(words))) + shown_as


def _style(place: Place) -> str:
    if place.holds:
        return STATUS_STYLE["holds"]
    return STATUS_STYLE["over" if place.attachments and not place.verdict.status.nothing_over else "outside scope"]


def _in_focus(shown: PlacementMap, at: int, job: Job, system: System, width: int) -> list[Content]:
    """The place in focus in words."""
    place = shown.places[at]
    where = place_in_words(job, place.along, place.up) if shown.along.moves and shown.up.moves else "here"
    check = place.verdict
    words = f"{capitalized(where)}: {shown.column.title} {check.status}"
    words += (
        f", {place.attachments} attachments, {check.component} {check.utilisation:.2f}" if place.attachments else ""
    )
    words += "" if place.holds or not place.verdict.status.nothing_over else ", only if set out exactly"
    return wrapped(in_one(f"{words}.", system), width, "bold")
