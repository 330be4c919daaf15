"""From a scenario file's tables to a job, its methods and its load standard; every problem at once."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from engine.common.errors import InputError, Problem
from engine.loads.interface import LoadStandard
from engine.mounting.interface import MountingMethod
from engine.project.array import Array, Module
from engine.project.building import Building
from engine.project.hardware import Hardware
from engine.project.job import Job
from engine.project.permit_documents import PermitDocuments
from engine.project.roof import Roof
from engine.project.size_limits import too_large
from engine.scenario.validation import describe_unknown, top_level_problems, validated
from engine.schema import InputTable, TextLine, as_given, input_field
from engine.strength import seam_problem, shear_problem

FORMAT = 1
TABLES: Mapping[str, type[InputTable]] = {
    "building": Building,
    "roof": Roof,
    "module": Module,
    "array": Array,
    "hardware": Hardware,
    "papers": PermitDocuments,
}
OPTIONAL = ("hardware", "papers")
TOP_LEVEL = ("format", "title", "currency", "site", *TABLES, "methods")


@dataclass(frozen=True, eq=False)
class Scenario:
    """One array on one roof, the ways to hold it, and the load standard that speaks; `written` are the file's tables."""

    job: Job
    methods: tuple[MountingMethod, ...]
    standard: LoadStandard
    written: Mapping[str, Any]

    def methods_named(self, only: Collection[str]) -> tuple[MountingMethod, ...]:
        """The methods of these ids; all of them where none is named."""
        return tuple(method for method in self.methods if not only or method.id in only)


def read_scenario(
    written: Mapping[str, Any], methods: Mapping[str, type[MountingMethod]], standards: Mapping[str, type[LoadStandard]]
) -> Scenario:
    """Read a scenario from the tables of its file.

    Args:
        written: the file's tables, as a TOML parser gives them.
        methods: the mounting methods there are, by id.
        standards: the load standards there are, by title.

    Raises:
        InputError: everything that is wrong, each with its path.
    """
    problems = list(top_level_problems(written, TOP_LEVEL, FORMAT))
    heading = _heading(written, problems)
    tables = {name: _table(name, model, written, problems) for name, model in TABLES.items()}
    chosen = tuple(_methods(written, methods, problems))
    standard = _standard(written, standards, problems)
    if not problems and heading and standard:
        job = Job(heading.title, heading.currency, **tables)  # type: ignore[arg-type]
        problems += [*_contradictions(job), *standard.unsupported(job)]
    if problems or standard is None or heading is None:
        raise InputError(problems)
    return Scenario(job, chosen, standard, written)


def fields_of(
    methods: Mapping[str, type[MountingMethod]], standard: type[LoadStandard]
) -> Mapping[str, type[InputTable]]:
    """Every table a scenario may have, by its path ("" above all tables), in the file's order: what a form is made from."""
    options = {f"methods.{name}": method for name, method in methods.items() if issubclass(method, InputTable)}
    return {"": Heading, "site": standard.site_model(), **TABLES, **options}


class Heading(InputTable):
    """What stands above the tables."""

    title: Annotated[str, TextLine(12_000)] = input_field(description="what the job is called")
    currency: Annotated[str, TextLine(12)] = input_field("USD", description="currency of prices and of the labour rate")


def _heading(written: Mapping[str, Any], problems: list[Problem]) -> Heading | None:
    above = {key: written[key] for key in Heading.model_fields if key in written}
    return validated("", Heading, above, problems)


def _table(
    name: str, model: type[InputTable], written: Mapping[str, Any], problems: list[Problem]
) -> InputTable | None:
    table = written.get(name, {} if name in OPTIONAL else None)
    if table is None:
        problems.append(Problem(name, f"missing; the scenario needs a table [{name}]"))
        return None
    return validated(name, model, table, problems)


