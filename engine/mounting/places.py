"""Places along the eave at which attachments may be: at every rib, in every pan, or only where rafters are."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.common.tolerances import SAME_LENGTH
from engine.mounting.interface import Refusal
from engine.project.hardware import IN_PAN
from engine.project.job import Job
from engine.project.rafters import off_middle
from engine.units import INCH, both

PAN_CLEARANCE = 1.5 * INCH
"""Smallest distance of a hole in the flat pan from the middle of a rib [m] (judgement, no source)."""


CURE = 'Put the holes in the flat pan (hardware.place = "pan"), or screw the brackets to the deck'


@dataclass(frozen=True, eq=False)
class Places:
    """Places along the eave at which attachments may be (S,), in rising order.

    `x` (S,) [m] from the left rake; `rib` (S,): number of the rib there, or of the nearest; `pitch` [m]: distance from
    place to place, the smallest where they are uneven; `word` and `words` name one and several.
    """

    x: Floats
    rib: Ints
    pitch: float
    word: str
    words: str

    def __len__(self) -> int:
        return len(self.x)

    def between(self, start: float, end: float) -> Places:
        """The places from `start` to `end` [m from the left rake]."""
        inside = (self.x >= start - SAME_LENGTH) & (self.x <= end + SAME_LENGTH)
        return self if inside.all() else replace(self, x=self.x[inside], rib=self.rib[inside])

    @classmethod
    def at_ribs(cls, ribs: Floats, pitch: float, word: str) -> Places:
        """A place at every rib (R,) [m]."""
        return cls(ribs, np.arange(len(ribs)), pitch, word, f"{word}s")


def places_along_eave(job: Job) -> Places:
    """The places of a job's attachments within the walls, or on the whole roof where its overhangs may carry some.

    None where no rib meets a rafter.
    """
    (start, end), _ = job.building.stands_from_to
    return _places(job).between(start, end)


def _places(job: Job) -> Places:
    """The places on the whole roof."""
    roof, in_pan = job.roof, job.hardware.place == IN_PAN
    ribs = job.ribs
    if job.hardware.kind.at_rafters:
        return _in_pans_over_rafters(job, ribs) if in_pan else _at_ribs_over_rafters(job, ribs)
    if in_pan:
        return Places((ribs[:-1] + ribs[1:]) / 2, np.arange(len(ribs) - 1), roof.rib_spacing, "pan", "pans")
    return Places.at_ribs(ribs, roof.rib_spacing, roof.rib_word)


def no_places(job: Job) -> Refusal | None:
    """The refusal if attachments on rafters fit nowhere along the eave, with the miss and the cure; else None."""
    if not job.hardware.kind.at_rafters or len(places_along_eave(job)):
        return None
    if job.hardware.place == IN_PAN:
        clearance = both(PAN_CLEARANCE, "small length")
        reason = f"Every rafter lies within {clearance} of a {job.roof.rib_word}, where no pan bracket fits"
        return Refusal("misses_rafters", f"{reason}. Screw the brackets to the deck")
    ribs, rafters = job.ribs, _rafters(job)
    miss = float(_distance(ribs, rafters).min())
    spacings = [both(spacing, "small length") for spacing in (job.roof.rib_spacing, np.diff(rafters[:2]).sum())]
    text = (
        f"No rib meets a rafter: ribs are {spacings[0]} apart and rafters {spacings[1]}; the nearest rib misses a "
        f"rafter's middle by {both(miss, 'small length')}, allowed is {both(_tolerance(job), 'small length')}. {CURE}"
    )
    return Refusal("misses_rafters", text)


def rafter_cure(job: Job) -> str:
    """Cure where few ribs meet a rafter; empty for other places."""
    return CURE if job.hardware.kind.at_rafters and job.hardware.place != IN_PAN else ""


def _at_ribs_over_rafters(job: Job, ribs: Floats) -> Places:
    """The ribs whose holes meet a rafter: within 0.75 in less 1.5 screw diameters of its middle."""
    met = np.flatnonzero(_distance(ribs, _rafters(job)) <= _tolerance(job) + SAME_LENGTH)
    return _uneven(ribs[met], met, job.roof.rib_spacing, "rib on a rafter", "ribs on rafters")


def _in_pans_over_rafters(job: Job, ribs: Floats) -> Places:
    """The rafters that lie clear of the ribs."""
    rafters = _rafters(job)
    clear = rafters[_distance(rafters, ribs) >= PAN_CLEARANCE - SAME_LENGTH]
    nearest = _nearest(clear, ribs, job.building.length / 2)
    return _uneven(clear, nearest, job.roof.rib_spacing, "rafter", "rafters")


def _uneven(x: Floats, rib: Ints, single: float, word: str, words: str) -> Places:
    """Places whose distances follow from where ribs and rafters lie; `single` [m] is the pitch of a single place."""
    return Places(x, rib, float(np.diff(x).min()) if len(x) > 1 else single, word, words)


def _rafters(job: Job) -> Floats:
    return job.roof.rafters.along(job.building.length)


def _tolerance(job: Job) -> float:
    diameters = (basis.screw_diameter for _, basis in job.hardware.attachment_bases if basis.screw_diameter)
    return off_middle(max(diameters, default=None))


def _nearest(x: Floats, others: Floats, middle: float) -> Ints:
    """Numbers of the nearest of the others [m] to each x [m]; of two equally near the one nearer the middle [m].

    So the mirror image of a roof has the mirror image of its numbers.
    """
    distance = np.abs(x[:, None] - others)
    is_nearest = distance <= distance.min(axis=1, keepdims=True) + SAME_LENGTH
    return np.asarray(np.where(is_nearest, np.abs(others - middle), np.inf).argmin(axis=1))


def _distance(x: Floats, others: Floats) -> Floats:
    """Distance of each x [m] from the nearest of the others [m]."""
    return np.asarray(np.abs(x[:, None] - others).min(axis=1, initial=np.inf))
