"""What stays the same while patterns are tried on one job with one method."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from dataclasses import field as dataclass_field
from functools import cached_property, lru_cache, partial

from engine.bill.take_off import Bill, take_off
from engine.common.progress import ProgressListener, no_listener
from engine.links import ASKED_FIRST, LINKS, Check, Link
from engine.load_path.demands import Demands
from engine.load_path.roof_loads import RoofLoads
from engine.loads.interface import Loads
from engine.mounting.interface import MountingMethod, Refusal
from engine.mounting.layout import Field, Layout, SpacingPattern
from engine.project.job import Job


@dataclass(frozen=True, eq=False)
class Candidate:
    """One layout, what it is built of, and whether every link holds, each checked when it is asked for.

    `compute_demands` gives what the layout asks of its links; only `demands` keeps it, for a search has no use for such large arrays.
    """

    layout: Layout
    bill: Bill
    compute_demands: Callable[[], Demands]
    checked: dict[Link, Check] = dataclass_field(default_factory=dict)

    @cached_property
    def demands(self) -> Demands:
        """What it asks of every link."""
        return self.compute_demands()

    def check(self, link: Link) -> Check:
        """One link, checked once."""
        if link not in self.checked:
            self.checked[link] = link(self.compute_demands())
        return self.checked[link]

    @property
    def checks(self) -> tuple[Check, ...]:
        """Every link, in order from module to structure."""
        return tuple(map(self.check, LINKS))

    @property
    def weakest(self) -> Check:
        """The link with the largest utilisation."""
        return max(self.checks, key=lambda check: check.used)

    @property
    def largest_so_far(self) -> float:
        """How far the weakest link is used, or the weakest of those checked so far [-]."""
        return max((check.used for check in self.checked.values()), default=0.0)

    @cached_property
    def holds(self) -> bool:
        """Whether every checked link holds; none is followed beyond the first that does not."""
        return all(self.check(link).holds for link in (*ASKED_FIRST, *LINKS))


@dataclass(frozen=True, eq=False)
class DesignContext:
    """One method on one job, its modules placed and its loads found: patterns can be tried.

    `strips` is the pattern that every other is made from: the same strips, at spacings of their own. `keep_demands`: whether
    attempts keep what they ask of every link, large arrays that a search has no use for.
    """

    job: Job
    method: MountingMethod
    field: Field
    loads: Loads
    roof: RoofLoads
    strips: SpacingPattern
    tell: ProgressListener = no_listener
    keep_demands: bool = False
    laid: dict[tuple[tuple[float, ...], int], Layout | Refusal] = dataclass_field(default_factory=dict)
    tried: dict[tuple[float, ...], Candidate] = dataclass_field(default_factory=dict)

    def with_method(self, method: MountingMethod) -> DesignContext:
        """The same stage for the same method with other options."""
        return replace(self, method=method, laid={}, tried={})

    def uniform_layout(self, spacing: float, minimum: int = 0) -> Layout | Refusal:
        """The layout of one spacing everywhere."""
        return self.lay_out(self.strips.with_uniform(spacing), minimum)

    def lay_out(self, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """The layout of a pattern, with at least so many points; the pattern itself where it has them."""
        itself = self._laid(pattern, 0)
        return (
            itself
            if isinstance(itself, Refusal) or len(itself.attachments) >= minimum
            else self._laid(pattern, minimum)
        )

    def _laid(self, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        key = pattern.spacings, minimum
        if key not in self.laid:
            self.laid[key] = self.method.lay_out(self.job, self.field, pattern, minimum)
        return self.laid[key]

    def count(self, spacing: float) -> int:
        """Points of an even pattern once it is filled up to the count rule; none where it cannot be laid."""
        even = self.uniform_layout(spacing)
        return 0 if isinstance(even, Refusal) else max(len(even.attachments), self.field.minimum_attachments)

    def candidate(self, layout: Layout) -> Candidate:
        """Bill a layout, and follow and check it as far as will be asked; the same pattern is not tried twice."""
        key = (*layout.pattern.spacings, len(layout.attachments))
        if key not in self.tried:
            self.tell(
                f"{self.method.title(self.job)}: {self.method.spacing_label(layout, self.job)}, {len(layout.attachments)} attachments"
            )
            bill = take_off(self.job, self.field, self.method, layout)
            self.tried[key] = Candidate(layout, bill, partial(self._demands_of, layout, bill))
        return self.tried[key]

    @cached_property
    def _demands_of(self) -> Callable[[Layout, Bill], Demands]:
        """What a layout asks of every link; the last one is at hand for the next link, or every one where they are kept."""
        return lru_cache(None if self.keep_demands else 1)(
            partial(Demands, self.job, self.field, self.loads, self.roof)
        )
