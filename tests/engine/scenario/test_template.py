"""Every table's every key is described, with what is allowed: the template, the form and the help are made from nothing else."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator

import pytest
from pydantic.fields import FieldInfo

from engine.common.combination import Combination
from engine.lessons.file import LessonHeading, LessonStep, Question
from engine.loads import STANDARDS
from engine.loads.en1991.national import NationalValues
from engine.mounting import METHODS
from engine.project.array import KeepClear
from engine.project.higher_roof import HigherRoof
from engine.project.snow_retention import SnowRetention
from engine.scenario.read import fields_of
from engine.scenario.template import template
from engine.schema import InputTable
from engine.schema.introspection import field_type_of, nested_table
from engine.schema.toml import to_toml
from engine.schema.wording import Wording
from engine.strength import strength
from engine.strength.capacity import BASES
from engine.strength.module_rating import ModuleRating
from support import scenario_of, tables_of

TABLES = fields_of(METHODS, STANDARDS["ASCE 7-16"])
EUROPEAN = fields_of(METHODS, STANDARDS["EN 1991"])


def keys(path: str, model: type[InputTable]) -> Iterator[tuple[str, FieldInfo]]:
    for name, field in model.model_fields.items():
        here = f"{path}.{name}" if path else name
        yield here, field
        inner = nested_table(field)
        if inner is not None:
            yield from keys(here, inner)


EVERY = dict(key for tables in (TABLES, EUROPEAN) for path, model in tables.items() for key in keys(path, model))
EVERY |= {
    f"{way.__name__}.{name}": field
    for way in (*BASES, ModuleRating, KeepClear, HigherRoof, SnowRetention, LessonHeading, LessonStep, Question)
    for name, field in way.model_fields.items()
}


@pytest.mark.parametrize("path", EVERY)
def test_every_key_says_what_it_is(path: str) -> None:
    field = EVERY[path]
    assert field.description, path
    assert len(field.description.split()) >= 2, path
    kind = field_type_of(field)
    assert kind is None or kind.allowed, path


@pytest.mark.parametrize(("name", "tables"), [("kestrel_yard", TABLES), ("dunlin_hall", EUROPEAN)])
def test_the_template_names_them_all(name: str, tables: dict[str, type[InputTable]]) -> None:
    written = template(tables_of(name), tables)
    for path in (path for model_path, model in tables.items() for path, _ in keys(model_path, model)):
        key = path.rpartition(".")[2]
        assert f"{key} = " in written or f"{key} is not set" in written or f"{key}]" in written, path


@pytest.mark.parametrize(("name", "tables"), [("kestrel_yard", TABLES), ("dunlin_hall", EUROPEAN)])
def test_what_the_template_writes_is_the_example_again(name: str, tables: dict[str, type[InputTable]]) -> None:
    """Read as TOML: every live key as the example has it; a text of several lines too."""
    example = tables_of(name)
    again = tomllib.loads(template(example, tables))
    for table, keys_of in example.items():
        if isinstance(keys_of, dict):
            for key, value in keys_of.items():
                assert again[table][key] == value, (table, key)
        else:
            assert again[table] == keys_of
    assert to_toml('one\ntwo "three"\n') == '"""\none\ntwo \\"three\\""""'
    assert tomllib.loads(f"a = {to_toml(chr(10).join(['one', 'two']))}")["a"] == "one\ntwo"


US_UNIT = re.compile(r"\d (?:ft|in|lb|kip|psf|psi|ksi|mph|in3|in4|ft2)\b(?! a\b)")
WORDING = Wording(STANDARDS["EN 1991"].system, STANDARDS["EN 1991"].words)


def test_the_template_of_a_standard_in_si_has_no_us_unit() -> None:
    """Neither in a range, nor in a help, nor in a default, nor in an example."""
    written = template(tables_of("dunlin_hall"), EUROPEAN, WORDING)
    assert [line for line in written.splitlines() if US_UNIT.search(line)] == []
    assert "ASCE" not in written


def test_its_defaults_written_out_are_those_that_apply() -> None:
    """To five figures, each by hand; a placeholder is written in the way that EN 1991 takes, and means the same there."""
    written = template(tables_of("dunlin_hall"), EUROPEAN, WORDING)
    for line in (
        '# weight = "0.07182 kPa"',  # 1.5 psf
        '# attachment_height = "50.8 mm"',  # 2 in
        '# stock_length = "4.2672 m"',  # 14 ft
        '# mass = "1.637 kg/m"',  # 1.1 lb/ft
        '# leg_capacity = { characteristic = "3.1138 kN" }',  # 700 lb
    ):
        assert line in written.splitlines()
    unstated, stated = (
        scenario_of("dunlin_hall"),
        scenario_of("dunlin_hall", hardware__leg_capacity={"characteristic": "3.1138 kN"}),
    )
    connections = NationalValues.of(stated.standard.site).connections
    for each in (
        Combination("E", {"D": 1.0}, "wind", connections),
        Combination("E", {"D": 1.0}, "wind", 2 * connections),
    ):
        one, other = (strength(scenario.job.hardware.leg_capacity).resistance(each) for scenario in (unstated, stated))
        assert one == pytest.approx(other, rel=1e-4)
