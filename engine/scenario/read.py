"""Reading of a scenario: from the tables of its file to a job, its methods and its load standard."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Annotated, Any

from engine.common.errors import InputError, Problem
from engine.common.sentences import listed
from engine.loads.interface import LoadStandard
from engine.mounting.interface import MountingMethod
from engine.project.array import Array, NamedArray
from engine.project.building import Building
from engine.project.hardware import Hardware
from engine.project.job import Job
from engine.project.module import Module
from engine.project.permit_documents import PermitDocuments
from engine.project.placement import Placement
from engine.project.report_heading import ReportHeading
from engine.project.roof import Roof
from engine.project.size_limits import too_large
from engine.project.wood_temperature import at_wood_temperature
from engine.scenario import slopes
from engine.scenario.accepted import acceptance_problems, accepted_in, accepted_table
from engine.scenario.alternatives import Alternative, alternatives_in, problem_of, stated_alone
from engine.scenario.changes import Changes, laid_over, names_in
from engine.scenario.contradictions import contradictions
from engine.scenario.resolve import Origins, Resolved, resolved
from engine.scenario.shelf import FILES, Shelf
from engine.scenario.validation import Table, describe_unknown, top_level_problems, validated
from engine.schema import InputTable, TextLine, as_given, input_field, shortened

FORMAT = 1
TABLES: Mapping[str, type[InputTable]] = {
    "building": Building,
    "roof": Roof,
    "module": Module,
    "placement": Placement,
    "hardware": Hardware,
    "papers": PermitDocuments,
    "report": ReportHeading,
}
ARRAY, ARRAYS = "array", "arrays"
"""Table of the one array, or list of tables of several, each with its name."""

MAX_ARRAYS = 50

OPTIONAL = ("placement", "hardware", "papers", "report", "accepted")
TOP_LEVEL = ("format", "title", "currency", "site", *TABLES, "array", "arrays", "methods", "accepted")
"""Keys of the tables as plain values."""


@dataclass(frozen=True, eq=False)
class Scenario:
    """The arrays on one slope, their mounting methods and their load standard.

    `written` has the tables of the file as plain values, those of shelves among them, with their `origins`; of a file
    with several `slopes` those of the one with the name `slope`.
    """

    job: Job
    methods: tuple[MountingMethod, ...]
    standard: LoadStandard
    written: Mapping[str, Any]
    slope: str = ""
    slopes: tuple[str, ...] = ()
    origins: Origins = field(default_factory=Origins)
    alternatives: tuple[NamedScenario, ...] = ()

    @property
    def title(self) -> str:
        """The job's title, with the name of the slope where there are several."""
        return f"{self.job.title}, slope {self.slope}" if self.slope else self.job.title

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
    slope: str = "",
    shelves: tuple[Shelf, ...] = (),
) -> Scenario:
    """The scenario of a file's tables.

    Args:
        written: the tables as a TOML parser gives them.
        methods: the known mounting methods by id.
        standards: the known load standards by title.
        slope: name of one slope of several; empty for the first.
        shelves: the shelves that the file uses.

    Raises:
        InputError: with all problems of the file, each with its path; or there is no such slope.
    """
    if slope and slopes.SLOPES not in written:
        raise InputError([Problem("--slope", f"{as_given(slope)} given; the file has no [[slopes]]")])
    found = {each.slope: each for each in read_slopes(written, methods, standards, shelves)}
    if slope and slope not in found:
        allowed = listed([*map(as_given, found)], "or")
        raise InputError([Problem("--slope", f"{as_given(slope)} given; allowed is {allowed}")])
    return found[slope or next(iter(found))]


def read_slopes(
    written: Mapping[str, Any],
    methods: Mapping[str, type[MountingMethod]],
    standards: Mapping[str, type[LoadStandard]],
    shelves: tuple[Shelf, ...] = (),
) -> tuple[Scenario, ...]:
    """The scenario of every slope of a file; the one scenario of a file without slopes.

    Raises:
        InputError: with all problems of the file, each once and with its path.
    """
    file = resolved_tables(written, shelves)
    problems = [*file.problems, *(slopes.slope_problems(file.tables) if slopes.SLOPES in file.tables else ())]
    found, names = list[Scenario](), slopes.slope_names(file.tables)
    for name in () if problems and slopes.SLOPES in file.tables else names or ("",):
        try:
            of_slope = _read(file.of_slope(name), methods, standards)
            found.append(replace(of_slope, slope=name, slopes=names))
        except InputError as wrong:
            problems += [slopes.located(file.tables, name, problem) for problem in wrong.problems]
    stated = alternatives_in(written, problems)
    if problems:
        raise InputError(list(dict.fromkeys(map(file.origins.located, problems))))
    alone = stated_alone(written)
    return _with_alternatives(
        found, stated, lambda changes: read_slopes(laid_over(alone, changes), methods, standards, shelves)
    )


