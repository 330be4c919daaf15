"""Where up the slope a line may stand: anywhere, clear of clips, or only over a support."""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Floats
from engine.mounting.interface import Refusal
from engine.project.job import Job
from engine.units import both


def find_line_position(job: Job, low: float, high: float, what: str, preferred: float | None = None) -> float | Refusal:
    """Where a line may stand between `low` and `high` [m up the slope], as near as may be to where it is wanted.

    Clamps on a seam and brackets on the sheet stand anywhere: where wanted (the middle if nothing is said), or where
    a clearance from clips is asked for the nearest place that keeps it. Brackets fastened to the structure stand
    only over a support.
    """
    preferred = (low + high) / 2 if preferred is None else preferred
    supports = job.roof.supports(job.building)
    if job.hardware.bracket != "structure":
        return clear_of_clips(job, supports, low, preferred, high)
    misses = np.maximum(np.maximum(low - supports, supports - high), 0.0)
    nearest = float(supports[np.lexsort((np.abs(supports - preferred), misses))[0]])
    if low - 1e-9 <= nearest <= high + 1e-9:
        return nearest
    miss = max(low - nearest, nearest - high)
    return Refusal(
        "misses_support",
        f"{what} may stand {both(low, 'length')} to {both(high, 'length')} from the eave, and the nearest support "
        f"misses that by {both(miss, 'small length')}",
    )


def clear_of_clips(job: Job, supports: Floats, low: float, preferred: float, high: float) -> float:
    """The place nearest to the wanted one that keeps the clearance; the wanted one where none does, which is flagged."""
    clearance = job.hardware.clip_clearance
    if not clearance or not job.roof.floats:
        return preferred
    places = np.concatenate([[preferred], supports - clearance, supports + clearance])
    apart = np.abs(places[:, None] - supports).min(axis=1)
    kept = places[(places >= low) & (places <= high) & (apart >= clearance - 1e-9)]
    return float(kept[np.argmin(np.abs(kept - preferred))]) if len(kept) else preferred
