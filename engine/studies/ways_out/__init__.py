"""Ways out: changes with which a method that is over would hold, each computed, the smallest of each kind first.

A way counts only if it holds all over its tolerance. To add a kind of way: one function that proposes changes, and its
place in `KINDS`.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass

from engine.common.errors import InputError
from engine.common.progress import ProgressListener, no_listener, part_of
from engine.comparison.compare import Column, Comparison, compare
from engine.design.design import Design
from engine.design.status import Status
from engine.scenario.changed import changed
from engine.studies.ways_out.leave_out import fewer_corners, fewer_rows_or_columns
from engine.studies.ways_out.move import moved_arrays
from engine.studies.ways_out.new_roof import closer_supports
from engine.studies.ways_out.options import closer_spacing, other_options
from engine.studies.ways_out.proposal import Proposal
from engine.studies.ways_out.strength import stronger_parts
from engine.studies.ways_out.whole_box import holds_in_box
from engine.units import System, text

Propose = Callable[[Column, Comparison], Iterator[Proposal]]

KINDS: tuple[tuple[str, Propose], ...] = (
    ("move", moved_arrays),
    ("closer", closer_spacing),
    ("extra_rail", lambda column, comparison: other_options("extra_rail", column)),
    ("turn", lambda column, comparison: other_options("turn", column)),
    ("tilt", lambda column, comparison: other_options("tilt", column)),
    ("strength", stronger_parts),
    ("closer_supports", closer_supports),
    ("leave_out", fewer_rows_or_columns),
    ("leave_out", fewer_corners),
)
"""Kind of way and its proposals for a method that is over, in the order in which ways are shown."""

ALL_KINDS = tuple(dict.fromkeys(kind for kind, _ in KINDS))

NOTHING_HELPS = (
    "No change that was tried helps: another place on a surveyed roof, other options of the method, "
    "stronger parts, fewer modules."
)

HELP_ROOF_ALONE = ("strength", "closer_supports")
"""The kinds that help a roof that fails without the array."""


@dataclass(frozen=True, eq=False)
class WayOut:
    """One change with which a method is no longer over: its `kind`, the `proposal`, and the method's column with it."""

    kind: str
    proposal: Proposal
    column: Column

    @property
    def text(self) -> str:
        """The change in words."""
        spacing = f": {self.design.spacing_label}" if self.proposal.names_spacing else ""
        return f"{self.proposal.text}{spacing}"

    def result(self, before: Column, system: System) -> str:
        """The method with the change: "holds, 480 attachments, clip 0.95"."""
        design, check = self.design, self.column.decisive
        words = [str(self.column.status), f"{len(design.layout.attachments)} attachments"]
        words += [f"{check.title} {check.ratio:.2f}"] if check else []
        assert before.design is not None
        lost = before.design.field.modules - design.field.modules
        if lost:
            power = text(before.design.bill.power - design.bill.power, "power", system)
            words.append(f"{design.field.modules} modules ({lost} fewer, {power} less)")
        return ", ".join(words)

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


def ways_out(
    comparison: Comparison, tell: ProgressListener = no_listener, kinds: Collection[str] = ALL_KINDS
) -> tuple[WaysOut, ...]:
    """The ways out, of some kinds, of every method that is over or would be if the array were set out inaccurately."""
    over = [column for column in comparison.columns if needs_way_out(column)]
    total = len(over) * len(KINDS)
    return tuple(
        WaysOut(column, tuple(_ways(column, comparison, tell, kinds, number * len(KINDS), total)))
        for number, column in enumerate(over)
    )


def needs_way_out(column: Column) -> bool:
    """True if a method is over, or would be if the array were set out inaccurately."""
    return column.status == Status.OVER or column.holds_only_exactly


def _ways(
    column: Column, comparison: Comparison, tell: ProgressListener, kinds: Collection[str], done: int, total: int
) -> Iterator[WayOut]:
    """Of every kind of way the first proposal with which it is no longer over; `done` of `total` come before."""
    alone_holds = column.roof_alone is None or column.roof_alone.holds
    for number, (kind, propose) in enumerate(KINDS, done + 1):
        if kind not in kinds or not (alone_holds or kind in HELP_ROOF_ALONE):
            continue
        for proposal in propose(column, comparison):
            part_of(tell, number, total)(f"{column.title}: {proposal.text}")
            found = _column_with(proposal, column.id, comparison)
            if found and _helps(found, column, comparison):
                yield WayOut(kind, proposal, found)
                break


def _helps(found: Column, before: Column, comparison: Comparison) -> bool:
    """True if the method holds all over its tolerance, and does not fall below the minimum by rule of practice."""
    now, earlier = found.design, before.design
    if now is None or earlier is None or not found.holds_within_tolerance:
        return False
    least = min(now.field.minimum_attachments, len(earlier.layout.attachments))
    return len(now.layout.attachments) >= least and holds_in_box(now, comparison.scenario.standard)


def _column_with(proposal: Proposal, method: str, comparison: Comparison) -> Column | None:
    """The method's column after a change; None if the change is not allowed."""
    try:
        return compare(changed(comparison.scenario, proposal.changes), (method,)).columns[0]
    except InputError:
        return None
