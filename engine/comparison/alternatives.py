"""The alternatives of a scenario, compared and ranked with the scenario as stated.

Better verdicts come first. Among equals the lower price per watt decides, for an alternative may have other modules;
where prices are placeholders, the fewer attachments per watt. Methods that were refused come last.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from engine.common.progress import ProgressListener, no_listener, part_of
from engine.comparison.compare import AlternativeComparison, Column, Comparison, compare
from engine.design.placeholders import has_placeholder_prices
from engine.scenario.alternatives import AS_STATED

BASELINE, KEPT_BASELINE = "baseline", "kept baseline"
"""Names of an earlier comparison that stands beside the others, and of one that was written into the scenario."""


@dataclass(frozen=True, eq=False)
class RankedMethod:
    """A method of an alternative, and its place among all, from 1."""

    rank: int
    alternative: str
    column: Column


def with_alternatives(comparison: Comparison, tell: ProgressListener = no_listener) -> Comparison:
    """The comparison with its scenario's alternatives, each compared by the same methods."""
    methods, found = tuple(column.id for column in comparison.columns), []
    for number, each in enumerate(comparison.scenario.alternatives, 1):
        tell_part = part_of(tell, number, len(comparison.scenario.alternatives))
        tell_part(each.name)
        found.append(AlternativeComparison(each.name, each.changes, compare(each.scenario, methods, tell_part)))
    return replace(comparison, alternatives=tuple(found))


def beside(comparison: Comparison, name: str, other: Comparison) -> Comparison:
    """The comparison with another one, such as a saved baseline, as one more alternative."""
    return replace(comparison, alternatives=(*comparison.alternatives, AlternativeComparison(name, {}, other)))


def ranked(comparison: Comparison) -> tuple[RankedMethod, ...]:
    """Every method of the scenario as stated and of each alternative, the best first; equals stay in their order."""
    stated = [(AS_STATED, column) for column in comparison.columns]
    others = [(each.name, column) for each in comparison.alternatives for column in each.comparison.columns]
    columns = [*stated, *others]
    by_price = prices_are_stated(comparison)
    columns.sort(key=lambda each: (*each[1].rank, _per_watt(each[1], by_price=by_price)))
    return tuple(RankedMethod(rank, name, column) for rank, (name, column) in enumerate(columns, 1))


def ranking_rule(comparison: Comparison) -> str:
    """The rule of the rank, in words."""
    by = "price per watt" if prices_are_stated(comparison) else "attachments per watt, for prices are placeholders"
    return f"ranked by verdict, then by {by}"


def prices_are_stated(comparison: Comparison) -> bool:
    """True if no price, of the scenario or of an alternative, is a placeholder."""
    every = [comparison, *(each.comparison for each in comparison.alternatives)]
    designs = [column.design for each in every for column in each.columns if column.design]
    return not any(map(has_placeholder_prices, designs))


def _per_watt(column: Column, *, by_price: bool) -> float:
    """Measure that ranks equal verdicts: price or attachments per watt; infinite where the method was refused."""
    if column.design is None or column.total_cost is None:
        return math.inf
    counted = column.total_cost if by_price else len(column.design.layout.attachments)
    return counted / column.design.bill.power
