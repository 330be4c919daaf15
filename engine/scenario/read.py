"""Reading of a scenario: from the tables of its file to a job, its methods and its load standard."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from engine.common.errors import InputError, Problem
from engine.loads.interface import LoadStandard
from engine.mounting.interface import MountingMethod
from engine.project.array import Array
from engine.project.building import Building
from engine.project.hardware import Hardware
from engine.project.job import Job
from engine.project.module import Module
from engine.project.permit_documents import PermitDocuments
from engine.project.placement import Placement
from engine.project.roof import Roof
from engine.project.size_limits import too_large
from engine.project.wood_temperature import at_wood_temperature
from engine.scenario.accepted import acceptance_problems, accepted_in, accepted_table
from engine.scenario.alternatives import KEY, Alternative, alternative_problems, stated_alone
from engine.scenario.changes import Changes, laid_over
from engine.scenario.contradictions import contradictions
from engine.scenario.resolve import Resolved, resolved
from engine.scenario.shelf import FILES, USE, Shelf
from engine.scenario.validation import describe_unknown, top_level_problems, validated
from engine.schema import InputTable, TextLine, as_given, input_field, shortened

FORMAT = 1
TABLES: Mapping[str, type[InputTable]] = {
    "building": Building,
    "roof": Roof,
    "module": Module,
    "array": Array,
    "placement": Placement,
    "hardware": Hardware,
    "papers": PermitDocuments,
}
OPTIONAL = ("placement", "hardware", "papers", "accepted")
TOP_LEVEL = ("format", "title", "currency", USE, "site", *TABLES, "methods", "accepted", KEY)


@dataclass(frozen=True, eq=False)
class Scenario:
    """One array on one roof, its mounting methods and its load standard.

    `written` has the tables as in the file but for the alternatives, `shelves` those it uses, `resolved` the plain
    values of both.
    """

    job: Job
    methods: tuple[MountingMethod, ...]
    standard: LoadStandard
    written: Mapping[str, Any]
    shelves: tuple[Shelf, ...]
    resolved: Resolved
    alternatives: tuple[NamedScenario, ...] = ()

    def methods_named(self, only: Collection[str]) -> tuple[MountingMethod, ...]:
        """The methods with these ids; all of them if there are no ids."""
        return tuple(method for method in self.methods if not only or method.id in only)


@dataclass(frozen=True, eq=False)
class NamedScenario:
    """An alternative: its name, its changes, and the scenario with them."""

    name: str
    changes: Changes
    scenario: Scenario


def read_scenario(
    written: Mapping[str, Any],
    methods: Mapping[str, type[MountingMethod]],
    standards: Mapping[str, type[LoadStandard]],
    shelves: tuple[Shelf, ...] = (),
) -> Scenario:
    """The scenario of a file's tables.

    Args:
        written: the tables as a TOML parser gives them.
        methods: the known mounting methods by id.
        standards: the known load standards by title.
        shelves: the shelves that the file uses.

    Raises:
        InputError: with all problems of the file, each with its path.
    """
    plain = resolved_tables(written, shelves)
    file, problems = plain.tables, list(plain.problems)
    problems += top_level_problems(file, TOP_LEVEL, FORMAT)
    heading = _heading(file, problems)
    tables = {name: _table(name, model, plain, problems) for name, model in TABLES.items()}
    accepted = _table("accepted", accepted_table(), plain, problems)
    chosen = tuple(_methods(file, methods, problems))
    standard = _standard(file, standards, problems)
    if not problems and heading and standard and accepted:
        stated = accepted_in(accepted)
        job = at_wood_temperature(Job(heading.title, heading.currency, **tables, accepted=stated, words=standard.words))  # type: ignore[arg-type]
        problems += [*contradictions(job), *too_large(job), *standard.unsupported(job)]
        problems += [*acceptance_problems(stated, methods), *alternative_problems(heading.alternatives)]
    if problems or standard is None or heading is None:
        raise InputError(list(dict.fromkeys(map(plain.located, problems))))
    alone = stated_alone(written)

    def read(changes: Changes) -> Scenario:
        return read_scenario(laid_over(alone, changes), methods, standards, shelves)

    return Scenario(job, chosen, standard, alone, shelves, plain, _alternatives(heading.alternatives, read))


def _alternatives(stated: tuple[Alternative, ...], read: Callable[[Changes], Scenario]) -> tuple[NamedScenario, ...]:
    """The scenarios of the alternatives.

    Raises:
        InputError: everything that is wrong with them.
    """
    found, problems = [], []
    for number, each in enumerate(stated, 1):
        try:
            found.append(NamedScenario(each.name, each.set, read(each.set)))
        except InputError as wrong:
            problems += [Problem(f"{KEY}.{number}", f"'{each.name}': {problem}") for problem in wrong.problems]
    if problems:
        raise InputError(problems)
    return tuple(found)


def resolved_tables(written: Mapping[str, Any], shelves: tuple[Shelf, ...]) -> Resolved:
    """A file's tables as plain values: references to shelves looked up, sources taken off."""
    return resolved(written, TABLES, shelves)


