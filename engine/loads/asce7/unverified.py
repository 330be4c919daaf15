"""Clauses seen in one source or cited from memory: check these first against the printed standard."""

from __future__ import annotations

from engine.common.calculation import Reference
from engine.loads.asce7.references import memory, single
from engine.loads.asce7.site import SEVEN_16

SEEN_ONCE = (
    "Fig. 29.4-7: nominal coefficients of tilted rows; §29.4.3: its factors and limits",
    "Fig. 30.3-2A, Note 5: wind pressing down behind parapets of 3 ft and more",
    "Fig. 7.6-1: height of the drift behind a ridge and at a step",
)
SEEN_ONCE_16 = (
    "Fig. 30.3-2B: the curve of zone 3r for overhangs, on which public sources differ: roof with wall counts too",
    "Fig. 30.3-2C: gables, 20 to 27 deg",
)
SEEN_ONCE_22 = (
    "Figs. 30.3-2E to 2G: zones of hip roofs",
    "Fig. 30.3-2G: pressure toward hip roofs steeper than 27 deg",
    "Fig. 30.3-2A: its use for hip roofs to 7 deg",
    "§7.7.1: windward drifts that fill their step, on which public sources differ: the larger is used",
    "§7.8: no drift at arrays on at most 10 psf of ground snow with a fetch of at most 100 ft",
)
FROM_MEMORY = (
    "Fig. 30.3-1: suction on walls, for down load on overhangs",
    "§29.4.4: definition of an exposed edge",
    "§29.7 and §30.2.2: minimum of 16 psf for arrays",
    "§7.7.2: drifts from a separate higher roof; §7.9: sliding snow across a gap",
    "§7.8: fetch at an array, the longer of the roof on either side",
    "§13.3.1: earthquake force on rooftop arrays, and its coefficients",
)
FROM_MEMORY_22 = ("Fig. 7.6-2: 0.65 as the upper end of the map of the winter wind parameter",)


def unverified(edition: str) -> tuple[Reference, ...]:
    """The list for an edition."""
    once = SEEN_ONCE + (SEEN_ONCE_16 if edition == SEVEN_16 else SEEN_ONCE_22)
    from_memory = FROM_MEMORY + (() if edition == SEVEN_16 else FROM_MEMORY_22)
    return (*(single(edition, number) for number in once), *(memory(edition, number) for number in from_memory))
