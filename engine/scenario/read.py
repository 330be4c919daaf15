"""Reading of a scenario: from the tables of its file to a job, its methods and its load standard."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
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
from engine.project.roof import Roof
from engine.project.size_limits import too_large
from engine.project.wood_temperature import at_wood_temperature
from engine.scenario import slopes
from engine.scenario.accepted import acceptance_problems, accepted_in, accepted_table
from engine.scenario.changes import names_in
from engine.scenario.contradictions import contradictions
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
}
ARRAY, ARRAYS = "array", "arrays"
"""Table of the one array, or list of tables of several, each with its name."""

MAX_ARRAYS = 50

OPTIONAL = ("placement", "hardware", "papers", "accepted")
TOP_LEVEL = ("format", "title", "currency", "site", *TABLES, "array", "arrays", "methods", "accepted")


@dataclass(frozen=True, eq=False)
class Scenario:
    """The arrays on one slope, their mounting methods and their load standard.

    `written` has the tables of the file; of a file with several `slopes` those of the one with the name `slope`.
    """

    job: Job
    methods: tuple[MountingMethod, ...]
    standard: LoadStandard
    written: Mapping[str, Any]
    slope: str = ""
    slopes: tuple[str, ...] = ()

    @property
    def title(self) -> str:
        """The job's title, with the name of the slope where there are several."""
        return f"{self.job.title}, slope {self.slope}" if self.slope else self.job.title

    def methods_named(self, only: Collection[str]) -> tuple[MountingMethod, ...]:
        """The methods with these ids; all of them if there are no ids."""
        return tuple(method for method in self.methods if not only or method.id in only)


def read_scenario(
    written: Mapping[str, Any],
    methods: Mapping[str, type[MountingMethod]],
    standards: Mapping[str, type[LoadStandard]],
    slope: str = "",
) -> Scenario:
    """The scenario of a file's tables.

    Args:
        written: the tables as a TOML parser gives them.
        methods: the known mounting methods by id.
        standards: the known load standards by title.
        slope: name of one slope of several; empty for the first.

    Raises:
        InputError: with all problems of the file, each with its path; or there is no such slope.
    """
    if slopes.SLOPES not in written:
        if slope:
            raise InputError([Problem("--slope", f"{as_given(slope)} given; the file has no [[slopes]]")])
        return _read(written, methods, standards)
    found = {each.slope: each for each in read_slopes(written, methods, standards)}
    if slope and slope not in found:
        allowed = listed([*map(as_given, found)], "or")
        raise InputError([Problem("--slope", f"{as_given(slope)} given; allowed is {allowed}")])
    return found[slope or next(iter(found))]


def read_slopes(
    written: Mapping[str, Any], methods: Mapping[str, type[MountingMethod]], standards: Mapping[str, type[LoadStandard]]
) -> tuple[Scenario, ...]:
    """The scenario of every slope of a file; the one scenario of a file without slopes.

    Raises:
        InputError: with all problems of the file, each once and with its path.
    """
    if slopes.SLOPES not in written:
        return (_read(written, methods, standards),)
    found, problems, names = list[Scenario](), list(slopes.slope_problems(written)), slopes.slope_names(written)
    if problems:
        raise InputError(problems)
    for name in names:
        try:
            of_slope = _read(slopes.tables_of_slope(written, name), methods, standards)
            found.append(replace(of_slope, slope=name, slopes=names))
        except InputError as wrong:
            problems += [slopes.located(written, name, problem) for problem in wrong.problems]
    if problems:
        raise InputError(list(dict.fromkeys(problems)))
    return tuple(found)


def _read(
    written: Mapping[str, Any], methods: Mapping[str, type[MountingMethod]], standards: Mapping[str, type[LoadStandard]]
) -> Scenario:
    """The scenario of the tables of one slope."""
    problems = list(top_level_problems(written, TOP_LEVEL, FORMAT))
    heading = _heading(written, problems)
    tables = {name: _table(name, model, written, problems) for name, model in TABLES.items()}
    arrays = tuple(_arrays(written, problems))
    accepted = _table("accepted", accepted_table(), written, problems)
    chosen = tuple(_methods(written, methods, problems))
    standard = _standard(written, standards, problems)
    if not problems and heading and standard and accepted:
        stated = accepted_in(accepted)
        read = {**tables, "arrays": arrays, "accepted": stated, "words": standard.words}
        job = at_wood_temperature(Job(heading.title, heading.currency, **read))  # type: ignore[arg-type]
        problems += [*contradictions(job), *too_large(job), *standard.unsupported(job)]
        problems += acceptance_problems(stated, methods)
    if problems or standard is None or heading is None:
        raise InputError(problems)
    return Scenario(job, chosen, standard, written)


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


def _heading(written: Mapping[str, Any], problems: list[Problem]) -> Heading | None:
    above = {key: written[key] for key in Heading.model_fields if key in written}
    return validated("", Heading, above, problems)


def _table(name: str, model: type[Table], written: Mapping[str, Any], problems: list[Problem]) -> Table | None:
    table = written.get(name, {} if name in OPTIONAL else None)
    if table is None:
        problems.append(Problem(name, f"missing; the scenario needs a table [{name}]"))
        return None
    return validated(name, model, table, problems)


def _arrays(written: Mapping[str, Any], problems: list[Problem]) -> Iterator[Array]:
    """The array, or the several arrays."""
    several = written.get(ARRAYS)
    if several is None:
        table = _table(ARRAY, Array, written, problems)
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