def fields_of(
    methods: Mapping[str, type[MountingMethod]], standard: type[LoadStandard]
) -> Mapping[str, type[InputTable]]:
    """Model of every table of a scenario by its path ("" for the head of the file), in the order of the file."""
    options = {f"methods.{name}": method for name, method in methods.items() if issubclass(method, InputTable)}
    return {"": Heading, "site": standard.site_model(), **TABLES, **options, "accepted": accepted_table()}


class Heading(InputTable):
    """The keys above the tables."""

    title: Annotated[str, TextLine(12_000)] = input_field(description="title of the job")
    currency: Annotated[str, TextLine(12)] = input_field(
        "USD", description="currency of the prices and of the labour rate"
    )
    use: Annotated[tuple[str, ...], FILES] | None = input_field(
        None,
        description="a shelf, or a list of them: files of your own modules, roofs and hardware, beside this file, "
        "in your folder of parts, or bundled",
    )
    alternatives: tuple[Alternative, ...] = input_field(
        (),
        description="changes that are compared beside the scenario, each by its name: "
        '[{ name = "rail span", set = { "methods.rail.spacing" = "rail span" } }]',
    )


def _heading(written: Mapping[str, Any], problems: list[Problem]) -> Heading | None:
    above = {key: written[key] for key in Heading.model_fields if key in written}
    return validated("", Heading, above, problems)


def _table(name: str, model: type[InputTable], plain: Resolved, problems: list[Problem]) -> InputTable | None:
    table = plain.tables.get(name, {} if name in OPTIONAL else None)
    if table is None:
        problems.append(Problem(name, f"missing; the scenario needs a table [{name}]"))
        return None
    return validated(name, model, table, problems, partial=name in plain.unresolved)


def _methods(
    written: Mapping[str, Any], known: Mapping[str, type[MountingMethod]], problems: list[Problem]
) -> Iterator[MountingMethod]:
    """Every known method, with the options of the scenario."""
    tables = written.get("methods", {})
    if not isinstance(tables, Mapping):
        problems.append(Problem("methods", f"{as_given(tables)} given; write tables such as [methods.rail]"))
        return
    for name in tables:
        if name not in known:
            problems.append(Problem(f"methods.{shortened(name)}", describe_unknown(name, tuple(known))))
    for name, model in known.items():
        options = validated(f"methods.{name}", model, tables.get(name, {}), problems)  # type: ignore[type-var]
        if options is not None:
            yield options


def _standard(
    written: Mapping[str, Any], known: Mapping[str, type[LoadStandard]], problems: list[Problem]
) -> LoadStandard | None:
    site = written.get("site")
    if not isinstance(site, Mapping):
        problems.append(
            Problem("site", "missing; the scenario needs a table [site]" if site is None else "write a table [site]")
        )
        return None
    name = site.get("standard")
    if not isinstance(name, str) or name not in known:
        found = "missing" if name is None else f"{as_given(name)} given"
        allowed = " or ".join(f"'{title}'" for title in known)
        problems.append(Problem("site.standard", f"{found}; allowed is {allowed}"))
        return None
    model = known[name].site_model()
    described = validated("site", model, site, problems)
    return None if described is None else known[name](described)
