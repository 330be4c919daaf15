"""What a reader of the comparison must not miss, in words."""

from __future__ import annotations

from engine.design import Design
from engine.flags import known, laid, outcome
from engine.flags.flag import Flag
from engine.job import Job

__all__ = ["Flag", "flags_of"]

RANK = {"warning": 0, "caution": 1, "note": 2}


def flags_of(job: Job, design: Design) -> tuple[Flag, ...]:
    """Everything worth flagging about one design, loudest first."""
    found = (*outcome.flags(job, design), *laid.flags(job, design), *known.flags(job, design))
    return tuple(sorted(found, key=lambda flag: RANK[flag.severity]))
