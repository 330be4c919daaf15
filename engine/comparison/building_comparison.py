"""All slopes of a building side by side, their totals by method, and the best method of each slope.

Slopes are designed one by one: no seam, clip or panel goes over a ridge. Totals are sums of what is counted and billed,
and the worst of the verdicts.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from engine.common.progress import ProgressListener, no_listener
from engine.common.sentences import listed
from engine.comparison.alternatives import with_alternatives
from engine.comparison.answer import choose
from engine.comparison.compare import Column, Comparison, compare
from engine.comparison.figures import value_of
from engine.design.placeholders import has_placeholder_prices
from engine.design.status import Status
from engine.scenario.alternatives import AS_STATED
from engine.scenario.read import Scenario

SUMMED = (
    "modules",
    "power_w",
    "attachments",
    "attachments_minimum",
    "penetrations",
    "mass_kg",
    "hardware_cost",
    "labour_hours",
    "total_cost",
)
"""Figures whose total is the sum of the slopes."""


@dataclass(frozen=True, eq=False)
class Total:
    """One way to hold the arrays of all slopes: a title, and the method's column of each slope, in their order."""

    title: str
    columns: tuple[Column, ...]
    slopes: tuple[str, ...]

    def total(self, key: str) -> float | None:
        """Sum of a figure of `SUMMED` over all slopes; None where a slope has none."""
        values = [value_of(column, key) for column in self.columns]
        numbers = [value for value in values if isinstance(value, int | float)]
        return sum(numbers) if len(numbers) == len(values) else None

    @property
    def status(self) -> Status:
        """The worst verdict of all slopes."""
        return max((column.status for column in self.columns), key=lambda status: status.rank)

    @property
    def rank(self) -> tuple[int, ...]:
        """The worst rank of all slopes, the smallest first."""
        return max(tuple(column.rank) for column in self.columns)

    def per_watt(self, *, by_price: bool) -> float:
        """Measure that ranks equal verdicts: price or attachments per watt; infinite where the method was refused."""
        counted, power = self.total("total_cost" if by_price else "attachments"), self.total("power_w")
        return math.inf if counted is None or not power else counted / power

    @property
    def holds_within_tolerance(self) -> bool:
        """True if nothing is over on any slope, nor would be if an array were set out inaccurately."""
        return all(column.holds_within_tolerance for column in self.columns)

    @property
    def decisive(self) -> tuple[str, Column] | None:
        """The slope with the largest utilisation, and its column; None where a slope is not checked."""
        pairs = list(zip(self.slopes, self.columns, strict=True))
        if not all(column.decisive for _, column in pairs):
            return None
        return max(pairs, key=lambda pair: pair[1].decisive.ratio if pair[1].decisive else 0.0)

    @property
    def prices_are_stated(self) -> bool:
        """True if no price of any slope is a placeholder."""
        return all(column.design and not has_placeholder_prices(column.design) for column in self.columns)


@dataclass(frozen=True, eq=False)
class RankedTotal:
    """A way to hold the arrays of all slopes, as stated or with an alternative, and its place among all, from 1."""

    rank: int
    alternative: str
    total: Total


@dataclass(frozen=True, eq=False)
class BuildingComparison:
    """The comparison of every slope of a building, in the order of the file."""

    slopes: tuple[Comparison, ...]

    @property
    def title(self) -> str:
        """The job's title."""
        return self.slopes[0].scenario.job.title

    @property
    def currency(self) -> str:
        """The currency of the prices."""
        return self.slopes[0].scenario.job.currency

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the slopes."""
        return tuple(comparison.scenario.slope for comparison in self.slopes)

    @property
    def cautions(self) -> tuple[str, ...]:
        """The cautions of all slopes, each once."""
        return tuple(dict.fromkeys(text for comparison in self.slopes for text in comparison.cautions))

    @cached_property
    def totals(self) -> tuple[Total, ...]:
        """The totals of each method."""
        by_method = zip(*(comparison.columns for comparison in self.slopes), strict=True)
        return tuple(Total(columns[0].title, columns, self.names) for columns in by_method)

    @cached_property
    def best_mix(self) -> Total | None:
        """The best method of each slope; of several that are equal the first. None where a slope has none."""
        choices = [choose(comparison.columns) for comparison in self.slopes]
        chosen = tuple(choice.first[0] for choice in choices if choice)
        return Total("best of each slope", chosen, self.names) if len(chosen) == len(choices) else None

    @property
    def ways_to_hold(self) -> tuple[Total, ...]:
        """The totals of each method, and the best mix where it is none of them."""
        mix = self.best_mix
        is_mixed = mix is not None and len({column.id for column in mix.columns}) > 1
        return (*self.totals, mix) if mix and is_mixed else self.totals

    @cached_property
    def ranking(self) -> tuple[RankedTotal, ...]:
        """Every way to hold the arrays as stated and with each alternative, ranked as those of a slope are."""
        stated = [(AS_STATED, total) for total in self.ways_to_hold]
        others = [(each.name, total) for each in self.slopes[0].alternatives for total in self._with(each.name)]
        by_price = all(total.prices_are_stated for _, total in (*stated, *others))
        ordered = sorted((*stated, *others), key=lambda pair: (pair[1].rank, pair[1].per_watt(by_price=by_price)))
        return tuple(RankedTotal(rank, name, total) for rank, (name, total) in enumerate(ordered, 1))

    def _with(self, alternative: str) -> tuple[Total, ...]:
        """The ways to hold the arrays with an alternative; none where a slope lacks it."""
        found = [each.comparison for slope in self.slopes for each in slope.alternatives if each.name == alternative]
        return BuildingComparison(tuple(found)).ways_to_hold if len(found) == len(self.slopes) else ()

    @property
    def answer(self) -> str:
        """The best mix in one sentence."""
        mix = self.best_mix
        if mix is None:
            return "No answer for the whole building: on one slope no method can be checked."
        by_slope = list(zip(self.names, mix.columns, strict=True))
        over = [name for name, column in by_slope if not column.status.nothing_over]
        if over:
            return f"No method holds on slope {listed(over, 'and')}."
        same = len({column.id for column in mix.columns}) == 1
        used = _on_all(mix) if same else listed([f"{column.title} on slope {name}" for name, column in by_slope], "and")
        count = f"{mix.total('attachments'):,.0f} attachments"
        if not mix.prices_are_stated:
            return f"Fewest attachments: {used}, {count}. No clear winner on price: prices are placeholders."
        return f"Use {used}: {count}, {mix.total('total_cost'):,.0f} {self.currency}."


def _on_all(mix: Total) -> str:
    return f"{mix.columns[0].title} on {'both' if len(mix.columns) == 2 else 'all'} slopes"


def compare_slopes(
    slopes: Sequence[Scenario], only: tuple[str, ...] = (), tell: ProgressListener = no_listener
) -> BuildingComparison:
    """Lay out and check the arrays of every slope with every method, or with the methods named by id."""
    return BuildingComparison(tuple(compare(scenario, only, tell) for scenario in slopes))


Compared = Comparison | BuildingComparison
"""The comparison of one slope, or of a building of several."""


def compare_file(
    slopes: Sequence[Scenario], only: tuple[str, ...] = (), tell: ProgressListener = no_listener
) -> Compared:
    """The comparison of a file with its alternatives: of its one slope, or of all slopes of its building."""
    if len(slopes) == 1:
        return with_alternatives(compare(slopes[0], only, tell), tell)
    building = compare_slopes(slopes, only, tell)
    return replace(building, slopes=tuple(with_alternatives(each, tell) for each in building.slopes))
