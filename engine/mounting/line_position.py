"""Position of a support line up the slope: the preferred one, clear of clips, or over the structure."""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Floats
from engine.common.sentences import capitalized
from engine.common.tolerances import SAME_LENGTH
from engine.mounting.interface import Miss, Refusal
from engine.project.job import Job
from engine.units import both


def find_line_position(
    job: Job, low: float, high: float, part: str, preferred: float | None = None, other_cure: str = ""
) -> float | Refusal:
    """Position of a line up the slope [m], or a refusal if brackets on the structure miss it.

    Other attachments fit anywhere: the line takes the preferred position, or the nearest one that
    keeps the clearance from clips. Brackets on the structure fit only over it.

    Args:
        job: the job.
        low: lower end of the zone in which the line may lie [m].
        high: upper end of that zone [m].
        part: name of the zone, for the refusal.
        preferred: preferred position [m]; None for the middle of the zone.
        other_cure: alternative to moving the array, for the refusal.
    """
    _, (start, end) = job.building.stands_from_to
    if high < start - SAME_LENGTH or low > end + SAME_LENGTH:
        return _on_overhang(job, low, high, part)
    low, high = max(low, start), min(high, end)
    preferred = min(max((low + high) / 2 if preferred is None else preferred, low), high)
    supports = job.roof.supports(job.building)
    if not job.hardware.at_fastenings:
        return clear_of_clips(job, supports, low, preferred, high)
    misses = np.maximum(np.maximum(low - supports, supports - high), 0.0)
    nearest = float(supports[np.lexsort((np.abs(supports - preferred), misses))[0]])
    if low - SAME_LENGTH <= nearest <= high + SAME_LENGTH:
        return nearest
    return _misses_structure(job, low, high, nearest, part, other_cure)


def _on_overhang(job: Job, low: float, high: float, part: str) -> Refusal:
    """The refusal if a line would lie on the overhang of the roof."""
    _, (start, end) = job.building.stands_from_to
    distance = both(max(start - high, low - end), "small length")
    toward = "up the slope" if high < start else "toward the eave"
    return Refusal(
        "on_overhang",
        f"{capitalized(part)} lies on the roof's overhang, {distance} beyond the wall, where no attachment may stand. "
        f"Move the array {distance} {toward}, or write building.overhang.attachments = true if the building's "
        "engineer allows it",
        Miss(low, high, start if high < start else end, up_slope=True),
    )


def structure_word(job: Job) -> str:
    """Name of what the panels are fastened to, row after row up the slope."""
    return "purlin" if job.roof.support == "purlin" else "fastening row"


def _misses_structure(job: Job, low: float, high: float, nearest: float, part: str, other_cure: str) -> Refusal:
    """The refusal if no purlin lies in the zone of a line, with the shortest way to move the array."""
    distance = both(max(low - nearest, nearest - high), "small length")
    zone = both(low, "length") if low == high else f"{both(low, 'length')} to {both(high, 'length')}"
    toward = "up the slope" if nearest > high else "toward the eave"
    cure = f"Move the array {distance} {toward}" + (f", or {other_cure}" if other_cure else "")
    return Refusal(
        "misses_support",
        f"No {structure_word(job)} lies in {part} ({zone} from the eave); the nearest is {distance} away. {cure}",
        Miss(low, high, nearest, up_slope=True),
    )


def clear_of_clips(job: Job, supports: Floats, low: float, preferred: float, high: float) -> float:
    """Position nearest to the preferred one that keeps the clearance from clips [m].

    The preferred position itself if none between `low` and `high` keeps it; the comparison then flags it.
    """
    clearance = job.hardware.clip_clearance
    if not clearance or not job.roof.floats or job.hardware.bypasses_sheet:
        return preferred
    candidates = np.concatenate([[preferred], supports - clearance, supports + clearance])
    distance = np.abs(candidates[:, None] - supports).min(axis=1)
    clear = candidates[(candidates >= low) & (candidates <= high) & (distance >= clearance - SAME_LENGTH)]
    return float(clear[np.argmin(np.abs(clear - preferred))]) if len(clear) else preferred
