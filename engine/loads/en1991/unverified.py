"""Clauses seen in one source or from memory, and what of EN 1991 is not covered here."""

from __future__ import annotations

from engine.common.calculation import Reference
from engine.loads.en1991.references import BASIS, WIND, memory, single

UNVERIFIED: tuple[Reference, ...] = (
    single(WIND, "7.2.3: e of flat roofs with parapets from the height without the parapet"),
    single(WIND, "7.2.3: slopes under 5 deg are flat, where others interpolate"),
    single(WIND, "table 7.3a: G and H at 45 deg, wind on the high edge, on which sources differ: the larger counts"),
    single(WIND, "table 7.4a: J with positive pressure at 15 deg and more, on which sources differ: 0 is used"),
    single(BASIS, "table B3: KFI by consequence class"),
    single(BASIS, "table A1.1: psi0 of snow above 1000 m"),
    memory(WIND, "6.2: cs cd 1 for roofs and their fastenings"),
    memory(BASIS, "6.10: no imposed load on the roof with snow or wind"),
    memory(BASIS, "gammaM of the material standards: 1.25 connections, 1.0 steel, 1.1 aluminium members"),
)

NOT_COVERED = (
    "national annexes: their coefficients and factors (several have tables of their own)",
    "wind on modules above a roof, of which EN 1991-1-4 has no clause",
    "hip roofs, roofs steeper than 45 deg, overhangs, buildings with a dominant opening",
    "friction of the wind (7.5), vortex shedding, neighbouring higher buildings (annex A.4)",
    "exceptional snow, snow drifts at parapets, higher roofs and rows of modules, snow overhanging an edge",
    "earthquake (EN 1998), fire, accidental loads, serviceability",
)
