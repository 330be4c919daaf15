"""A trial of one layout, and everything that stays the same while layouts of one method are tried on one job."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from dataclasses import field as dataclass_field
from functools import cached_property, lru_cache, partial
from operator import attrgetter

from engine import links
from engine.bill.take_off import Bill, take_off
from engine.common.progress import ProgressListener, no_listener
from engine.design.shared_roof import SharedRoof
from engine.links import Check, Link
from engine.links.check import governing_of
from engine.load_path.demands import Demands
from engine.load_path.roof_loads import RoofLoads
from engine.load_path.run_response import Responses
from engine.loads.interface import Loads
from engine.mounting.interface import MountingMethod, Refusal
from engine.mounting.layout import Field, LaidLines, Layout, SpacingPattern
from engine.mounting.layouts import Layouts
from engine.project.job import Job


@dataclass(eq=False)
class Candidate:
    """One layout with its bill and the checks of its links, each computed on first use.

    `compute_demands` computes the loads on the links. Only `demands` keeps them: they are large arrays, which a search
    needs once. `checked` is the cache of the checks, by the keys of their links.
    """

    job: Job
    layout: Layout
    bill: Bill
    compute_demands: Callable[[], Demands]
    checked: dict[str, Check] = dataclass_field(default_factory=dict)

    @cached_property
    def demands(self) -> Demands:
        """Loads on every link, kept."""
        return self.compute_demands()

    def check(self, link: Link) -> Check:
        """Check of one link, computed once."""
        if link.key not in self.checked:
            self.checked[link.key] = link.check(self.compute_demands())
        return self.checked[link.key]

    @property
    def checks(self) -> Mapping[str, Check]:
        """Key of a link → its check, from module to structure."""
        return {link.key: self.check(link) for link in links.LINKS}

    @property
    def controlling(self) -> Check:
        """The check with the largest utilisation."""
        return max(self.checks.values(), key=lambda check: check.ratio)

    @property
    def utilisation_so_far(self) -> float:
        """Largest utilisation of the links checked so far [-]."""
        return max((check.ratio for check in self.checked.values()), default=0.0)

    @property
    def holds(self) -> bool:
        """True if every link that is checked holds."""
        return self.layout_holds and all(check.holds for check in self.checks.values())

    @cached_property
    def layout_holds(self) -> bool:
        """True if every link that another layout could relieve holds."""
        return not self.layout_over(1.0)

    def layout_over(self, utilisation: float) -> bool:
        """True if a link that another layout could relieve exceeds a utilisation."""
        return self._any_over(utilisation, [link for link in links.LINKS if link.depends_on_layout(self.job)])

    @property
    def member_check(self) -> Check:
        """The controlling check of the links that limit the member's span."""
        return governing_of([self.check(link) for link in links.LINKS if link.limits_member])

    @property
    def roof_check(self) -> Check:
        """The controlling check of the links that limit the attachment spacing for the roof's sake."""
        return governing_of([self.check(link) for link in links.LINKS if link.limits_roof(self.job)])

    def member_over(self, utilisation: float = 1.0) -> bool:
        """True if a link that limits the member's span exceeds a utilisation."""
        return self._any_over(utilisation, [link for link in links.LINKS if link.limits_member])

    def roof_over(self, utilisation: float = 1.0) -> bool:
        """True if a link that limits the attachment spacing for the roof's sake exceeds a utilisation."""
        return self._any_over(utilisation, [link for link in links.LINKS if link.limits_roof(self.job)])

    def _any_over(self, utilisation: float, of_links: Sequence[Link]) -> bool:
        """True if one of these links exceeds a utilisation; the checks stop at the first that does."""
        return any(self.check(link).ratio > utilisation for link in sorted(of_links, key=attrgetter("search_rank")))


@dataclass(eq=False)
class DesignContext:
    """One method on one job with its modules placed and its loads computed, ready to try layouts.

    `strips` is the pattern from which all others are made by changing the spacings of its strips. `keep_demands`: True
    if the loads on the links are kept for every layout instead of the last one only; a search does not need them.
    `one_layout`: True if but one layout is tried. `responses`: the loads of the modules on the lines of the layouts.
    `layout_cache` and `candidate_cache` hold what has been tried, by spacings and number of attachments.
    """

    job: Job
    method: MountingMethod
    field: Field
    loads: Loads
    roof: RoofLoads
    strips: SpacingPattern
    shared: SharedRoof
    responses: Responses
    tell: ProgressListener = no_listener
    keep_demands: bool = False
    one_layout: bool = False
    layout_cache: dict[tuple[tuple[float, ...], int], Layout | Refusal] = dataclass_field(default_factory=dict)
    candidate_cache: dict[tuple[float, ...], Candidate] = dataclass_field(default_factory=dict)

    def with_method(self, method: MountingMethod) -> DesignContext:
        """The same context for the same method with other options, and empty caches."""
        responses = Responses(self.job, self.field, self.loads)
        return replace(self, method=method, responses=responses, layout_cache={}, candidate_cache={})

    def uniform_layout(self, spacing: float, minimum: int = 0) -> Layout | Refusal:
        """Layout with one spacing everywhere and at least `minimum` attachments."""
        return self.lay_out(self.strips.with_uniform(spacing), minimum)

    def lay_out(self, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """Layout of a pattern, with single attachments added only if the pattern itself has fewer than `minimum`."""
        unchanged = self._cached_layout(pattern, 0)
        if isinstance(unchanged, Refusal) or len(unchanged.attachments) >= minimum:
            return unchanged
        return self._cached_layout(pattern, minimum)

    def runs(self, pattern: SpacingPattern) -> tuple[LaidLines, ...] | Refusal:
        """The lines of a pattern's layout, of which the same ones are the same objects, with at least the minimum."""
        runs = self._layouts.runs(pattern, enough=False)
        if isinstance(runs, Refusal) or sum(len(laid.attachments) for laid in runs) >= self.field.minimum_attachments:
            return runs
        return self._layouts.runs(pattern, enough=True)

    def _cached_layout(self, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """Layout of a pattern by the method, computed once."""
        key = pattern.spacings, minimum
        if key not in self.layout_cache:
            self.layout_cache[key] = self._layouts.lay_out(pattern, minimum)
        return self.layout_cache[key]

    @cached_property
    def _layouts(self) -> Layouts:
        return Layouts(self.job, self.method, self.field, self.strips.strip, self.one_layout)

    def candidate(self, layout: Layout) -> Candidate:
        """Candidate of a layout with its bill; the same pattern is tried only once."""
        count = len(layout.attachments)
        key = (*layout.pattern.spacings, count)
        if key not in self.candidate_cache:
            spacing = self.method.spacing_label(layout, self.job)
            self.tell(f"{self.method.title(self.job)}: {spacing}, {count} attachments")
            bill = take_off(self.job, self.field, self.method, layout)
            self.candidate_cache[key] = Candidate(self.job, layout, bill, partial(self._demands_of, layout, bill))
        return self.candidate_cache[key]

    @cached_property
    def _demands_of(self) -> Callable[[Layout, Bill], Demands]:
        """Function that returns the loads of a layout on its links.

        It keeps the last result, because one link after another is checked on the same layout, or all results.
        """
        return lru_cache(None if self.keep_demands else 1)(
            partial(Demands, self.job, self.field, self.loads, self.roof, responses=self.responses)
        )
