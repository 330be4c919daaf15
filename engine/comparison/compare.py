"""All methods side by side on one job: the object that screens, tables and files are made from."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from engine.common.progress import ProgressListener, no_listener, part_of
from engine.comparison.flags import Flag, flags_between, flags_of
from engine.design.acceptance import UncheckedLinks
from engine.design.design import Design, Refused, prepare
from engine.design.elsewhere import same_layout_at
from engine.design.placed import placed_design
from engine.design.placeholders import placeholder_strengths
from engine.design.repriced import priced_anew, same_but_for_prices
from engine.design.shared_roof import SharedRoof
from engine.design.status import Status, Verdict
from engine.design.trial import Candidate
from engine.links import Check
from engine.mounting.interface import Refusal
from engine.scenario.changes import Changes
from engine.scenario.read import Scenario
from engine.units import ordered

CAUTIONS = (
    "Preliminary. A licensed engineer and the local code decide.",
    "Coefficients were transcribed from public sources, not read from the printed standards: "
    "check them against the adopted code.",
    "Fall protection and electrical rules apply.",
)


@dataclass(frozen=True, eq=False)
class Column:
    """One method of a comparison; its figures are read from `design` by `engine.comparison.figures`.

    `design` is None where the method was refused.
    """

    id: str
    title: str
    status: Status
    flags: tuple[Flag, ...]
    design: Design | None = None

    @property
    def within_tolerance(self) -> Verdict | None:
        """The worst verdict with the array set out inaccurately; None where that was not tried."""
        return self.design.within_tolerance if self.design else None

    @property
    def holds_within_tolerance(self) -> bool:
        """True if nothing is over, nor would be if the array were set out inaccurately."""
        within = self.within_tolerance
        return self.status.nothing_over and (within is None or within.status.nothing_over)

    @property
    def holds_only_exactly(self) -> bool:
        """True if nothing is over, but would be if the array were set out inaccurately."""
        return self.status.nothing_over and not self.holds_within_tolerance

    @property
    def rank(self) -> tuple[int, bool]:
        """The smaller, the better the verdict."""
        return self.status.rank, not self.holds_within_tolerance

    @property
    def candidate(self) -> Candidate | None:
        """The layout with its checks; None where nothing was checked."""
        return self.design.candidate if self.design else None

    @property
    def checks(self) -> Mapping[str, Check]:
        """Key of a link → its check, from module to structure; empty where nothing was checked."""
        return self.candidate.checks if self.candidate else {}

    @property
    def unchecked(self) -> UncheckedLinks:
        """The links that are not checked: still open, or shown by others."""
        return self.design.unchecked if self.design else UncheckedLinks()

    @property
    def placeholders(self) -> tuple[tuple[str, str], ...]:
        """Path and name of each placeholder strength that the checks rest on."""
        if self.design is None or self.candidate is None:
            return ()
        return tuple(placeholder_strengths(self.design.job, self.design.layout.member))

    @property
    def total_cost(self) -> float | None:
        """Hardware and labour [currency]; None where the method was refused."""
        return self.design.total_cost if self.design else None

    @property
    def controlling(self) -> Check | None:
        """The check with the largest utilisation; None where nothing was checked."""
        return self.candidate.controlling if self.candidate else None

    @property
    def roof_alone(self) -> Check | None:
        """The check of the roof without the array; None where nothing was checked."""
        return self.design.roof_alone if self.design else None

    @property
    def decisive(self) -> Check | None:
        """The check that the verdict rests on: the controlling one, or that of the roof alone if it is over by more."""
        return self.design.decisive if self.design else None


@dataclass(frozen=True, eq=False)
class AlternativeComparison:
    """An alternative of a scenario: its name, the inputs that differ, and its comparison."""

    name: str
    changes: Changes
    comparison: Comparison


@dataclass(frozen=True, eq=False)
class Comparison:
    """One column a method, and what they have in common.

    `site` lists the headline loads: name, SI value, dimension. `unproven`: why nobody stands behind the wind on the
    modules of a method; empty where somebody does. `alternatives` are there once `with_alternatives` has added them.
    """

    scenario: Scenario
    columns: tuple[Column, ...]
    site: tuple[tuple[str, float, str], ...]
    cautions: tuple[str, ...] = CAUTIONS
    unproven: str = ""
    alternatives: tuple[AlternativeComparison, ...] = ()

    @property
    def title(self) -> str:
        """The title of the job, and of the slope where there are several."""
        return self.scenario.title

    def scenario_of(self, column: Column) -> Scenario:
        """The scenario with ribs and supports at the places that a column's design shows."""
        return replace(self.scenario, job=column.design.job) if column.design else self.scenario

    def column(self, method: str) -> Column | None:
        """A method's column, by its id."""
        return next((column for column in self.columns if column.id == method), None)


