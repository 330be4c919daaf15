"""The answer in one line: which method to use, why not the others, and what is not checked.

Methods that hold come before incomplete ones, these before those that are over; what holds within the tolerance of
setting out comes before what does not. Among equals the lowest total cost decides; within 5 % of it, or where prices
are placeholders, the fewest attachments. Still equal: no clear winner.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from engine.common.sentences import capitalized, listed
from engine.comparison.compare import Column, Comparison
from engine.design.design import Design
from engine.design.placeholders import has_placeholder_prices
from engine.design.status import Status, is_close
from engine.links import Check
from engine.links.unchecked import in_words
from engine.units import System, both, text

SAME_COST = 0.05
"""Part of the lowest cost within which costs count as equal [-]: prices and hours are estimates."""


@dataclass(frozen=True, eq=False)
class Choice:
    """The methods of the best status, and of these the `first`: one to use, or several that are equal.

    `by_price`: cost counted; not where prices are placeholders.
    """

    best: tuple[Column, ...]
    first: tuple[Column, ...]
    by_price: bool

    @property
    def winner(self) -> Column | None:
        """The one to use; None where several are equal."""
        return self.first[0] if len(self.first) == 1 else None


def choose(columns: Sequence[Column]) -> Choice | None:
    """The choice among methods; None where nothing was checked."""
    checked = [column for column in columns if column.candidate]
    if not checked:
        return None
    rank = min(column.rank for column in checked)
    best = tuple(column for column in checked if column.rank == rank)
    by_price = not any(has_placeholder_prices(_design(column)) for column in best)
    lowest = min(_cost(column) for column in best)
    near = [column for column in best if not by_price or _cost(column) <= lowest * (1 + SAME_COST)]
    fewest = min(_attachments(column) for column in near)
    first = tuple(column for column in near if _attachments(column) == fewest)
    return Choice(best, first, by_price)


def answer_line(comparison: Comparison, system: System | None = None) -> str:
    """The answer in words, forces in one system of units or, without one, in both."""
    choice = choose(comparison.columns)
    if comparison.unproven:
        sentences = [f"No answer: wind on modules by {comparison.unproven}. State coefficients with their source"]
    elif choice is None:
        sentences = [f"No method can be checked here: {_why_not(comparison.columns)}"]
    elif choice.best[0].status == Status.OVER:
        least = min(choice.best, key=lambda column: _controlling(column).ratio)
        sentences = [f"No method holds here. Least over: {least.title}, {_over(least, system)}"]
        sentences += _others(comparison, [least], system)
    else:
        sentences = [*_use(comparison, choice), *_others(comparison, choice.best, system)]
    return " ".join(f"{sentence}." for sentence in sentences)


def _use(comparison: Comparison, choice: Choice) -> Iterator[str]:
    """The method to use, or that there is no clear winner."""
    currency, winner = comparison.scenario.job.currency, choice.winner
    if choice.best[0].status == Status.STRENGTH_UNKNOWN:
        yield f"The strength of the {comparison.scenario.job.roof.fastening_word} is unknown"
    agree = _who_must_agree(choice.first)
    if winner is None:
        equal = "; ".join(_facts(column, currency) for column in choice.first)
        yield f"No clear winner{f' {agree}' if agree else ''}: {equal}"
    elif len(choice.best) == 1:
        yield f"{capitalized(agree)}: {_facts(winner, currency)}" if agree else f"Use {_facts(winner, currency)}"
    elif choice.by_price and winner is min(choice.best, key=_cost):
        lead = f"Cheapest {agree}:" if agree else "Use"
        yield f"{lead} {_facts(winner, currency)}{_saved(choice.best, winner)}"
    else:
        within = f" within {SAME_COST:.0%} of the lowest cost" if choice.by_price else ""
        lead = f"Fewest attachments{within}{f' {agree}' if agree else ''}"
        yield f"{lead}: {_facts(winner, currency, unit='')}"
        if not choice.by_price:
            yield "No clear winner on price: prices are placeholders"


def _saved(best: Sequence[Column], winner: Column) -> str:
    """Saving of the winner against the next method: ", 5,389 less than rails"."""
    next_best = min((column for column in best if column is not winner), key=_cost)
    saved = _cost(next_best) - _cost(winner)
    return f", {saved:,.0f} less than {next_best.title}" if saved > 0 else ""


def _facts(column: Column, currency: str, unit: str = " attachments") -> str:
    """Title, attachments, controlling component and cost: "rails, 320 attachments, clip 0.97 (close), 10,031 USD"."""
    check, design = _controlling(column), _design(column)
    close = " (close)" if is_close(check.ratio) else ""
    cost = f", {_cost(column):,.0f} {currency}" if not has_placeholder_prices(design) else ""
    return f"{column.title}, {_attachments(column)}{unit}, {check.title} {check.ratio:.2f}{close}{cost}"


def _who_must_agree(columns: Sequence[Column]) -> str:
    """Who has to show what is not checked: "if the module maker agrees"; empty where all is checked."""
    owners = [entry.owner for column in columns for _, entry in in_words(column.unchecked.still_open)]
    names = list(dict.fromkeys(owners))
    if not names:
        return ""
    return f"if {listed([f'the {name}' for name in names], 'and')} agree{'s' if len(names) == 1 else ''}"


def _others(comparison: Comparison, shown: Sequence[Column], system: System | None) -> Iterator[str]:
    """The methods that are not the answer, by status, each with its reason."""
    others = [column for column in comparison.columns if column not in shown]
    over = [f"{column.title}, {_over(column, system)}" for column in others if column.status == Status.OVER]
    exact = [column.title for column in others if column.holds_only_exactly]
    open_ = [column.title for column in others if column.status == Status.INCOMPLETE]
    if over:
        yield f"Over here: {'; '.join(over)}"
    if exact:
        yield f"Over if set out inaccurately: {listed(exact, 'and')}"
    if open_:
        yield f"Not fully checked: {listed(open_, 'and')}"
    for status in (Status.OUTSIDE_SCOPE, Status.REFUSED):
        titles = [column.title for column in others if column.status == status]
        if titles:
            yield f"{capitalized(status.value)}: {listed(titles, 'and')}"


def _over(column: Column, system: System | None) -> str:
    """The check that is over: "clip 356 of 350 lb", or its utilisation where several loads act together."""
    check = _controlling(column)
    if check.demand is None or check.resistance is None:
        return f"{check.title} {check.ratio:.2f}"
    if system is None:
        first = column.design.job.system if column.design else "us"
        demand, resistance = (both(each, check.dimension, first) for each in (check.demand, check.resistance))
        return f"{check.title} {demand} of {resistance}"
    demand = text(check.demand, check.dimension, system, with_unit=False)
    return f"{check.title} {demand} of {text(check.resistance, check.dimension, system)}"


def _why_not(columns: Sequence[Column]) -> str:
    return "; ".join(f"{column.title} {column.status.value}" for column in columns)


def _controlling(column: Column) -> Check:
    assert column.decisive is not None
    return column.decisive


def _design(column: Column) -> Design:
    assert column.design is not None
    return column.design


def _attachments(column: Column) -> int:
    return len(_design(column).layout.attachments)


def _cost(column: Column) -> float:
    return _design(column).total_cost
