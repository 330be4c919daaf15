"""The question on the phone: a dozen values of a roof that nobody has seen, and the loads that it must carry.

No design: the roof's strength is unknown, and so are the places of its seams and purlins. Whatever is not asked has a
cautious default. The array lies in the corner of the slope, where the wind is strongest.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

import numpy as np

from engine.common.errors import InputError, Problem
from engine.comparison.attachment_schedule import schedule
from engine.comparison.compare import Column, Comparison
from engine.links import rib, roof_fastening
from engine.loads.interface import LoadStandard
from engine.mounting.interface import MountingMethod
from engine.scenario.changes import laid_over
from engine.scenario.read import Scenario, fields_of, read_scenario
from engine.scenario.template import template
from engine.scenario.validation import describe_unknown
from engine.schema.introspection import must_be_stated
from engine.schema.wording import Wording
from engine.units import FOOT, System, in_words_of, parse, quoted


@dataclass(frozen=True)
class Asked:
    """One value that can be asked: its `path` in a scenario, what it is, its default, and if it can be left out."""

    path: str
    description: str
    default: str | None = None
    is_optional: bool = False

    @property
    def is_needed(self) -> bool:
        """True if there is no question without it."""
        return self.default is None and not self.is_optional


VALUES: Mapping[str, Asked] = MappingProxyType(
    {
        "modules": Asked("array.columns", "number of modules"),
        "seams": Asked("roof.rib_spacing", "spacing of the seams"),
        "purlins": Asked("roof.support_spacing", "spacing of the purlins, or of the clips along a seam"),
        "slope": Asked("building.slope", "slope of the roof, as 1:12 or in degrees"),
        "height": Asked("building.mean_roof_height", "mean height of the roof above the ground"),
        "standard": Asked("site.standard", "load standard and edition", "ASCE 7-16"),
        "length": Asked("module.length", "longer side of a module", "1762 mm"),
        "width": Asked("module.width", "shorter side of a module", "1134 mm"),
        "mass": Asked("module.mass", "mass of a module", "25 kg"),
    }
)
"""The values that are asked under every standard, by their names; its own `[site]` table adds those that it needs."""

SHORT = {"wind_speed": "wind", "ground_snow": "snow", "risk_category": "risk"}
"""Key of a `[site]` table → its name in a question; others are called as in the table."""

EDGE = 3.0
"""Distance of the array from eave and rakes [ft]: within the corner zone of every roof."""

GAP = 0.02
"""A little more than the gap between modules [m], so that the array fits the roof that is made for it."""

RACK_PITCH = 1.5
"""Distance of the rows of a tilted rack, in widths of a module, so that the rack fits the roof too [-]."""

NO_LIMIT = "100000 lb ft"
"""Moment of the seam, whose strength is unknown: it decides nothing, and the moment that it must carry is told."""

CAUTIOUS: Mapping[str, Any] = MappingProxyType(
    {
        "format": 1,
        "title": "Quick question, not a design: the roof is unknown",
        "building": {"thermal": "unheated"},
        "roof": {
            "kind": "standing seam",
            "support": "purlin",
            "last_support": "3 in",
            "panel": {"moment_rib_compressed": NO_LIMIT, "moment_pan_compressed": NO_LIMIT},
        },
        "module": {
            "thickness": "35 mm",
            "power": "440 W",
            "rating_up": {"test": "2400 Pa"},  # the least test load of IEC 61215 (from memory)
            "rating_down": {"test": "5400 Pa"},
            "clamp_zone": ["250 mm", "500 mm"],
            "edge_support": ["100 mm", "861 mm"],
        },
        "array": {"origin": [f"{EDGE} ft", f"{EDGE} ft"], "gap": "0.5 in", "height_above_roof": "5 in"},
    }
)
"""Everything that is not asked."""


@dataclass(frozen=True, eq=False)
class RoofLoads:
    """Loads of one method on the roof, and strengths that a clip and a seam need.

    `uplift_by_zone`: wind zone → largest uplift of an attachment in it [N]; `down`: largest down load [N]; `with_array`
    and `without`: resistance to uplift that a clip needs [N]; `test_pressure`: uplift at failure in a roof test with a
    safety factor of 2.0 [Pa]; `seam_moment`: largest moment of a seam [N m].
    """

    column: Column
    uplift_by_zone: Mapping[str, float]
    down: float
    with_array: float
    without: float
    test_pressure: float
    seam_moment: float


def named_values(written: Sequence[str]) -> dict[str, str]:
    """The values of a question by their names, each written as NAME=VALUE.

    Raises:
        InputError: one has no name.
    """
    pairs = [each.partition("=") for each in written]
    problems = [
        Problem("NAME=VALUE", f"{quoted(each)} given; write a name, = and a value, such as wind='105 mph'")
        for each, (_, equals, _) in zip(written, pairs, strict=True)
        if not equals
    ]
    if problems:
        raise InputError(problems)
    return {name.strip(): value.strip() for name, _, value in pairs}


STAND_INS = {"modules": "1", "slope": "5 deg"}
"""Values with which the others are read while these are missing."""

MISSING = "missing"
"""The first word about a value that is needed and not given."""


def question_scenario(
    values: Mapping[str, str],
    methods: Mapping[str, type[MountingMethod]],
    standards: Mapping[str, type[LoadStandard]],
) -> Scenario:
    """The scenario of a question.

    Args:
        values: what was answered, as a scenario has it, by the names of `VALUES`.
        methods: the known mounting methods by id.
        standards: the known load standards by title.

    Raises:
        InputError: everything that is wrong with the values, by their names.
    """
    asked = asked_under(values, standards)
    if unknown := [Problem(name, describe_unknown(name, tuple(asked))) for name in values if name not in asked]:
        raise InputError(unknown)
    missing = [name for name, each in asked.items() if each.is_needed and name not in values]
    problems = [Problem(name, f"{MISSING}: {asked[name].description}") for name in missing]
    try:
        scenario = read_scenario(tables_of({**STAND_INS, **values}, standards), methods, standards)
    except InputError as wrong:
        names = {each.path: name for name, each in asked.items()}
        told = [Problem(names.get(each.path, each.path), each.message) for each in wrong.problems]
        problems += [each for each in told if each.path not in missing]
    if problems:
        raise InputError(problems)
    return scenario


def asked_under(values: Mapping[str, str], standards: Mapping[str, type[LoadStandard]]) -> Mapping[str, Asked]:
    """Everything that can be asked under the standard that the values name, by its name.

    Raises:
        InputError: there is no such standard.
    """
    title = values.get("standard", VALUES["standard"].default or "")
    if title not in standards:
        raise InputError([Problem("standard", f"{quoted(title)} is {describe_unknown(title, tuple(standards))}")])
    fields = standards[title].site_model().model_fields
    of_site = {
        SHORT.get(key, key): Asked(f"site.{key}", field.description or "", is_optional=not must_be_stated(field))
        for key, field in fields.items()
        if key != "standard"
    }
    return {**VALUES, **of_site}


def tables_of(values: Mapping[str, str], standards: Mapping[str, type[LoadStandard]]) -> dict[str, Any]:
    """The tables of the scenario of a question, by the values as they are written."""
    paths = {name: asked.path for name, asked in asked_under(values, standards).items()}
    stated = {name: value.default for name, value in VALUES.items() if value.default} | dict(values)
    modules = _modules(stated.pop("modules"))
    rows = max(1, math.isqrt(modules // 4))
    columns = math.ceil(modules / rows)
    slope = math.radians(_read(stated["slope"], "angle"))
    along = columns * (_read(stated["length"], "length") + GAP) / FOOT + 2 * EDGE
    up = rows * (_read(stated["width"], "length") + GAP) * RACK_PITCH / FOOT + 2 * EDGE
    size = {
        ("array", "rows"): rows,
        ("array", "columns"): columns,
        ("building", "length"): f"{along:.1f} ft",
        ("building", "width"): f"{2 * up * math.cos(slope):.1f} ft",
    }
    asked = {tuple(paths[name].split(".")): value for name, value in stated.items()}
    system = standards[stated["standard"]].system
    return laid_over(_written_in(system, CAUTIOUS), _written_in(system, size) | asked)


def _written_in(system: System, value: Any) -> Any:
    """Values of a scenario in the units of the standard."""
    if isinstance(value, Mapping):
        return {key: _written_in(system, part) for key, part in value.items()}
    if isinstance(value, list):
        return [_written_in(system, part) for part in value]
    return in_words_of(system, value) if isinstance(value, str) else value


def question_as_file(values: Mapping[str, str], methods: Mapping[str, type[MountingMethod]], scenario: Scenario) -> str:
    """A commented scenario file with the values of a question; what nobody knows yet is left to be filled in.

    `scenario` is that of the same values.
    """
    standard = type(scenario.standard)
    tables = tables_of(values, {scenario.standard.title: standard})
    del tables["roof"]["panel"]  # its moments stood for an unknown strength
    return template(tables, fields_of(methods, standard), Wording(standard.system, standard.words))


def _modules(written: str) -> int:
    """The number of modules.

    Raises:
        InputError: it is none.
    """
    if not (written.isascii() and written.isdigit() and len(written) <= 5 and int(written)):
        raise InputError([Problem("modules", f"{quoted(written)} given; write a whole number from 1 on")])
    return int(written)


def _read(written: str, dimension: str) -> float:
    """A quantity [SI]; 0 where it cannot be read, which the scenario then refuses."""
    try:
        return parse(written, dimension)
    except ValueError:
        return 0.0


def roof_loads(comparison: Comparison) -> tuple[RoofLoads, ...]:
    """Loads on the roof of each method that was checked."""
    return tuple(_loads(column) for column in comparison.columns if column.candidate)


def _loads(column: Column) -> RoofLoads:
    assert column.design
    assert column.candidate
    placed, demands = schedule(column.design), column.candidate.demands
    assert placed.up is not None
    assert placed.down is not None
    zones, needed = np.array(placed.zone), roof_fastening.uplift_needed(demands)
    moment = column.candidate.check(rib.LINK).demand
    return RoofLoads(
        column=column,
        uplift_by_zone={zone: float(placed.up[zones == zone].max()) for zone in sorted(set(placed.zone))},
        down=float(placed.down.max()),
        with_array=needed[0],
        without=needed[1],
        test_pressure=roof_fastening.pressure_in_test(column.design.job.roof, max(needed)),
        seam_moment=moment or 0.0,
    )