def compare(scenario: Scenario, only: tuple[str, ...] = (), tell: ProgressListener = no_listener) -> Comparison:
    """Lay out and check the array with every method, or with the methods named by id."""
    shared, job, methods = SharedRoof(), scenario.job, scenario.methods_named(only)
    found = [
        placed_design(job, method, scenario.standard, part_of(tell, number, len(methods)), shared)
        for number, method in enumerate(methods, 1)
    ]
    return _of_columns(scenario, found)


def compare_as_before(scenario: Scenario, before: Comparison) -> Comparison | None:
    """The comparison with the layouts of an earlier one, checked on other inputs but not searched anew.

    Span limits and tolerance are left out. None where a layout cannot be built again, was refused or lies at the worst
    of several places, or where options of methods differ.
    """
    roof, shared = scenario.job.roof, SharedRoof()
    if scenario.methods != before.scenario.methods or not (roof.ribs_surveyed and roof.supports_surveyed):
        return None

    def checked_again(known: Design) -> Design | None:
        again = same_layout_at(scenario.job, known, scenario.standard, shared)
        return replace(again, limits=None) if again else None

    return _of_known_designs(scenario, before, checked_again)


def compare_priced_anew(scenario: Scenario, before: Comparison) -> Comparison | None:
    """The comparison with the designs of an earlier one at other prices; None where more than prices differs."""
    if not same_but_for_prices(scenario.written, before.scenario.written):
        return None
    return _of_known_designs(scenario, before, lambda known: priced_anew(known, scenario.job))


def _of_known_designs(
    scenario: Scenario, before: Comparison, again: Callable[[Design], Design | None]
) -> Comparison | None:
    """The comparison with each design of an earlier one made `again`; None where one cannot be.

    A method of which nothing can be checked is prepared as ever; where a search refused it, it cannot be made again.
    """
    designs = list[Design | Refused]()
    for column in before.columns:
        found: Design | Refused | None
        if column.design and column.design.candidate:
            found = again(column.design)
        else:
            (method,) = scenario.methods_named((column.id,))
            prepared = prepare(scenario.job, method, scenario.standard)
            found = prepared if isinstance(prepared, Design | Refused) else None
        if found is None:
            return None
        designs.append(found)
    return _of_columns(scenario, designs)


def _of_columns(scenario: Scenario, found: Sequence[Design | Refused]) -> Comparison:
    """The comparison of one design, or refusal, of each method."""
    columns = tuple(_in_units_of(scenario, column) for column in _with_common_flags(map(column_of, found)))
    unproven = next((each.loads.unproven for each in found if isinstance(each, Design) and each.loads.unproven), "")
    site = scenario.standard.summary(scenario.job)
    return Comparison(scenario, columns, site, _cautions(unproven), unproven)


def _in_units_of(scenario: Scenario, column: Column) -> Column:
    """The column with its flags in the units of the standard first."""
    system = scenario.standard.system
    return replace(column, flags=tuple(replace(flag, text=ordered(flag.text, system)) for flag in column.flags))


def cautions_of(scenario: Scenario, only: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Cautions of an output about a scenario, or some of its methods, of which there is no comparison."""
    job, standard = scenario.job, scenario.standard
    methods = (method for method in scenario.methods_named(only) if not method.refusal_of_roof(job))
    fields = (method.place_modules(job) for method in methods)
    unproven = (standard.loads(job, field).unproven for field in fields if not isinstance(field, Refusal))
    return _cautions(next(filter(None, unproven), ""))


def _cautions(unproven: str) -> tuple[str, ...]:
    return (f"Wind on modules: {unproven}.", *CAUTIONS) if unproven else CAUTIONS


def standard_line(scenario: Scenario) -> str:
    """The load standard and its design basis, in one line."""
    return f"{scenario.standard.title}, {scenario.standard.basis}"


def column_of(answer: Design | Refused) -> Column:
    """One method's column, without the flags that compare it with the others."""
    if isinstance(answer, Refused):
        flag = Flag(answer.refusal.code, "warning", answer.refusal.reason)
        return Column(answer.method.id, answer.title, Status.REFUSED, (flag,))
    return Column(answer.method.id, answer.title, answer.status, flags_of(answer), answer)


def _with_common_flags(alone: Iterable[Column]) -> tuple[Column, ...]:
    """The columns, with the flags that compare them."""
    columns = tuple(alone)
    found = flags_between([column.design for column in columns if column.design])
    return tuple(
        replace(column, flags=(*column.flags, *(flag for design, flag in found if design is column.design)))
        for column in columns
    )