def _methods(
    written: Mapping[str, Any], known: Mapping[str, type[MountingMethod]], problems: list[Problem]
) -> Iterator[MountingMethod]:
    """Every method, with the scenario's options laid over its defaults."""
    tables = written.get("methods", {})
    if not isinstance(tables, Mapping):
        problems.append(Problem("methods", "write tables such as [methods.rail]"))
        return
    for name in tables:
        if name not in known:
            problems.append(Problem(f"methods.{name}", describe_unknown(name, tuple(known))))
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
        problems.append(
            Problem("site.standard", f"{found}; allowed is {' or '.join(repr(title) for title in known)}"[:300])
        )
        return None
    model = known[name].site_model()
    described = validated("site", model, site, problems)
    return None if described is None else known[name](described)


def _contradictions(job: Job) -> Iterator[Problem]:
    """What no single field can know: fields that do not go together."""
    yield from _module_contradictions(job)
    yield from _roof_contradictions(job)
    yield from _fastening_contradictions(job)
    yield from too_large(job)
    if job.array.height_above_roof < job.hardware.attachment_height - 1e-9:
        yield Problem(
            "array.height_above_roof", "lower than hardware.attachment_height; modules lie above their attachments"
        )


def _module_contradictions(job: Job) -> Iterator[Problem]:
    module = job.module
    if module.width > module.length:
        yield Problem("module.width", "larger than module.length; the width is the shorter side")
    for key, stretch in (("clamp_zone", module.clamp_zone), ("edge_support", module.edge_support)):
        if stretch[1] > module.length / 2 + 1e-9:
            yield Problem(
                f"module.{key}",
                "reaches beyond the middle of the long side; give from and to, measured from the corner",
            )


def _roof_contradictions(job: Job) -> Iterator[Problem]:
    roof, building = job.roof, job.building
    for key, overhang in (("first_support", roof.first_support), ("last_support", roof.last_support)):
        if overhang > roof.support_spacing + 1e-9:
            words = (
                "larger than roof.support_spacing; a panel reaches no farther past its last fastening than between two"
            )
            yield Problem(f"roof.{key}", words)
    if (roof.edge_strip is None) != (roof.edge_support_spacing is None):
        yield Problem("roof.edge_strip", "goes with roof.edge_support_spacing: give both, or neither")
    if roof.edge_support_spacing is not None and roof.edge_support_spacing > roof.support_spacing + 1e-9:
        yield Problem(
            "roof.edge_support_spacing",
            "larger than roof.support_spacing; fastenings stand more closely in edge strips",
        )
    if roof.first_support + roof.last_support >= building.slope_length:
        yield Problem("roof.first_support", "with roof.last_support leaves no room on the slope for fastenings")
    elif len(roof.supports(building)) < 2:
        yield Problem(
            "roof.support_spacing", "leaves fewer than two fastenings on the slope; a panel needs at least two"
        )
    if len(roof.ribs(building)) < 2:
        yield Problem("roof.rib_spacing", "leaves fewer than two ribs on the roof")


def _fastening_contradictions(job: Job) -> Iterator[Problem]:
    roof, bracket = job.roof, job.hardware.bracket
    if (bracket == "seam clamp") != roof.floats:
        fitting = "'seam clamp'" if roof.floats else "'sheet' or 'structure'"
        yield Problem("hardware.bracket", f"'{bracket}' given; on a roof of kind '{roof.kind}' allowed is {fitting}")
    if roof.floats and (objection := seam_problem(roof.fastening.uplift)):
        yield Problem("roof.fastening.uplift", objection)
    along = {
        "roof.fastening.in_plane": roof.fastening.in_plane,
        "roof.fixed_point.in_plane": roof.fixed_point.in_plane if roof.fixed_point else None,
        "hardware.attachment_in_plane": job.hardware.attachment_in_plane,
        "hardware.attachment_across": job.hardware.attachment_across,
    }
    for path, capacity in along.items():
        if capacity is not None and (objection := shear_problem(capacity)):
            yield Problem(path, objection)
    for way in roof.fastening.uplift:
        if refusal := way.why_not_applicable(roof.rib_spacing, roof.support_spacing):
            yield Problem("roof.fastening.uplift", refusal)
