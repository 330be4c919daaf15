"""The placement maps as text for the command line and the app."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import RenderableType

from engine.comparison.compare import Comparison
from engine.project.job import Job
from engine.studies.placement import Axis, Place, Placement, PlacementMap
from engine.units import System, both, number, unit
from tui.render.plain_text import side_by_side

LEGEND = (
    "320: attachments where it holds. 320~: it holds only if set out exactly. 1.05!: over, by this utilisation. "
    "–: it does not fit."
)
EXACTLY, OVER, NO_FIT = "~", "!", "–"


def placement_parts(found: Placement, comparison: Comparison, system: System, width: int) -> Iterator[RenderableType]:
    """A map a method, the best places, and how to read them."""
    job = comparison.scenario.job
    if found.maps:
        yield f"{axes_in_words(found.maps[0], job, system)} {LEGEND}"
        yield ""
    for each in found.maps:
        yield each.column.title.upper()
        yield summary(each, job)
        yield ""
        yield from side_by_side(*_cells(each, job, system), width)
        yield ""
    if not found.maps:
        yield "No method could be checked, so there is no map."
    elif found.shared:
        yield f"Best for most methods together: {place_in_words(job, *found.shared)}."
    elif found.maps[0].along.moves and found.maps[0].up.moves:
        yield "No place within the window holds for any method."
    else:
        yield "No place is best before the roof is surveyed: state roof.first_rib and roof.first_support."


def axes_in_words(shown: PlacementMap, job: Job, system: System) -> str:
    """The meaning of columns and rows of a map."""
    length = unit("small length", system)
    return f"Columns: {_axis_in_words(shown.along, job)} [{length}]; rows: {_axis_in_words(shown.up, job)} [{length}]."


def _axis_in_words(axis: Axis, job: Job) -> str:
    return {
        "right": "array moved to the right",
        "up": "array moved up the slope",
        "first_rib": f"first {job.roof.rib_word} from the left rake, not surveyed",
        "first_bay": "first bay at the eave, supports not surveyed",
    }[axis.key]


def summary(shown: PlacementMap, job: Job) -> str:
    """At how many places the method holds, and the best of them."""
    off = both(shown.largest_offset, "small length", job.system)
    words = f"Holds at {shown.holding} of {len(shown.places)} places, also where it is set out up to {off} off."
    best = shown.best
    if best is None:
        return words
    utilisation = f"{best.verdict.component} {best.verdict.utilisation:.2f}"
    return f"{words} Best: {place_in_words(job, best.along, best.up)}: {best.attachments} attachments, {utilisation}."


def place_in_words(job: Job, right: float, up: float) -> str:
    """A move, and the corner that it leads to: "3.00 in (76 mm) to the left (lower left corner 39.75 ft, 15.50 ft)"."""
    moves = [
        f"{both(abs(move), 'small length', job.system)} {words[move > 0]}"
        for move, words in ((right, ("to the left", "to the right")), (up, ("down the slope", "up the slope")))
        if move
    ]
    x, y = job.origin
    origin = f"{both(x + right, 'length', job.system)}, {both(y + up, 'length', job.system)}"
    name = f"lower left corner{' of all arrays' if len(job.arrays) > 1 else ''}"
    return f"{' and '.join(moves) or 'where it is'} ({name} {origin})"


def _cells(shown: PlacementMap, job: Job, system: System) -> tuple[list[str], list[list[str]]]:
    """Labels of the rows, the highest first, and a column of cells for each place along the eave."""
    labels = ["", *(position(shown.up, place, system) for place in reversed(shown.up.places))]
    columns = zip(*reversed(shown.rows), strict=True)
    heads = (position(shown.along, place, system) for place in shown.along.places)
    return labels, [[head, *map(cell, column)] for head, column in zip(heads, columns, strict=True)]


def position(axis: Axis, place: float, system: System) -> str:
    """A place of an axis as its column or row is headed; moves have a sign."""
    return f"{number(place, 'small length', system):{'+' if axis.moves and place else ''}.4g}"


def cell(place: Place) -> str:
    """A place in the map: its attachments, or its utilisation where something is over."""
    if place.holds:
        return f"{place.attachments} "
    if place.verdict.status.nothing_over:
        return f"{place.attachments}{EXACTLY}"
    return f"{place.verdict.utilisation:.2f}{OVER}" if place.attachments else f"{NO_FIT} "