def _with_alternatives(
    found: Sequence[Scenario], stated: Sequence[Alternative], read: Callable[[Changes], tuple[Scenario, ...]]
) -> tuple[Scenario, ...]:
    """The scenarios of the slopes, each with its alternatives.

    Raises:
        InputError: everything that is wrong with the alternatives.
    """
    by_slope: dict[str, list[NamedScenario]] = {each.slope: [] for each in found}
    problems: list[Problem] = []
    for each in stated:
        try:
            for scenario in read(each.set):
                by_slope.setdefault(scenario.slope, []).append(NamedScenario(each.name, each.set, scenario))
        except InputError as wrong:
            problems += [problem_of(each, problem) for problem in wrong.problems]
    if problems:
        raise InputError(problems)
    return tuple(replace(each, alternatives=tuple(by_slope[each.slope])) for each in found)


def resolved_tables(written: Mapping[str, Any], shelves: tuple[Shelf, ...]) -> Resolved:
    """A file's tables as plain values: references to shelves looked up, sources taken off."""
    return resolved(written, TABLES, shelves)


def _read(
    file: Resolved, methods: Mapping[str, type[MountingMethod]], standards: Mapping[str, type[LoadStandard]]
) -> Scenario:
    """The scenario of the tables of one slope."""
    written = file.tables
    problems = list(top_level_problems(written, TOP_LEVEL, FORMAT))
    heading = _heading(written, problems)
    tables = {name: _table(name, model, file, problems) for name, model in TABLES.items()}
    arrays = tuple(_arrays(file, problems))
    accepted = _table("accepted", accepted_table(), file, problems)
    chosen = tuple(_methods(written, methods, problems))
    standard = _standard(written, standards, problems)
    if not problems and not file.unresolved and heading and standard and accepted:
        stated = accepted_in(accepted)
        read = {**tables, "arrays": arrays, "accepted": stated, "words": standard.words, "system": standard.system}
        job = at_wood_temperature(Job(heading.title, heading.currency, **read))  # type: ignore[arg-type]
        problems += [*contradictions(job), *too_large(job), *standard.unsupported(job)]
        problems += acceptance_problems(stated, methods)
    if problems or file.unresolved or standard is None or heading is None:
        raise InputError(problems)
    return Scenario(job, chosen, standard, written, origins=file.origins)


def fields_of(
    methods: Mapping[str, type[MountingMethod]],
    standard: type[LoadStandard],
    written: Mapping[str, Any] = MappingProxyType({}),
) -> Mapping[str, type[InputTable]]:
    """Model of every table of a scenario by its path ("" for the head of the file), in the order of the file.

    `written`: the tables of the file, which name its arrays and slopes; without them there is one array.
    """
    options = {f"methods.{name}": method for name, method in methods.items() if issubclass(method, InputTable)}
    arrays: dict[str, type[Array]] = {f"{ARRAYS}.{name}": NamedArray for name in names_in(written.get(ARRAYS))}
    of_slopes: dict[str, type[InputTable]] = {}
    for name in slopes.slope_names(written):
        of_slopes[f"{slopes.SLOPES}.{name}"] = slopes.SlopeName
        of_slopes |= {f"{slopes.SLOPES}.{name}.{key}": model for key, model in slopes.OWN.items()}
    on_roof = {name: TABLES[name] for name in ("building", "roof", "module")} | (arrays or {ARRAY: Array})
    others = {**TABLES, **options, "accepted": accepted_table()}
    return {"": Heading, "site": standard.site_model(), **on_roof, **of_slopes, **others}


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


def _table(name: str, model: type[Table], file: Resolved, problems: list[Problem]) -> Table | None:
    table = file.tables.get(name, {} if name in OPTIONAL else None)
    if table is None:
        problems.append(Problem(name, f"missing; the scenario needs a table [{name}]"))
        return None
    return validated(name, model, table, problems, partial=name in file.unresolved)


def _arrays(file: Resolved, problems: list[Problem]) -> Iterator[Array]:
    """The array, or the several arrays."""
    written = file.tables
    several = written.get(ARRAYS)
    if several is None:
        table = _table(ARRAY, Array, file, problems)
        yield from [table] if table else []
        return
    if ARRAY in written:
        problems.append(Problem(ARRAYS, "given beside [array]; write one [array], or every array as [[arrays]]"))
    if not isinstance(several, list | tuple) or not 0 < len(several) <= MAX_ARRAYS:
        found = f"{len(several)} arrays" if isinstance(several, list | tuple) else as_given(several)
        problems.append(Problem(ARRAYS, f"{found} given; write 1 to {MAX_ARRAYS} tables [[arrays]]"))
        return
    for number, table in enumerate(several, 1):
        (name,) = names_in([table]) or [str(number)]
        array = validated(f"{ARRAYS}.{shortened(name)}", NamedArray, table, problems)
        yield from [array] if array else []


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
