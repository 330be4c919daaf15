"""What stays the same while patterns are tried on one job with one method."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from dataclasses import field as dataclass_field
from functools import cached_property, partial

from engine.bill import Bill, take_off
from engine.checks import LINKS, Check
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout, Pattern
from engine.load_path import trace
from engine.loads import Loads
from engine.mounting import MountingMethod, Refusal
from engine.progress import Tell, nobody
from engine.roof_state import RoofState


@dataclass(frozen=True, eq=False)
class Attempt:
    """One layout, what it is built of, and whether every link holds; `demands` is what it asks of them."""

    layout: Layout
    bill: Bill
    checks: tuple[Check, ...]
    follow: Callable[[], Demands]

    @cached_property
    def demands(self) -> Demands:
        """Where the stage does not keep them, followed anew when first asked for."""
        return self.follow()

    @property
    def weakest(self) -> Check:
        """The link with the largest utilisation."""
        return max(self.checks, key=lambda check: check.utilisation or 0.0)

    @property
    def holds(self) -> bool:
        """Whether every checked link holds."""
        return all(check.holds for check in self.checks)


@dataclass(frozen=True, eq=False)
class Stage:
    """One method on one job, its modules placed and its loads found: patterns can be tried.

    `strips` is the pattern that every other is made from: the same strips, at spacings of their own. `keeps`: whether
    attempts keep what they ask of every link, large arrays that a search has no use for.
    """

    job: Job
    method: MountingMethod
    field: Field
    loads: Loads
    roof: RoofState
    strips: Pattern
    tell: Tell = nobody
    keeps: bool = False
    laid: dict[tuple[tuple[float, ...], int], Layout | Refusal] = dataclass_field(default_factory=dict)
    tried: dict[tuple[float, ...], Attempt] = dataclass_field(default_factory=dict)

    def with_method(self, method: MountingMethod) -> Stage:
        """The same stage for the same method with other options."""
        return replace(self, method=method, laid={}, tried={})

    def even(self, spacing: float, minimum: int = 0) -> Layout | Refusal:
        """The layout of one spacing everywhere."""
        return self.lay(self.strips.with_even(spacing), minimum)

    def lay(self, pattern: Pattern, minimum: int) -> Layout | Refusal:
        """The layout of a pattern, with at least so many points; the pattern itself where it has them."""
        itself = self._laid(pattern, 0)
        return itself if isinstance(itself, Refusal) or len(itself.points) >= minimum else self._laid(pattern, minimum)

    def _laid(self, pattern: Pattern, minimum: int) -> Layout | Refusal:
        key = pattern.spacings, minimum
        if key not in self.laid:
            self.laid[key] = self.method.lay(self.job, self.field, pattern, minimum)
        return self.laid[key]

    def count(self, spacing: float) -> int:
        """Points of an even pattern once it is filled up to the count rule; none where it cannot be laid."""
        even = self.even(spacing)
        return 0 if isinstance(even, Refusal) else max(len(even.points), self.field.minimum_points)

    def attempt(self, layout: Layout) -> Attempt:
        """Bill, trace and check a layout; the same pattern is not followed twice."""
        key = (*layout.pattern.spacings, len(layout.points))
        if key not in self.tried:
            self.tell(f"{self.method.title(self.job)}: {self.method.says(layout, self.job)}, {len(layout.points)} attachments")
            bill = take_off(self.job, self.field, self.method, layout)
            follow = partial(trace, self.job, self.field, self.loads, self.roof, layout, bill)
            demands = follow()
            checks = tuple(check(self.job, self.field, layout, demands) for check in LINKS)
            self.tried[key] = Attempt(layout, bill, checks, (lambda: demands) if self.keeps else follow)
        return self.tried[key]
