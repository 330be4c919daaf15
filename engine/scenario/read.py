"""Reading of a scenario: from the tables of its file to a job, its methods and its load standard."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from engine.common.errors import InputError, Problem
from engine.common.tolerances import SAME_LENGTH
from engine.loads.interface import LoadStandard
from engine.mounting.interface import MountingMethod
from engine.project.array import Array, Module
from engine.project.building import Building
from engine.project.hardware import Hardware
from engine.project.job import Job
from engine.project.permit_documents import PermitDocuments
from engine.project.roof import Roof
from engine.project.size_limits import too_large
from engine.project.wood_temperature import at_wood_temperature
from engine.scenario.validation import describe_unknown, top_level_problems, validated
from engine.schema import InputTable, TextLine, as_given, input_field, shortened
from engine.strength import seam_problem, shear_problem
from engine.strength.wood_screws import COOL

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
    """One array on one roof, its mounting methods and its load standard; `written` has the tables of the file."""

    job: Job
    methods: tuple[MountingMethod, ...]
    standard: LoadStandard
    written: Mapping[str, Any]

    def methods_named(self, only: Collection[str]) -> tuple[MountingMethod, ...]:
        """The methods with these ids; all of them if there are no ids."""
        return tuple(method for method in self.methods if not only or method.id in only)


def read_scenario(
    written: Mapping[str, Any], methods: Mapping[str, type[MountingMethod]], standards: Mapping[str, type[LoadStandard]]
) -> Scenario:
    """The scenario of a file's tables.

    Args:
        written: the tables as a TOML parser gives them.
        methods: the known mounting methods by id.
        standards: the known load standards by title.

    Raises:
        InputError: with all problems of the file, each with its path.
    """
    problems = list(top_level_problems(written, TOP_LEVEL, FORMAT))
    heading = _heading(written, problems)
    tables = {name: _table(name, model, written, problems) for name, model in TABLES.items()}
    chosen = tuple(_methods(written, methods, problems))
    standard = _standard(written, standards, problems)
    if not problems and heading and standard:
        job = at_wood_temperature(Job(heading.title, heading.currency, **tables))  # type: ignore[arg-type]
        problems += [*_contradictions(job), *standard.unsupported(job)]
    if problems or standard is None or heading is None:
        raise InputError(problems)
    return Scenario(job, chosen, standard, written)


def fields_of(
    methods: Mapping[str, type[MountingMethod]], standard: type[LoadStandard]
) -> Mapping[str, type[InputTable]]:
    """Model of every table of a scenario by its path ("" for the head of the file), in the order of the file."""
    options = {f"methods.{name}": method for name, method in methods.items() if issubclass(method, InputTable)}
    return {"": Heading, "site": standard.site_model(), **TABLES, **options}


class Heading(InputTable):
    """The keys above the tables."""

    title: Annotated[str, TextLine(12_000)] = input_field(description="title of the job")
    currency: Annotated[str, TextLine(12)] = input_field(
        "USD", description="currency of the prices and of the labour rate"
    )


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


def _contradictions(job: Job) -> Iterator[Problem]:
    """Fields that do not fit together."""
    yield from _module_contradictions(job)
    yield from _roof_contradictions(job)
    yield from _fastening_contradictions(job)
    yield from _screw_contradictions(job.hardware)
    yield from too_large(job)
    if job.array.height_above_roof < job.hardware.attachment_height - SAME_LENGTH:
        yield Problem(
            "array.height_above_roof", "less than hardware.attachment_height; modules are above their attachments"
        )


def _module_contradictions(job: Job) -> Iterator[Problem]:
    module = job.module
    if module.width > module.length:
        yield Problem("module.width", "larger than module.length; the width is the shorter side")
    for key, (_, end) in (("clamp_zone", module.clamp_zone), ("edge_support", module.edge_support)):
        if end > module.length / 2 + SAME_LENGTH:
            text = "ends beyond the middle of the long side; give from and to, measured from the corner"
            yield Problem(f"module.{key}", text)


def _roof_contradictions(job: Job) -> Iterator[Problem]:
    roof, building = job.roof, job.building
    for key, overhang in (("first_support", roof.first_support), ("last_support", roof.last_support)):
        if overhang > roof.support_spacing + SAME_LENGTH:
            text = "larger than roof.support_spacing; the overhang of a panel is at most the spacing of its fastenings"
            yield Problem(f"roof.{key}", text)
    if (roof.edge_strip is None) != (roof.edge_support_spacing is None):
        yield Problem("roof.edge_strip", "needs roof.edge_support_spacing too: give both or neither")
    if roof.edge_support_spacing is not None and roof.edge_support_spacing > roof.support_spacing + SAME_LENGTH:
        text = "larger than roof.support_spacing; edge strips have closer fastenings"
        yield Problem("roof.edge_support_spacing", text)
    if roof.wood_temperature == COOL and roof.wood_temperature_source is None:
        yield Problem("roof.wood_temperature", "'cool' given; it needs roof.wood_temperature_source too")
    if roof.first_support + roof.last_support >= building.slope_length:
        yield Problem("roof.first_support", "with roof.last_support leaves no length of slope for fastenings")
    elif len(roof.supports(building)) < 2:
        text = "gives fewer than two fastenings on the slope; a panel needs at least two"
        yield Problem("roof.support_spacing", text)
    if len(roof.ribs(building)) < 2:
        yield Problem("roof.rib_spacing", f"gives fewer than two {roof.rib_word}s on the roof; at least two are needed")


def _screw_contradictions(hardware: Hardware) -> Iterator[Problem]:
    """The screws of an attachment are one number, in its strengths and in the bill."""
    if not hardware.pierces:
        return
    billed, path = hardware.attachment_screws, "hardware.attachment_screws"
    if billed == 0:
        yield Problem(path, "0 given; an attachment that is screwed on has at least 1")
    stated = [(f"hardware.{key}", basis.screw_count) for key, basis in hardware.attachment_bases if basis.screw_count]
    if not stated:
        return
    first, count = stated[0]
    if billed and billed != count:
        yield Problem(path, f"{billed} given; {first} states {count} screws: write the same number in both")
    for other, differing in stated[1:]:
        if differing != count:
            text = f"{differing} screws given; {first} states {count}: an attachment has one number of screws"
            yield Problem(other, text)


def _fastening_contradictions(job: Job) -> Iterator[Problem]:
    roof, bracket = job.roof, job.hardware.bracket
    if (bracket == "seam clamp") != roof.floats:
        allowed = "'seam clamp'" if roof.floats else "'sheet' or 'structure'"
        yield Problem("hardware.bracket", f"'{bracket}' given; on a roof of kind '{roof.kind}' allowed is {allowed}")
    if roof.floats and (reason := seam_problem(roof.fastening.uplift)):
        yield Problem("roof.fastening.uplift", reason)
    along = {
        "roof.fastening.in_plane": roof.fastening.in_plane,
        "roof.fixed_point.in_plane": roof.fixed_point.in_plane if roof.fixed_point else None,
        "hardware.attachment_in_plane": job.hardware.attachment_in_plane,
        "hardware.attachment_across": job.hardware.attachment_across,
    }
    for path, capacity in along.items():
        if capacity is not None and (reason := shear_problem(capacity)):
            yield Problem(path, reason)
    for basis in roof.fastening.uplift:
        if refusal := basis.why_not_applicable(roof.rib_spacing, roof.support_spacing):
            yield Problem("roof.fastening.uplift", refusal)
