"""Laws of the ways out: each helps when it is applied, all over its tolerance, and they stand in their order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise, product

import numpy as np

from engine.comparison.compare import Column, Comparison, compare
from engine.design.elsewhere import Place, SetOut
from engine.design.shared_roof import SharedRoof
from engine.scenario.changed import changed
from engine.studies.ways_out import ALL_KINDS, WayOut, WaysOut, needs_way_out

PLACES = [
    *((x, y, 0.0) for x, y in product(np.linspace(-1, 1, 7).tolist(), np.linspace(-1, 1, 5).tolist())),
    *((x, y, x) for x, y in product((-1.0, 1.0), np.linspace(-1, 1, 5).tolist())),
]
"""Places in parts of the tolerance: another grid than the one that the ways are found with."""


def complaints(comparison: Comparison, found: Sequence[WaysOut]) -> Iterator[str]:
    """Faults of the ways out found for a comparison, in sentences; none where all is well."""
    over = [column for column in comparison.columns if needs_way_out(column)]
    if [each.column for each in found] != over:
        yield "not every method that is over was looked at"
    for each in found:
        if any(ALL_KINDS.index(one.kind) > ALL_KINDS.index(other.kind) for one, other in pairwise(each.ways)):
            yield f"{each.column.id}: ways in another order"
        for way in each.ways:
            yield from (f"{each.column.id}: {way.text}: {words}" for words in _of_way(way, comparison))


def _of_way(way: WayOut, comparison: Comparison) -> Iterator[str]:
    """Apply the way to the scenario as its file has it, and set its layout out inaccurately."""
    after = compare(changed(comparison.scenario, way.proposal.changes), (way.column.id,)).columns[0]
    if not after.holds_within_tolerance or len(after.checks) != len(way.column.checks):
        yield f"applied, the method is {after.status}"
    bad = [place for place in PLACES if not _holds(after, comparison, place)]
    if bad:
        yield f"over at {len(bad)} of {len(PLACES)} places of its tolerance, such as {bad[0]}"


def _holds(column: Column, comparison: Comparison, place: Place) -> bool:
    """True if nothing is over with the same layout at a place."""
    assert column.design
    return SetOut(column.design, comparison.scenario.standard, SharedRoof()).verdict_at(place).status.nothing_over
