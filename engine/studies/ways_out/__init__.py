"""Ways out: changes with which a method that is over would hold, each computed, the smallest of each kind first.

To add a kind of way: one function that proposes changes, and its place in `KINDS`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from engine.common.errors import InputError
from engine.common.progress import ProgressListener, no_listener
from engine.comparison.compare import Column, Comparison, compare
from engine.design.design import Design
from engine.design.status import Status
from engine.scenario.changed import changed
from engine.studies.ways_out.leave_out import fewer_modules
from engine.studies.ways_out.move import moved_arrays
from engine.studies.ways_out.options import other_options, searched_spacing
from engine.studies.ways_out.proposal import Proposal
from engine.studies.ways_out.strength import stronger_parts

KINDS: Mapping[str, Callable[[Column, Comparison], Iterator[Proposal]]] = MappingProxyType(
    {
        "move": moved_arrays,
        "closer": searched_spacing,
        "extra_rail": lambda column, comparison: other_options("extra_rail", column),
        "turn": lambda column, comparison: other_options("turn", column),
        "tilt": lambda column, comparison: other_options("tilt", column),
        "strength": stronger_parts,
        "leave_out": fewer_modules,
    }
)
"""Kind of way → its proposals for a method that is over, in the order in which ways are shown."""


@dataclass(frozen=True, eq=False)
class WayOut:
    """One change with which a method is no longer over: its `kind`, the `proposal`, and the method's column with it."""

    kind: str
    proposal: Proposal
    column: Column

    @property
    def design(self) -> Design:
        """The method's design with the change."""
        assert self.column.design is not None
        return self.column.design


@dataclass(frozen=True, eq=False)
class WaysOut:
    """All ways out of one method that is over; none where no change that was tried helps."""

    column: Column
    ways: tuple[WayOut, ...]


def ways_out(comparison: Comparison, tell: ProgressListener = no_listener) -> tuple[WaysOut, ...]:
    """The ways out of every method that is over, or would be if the array were set out inaccurately."""
    over = [column for column in comparison.columns if needs_way_out(column)]
    return tuple(WaysOut(column, tuple(_ways(column, comparison, tell))) for column in over)


def needs_way_out(column: Column) -> bool:
    """True if a method is over, or would be if the array were set out inaccurately."""
    return column.status == Status.OVER or (column.status.nothing_over and not column.holds_within_tolerance)


def _ways(column: Column, comparison: Comparison, tell: ProgressListener) -> Iterator[WayOut]:
    """Of every kind of way the first proposal with which the method is no longer over."""
    for kind, propose in KINDS.items():
        for proposal in propose(column, comparison):
            tell(f"{column.title}: {proposal.text}")
            found = _column_with(proposal, column.id, comparison)
            if found and found.holds_within_tolerance:
                yield WayOut(kind, proposal, found)
                break


def _column_with(proposal: Proposal, method: str, comparison: Comparison) -> Column | None:
    """The method's column after a change; None if the change is not allowed."""
    try:
        return compare(changed(comparison.scenario, proposal.changes), (method,)).columns[0]
    except InputError:
        return None
