"""Every table's every key is described, with what is allowed: the template, the form and the help are made from nothing else."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from pydantic.fields import FieldInfo

from engine.described import Described
from engine.methods import METHODS
from engine.scenario import fields_of
from engine.standards import STANDARDS
from engine.template import kind_of, table_of, template
from support import tables_of

TABLES = fields_of(METHODS, STANDARDS["ASCE 7-16"])


def keys(path: str, model: type[Described]) -> Iterator[tuple[str, FieldInfo]]:
    for name, field in model.model_fields.items():
        here = f"{path}.{name}" if path else name
        yield here, field
        inner = table_of(field)
        if inner is not None:
            yield from keys(here, inner)


EVERY = dict(key for path, model in TABLES.items() for key in keys(path, model))


@pytest.mark.parametrize("path", EVERY)
def test_every_key_says_what_it_is(path: str) -> None:
    field = EVERY[path]
    assert field.description, path
    assert len(field.description.split()) >= 2, path
    kind = kind_of(field)
    assert kind is None or kind.allowed, path


def test_the_template_names_them_all() -> None:
    written = template(tables_of("kestrel_yard"), TABLES)
    for path in EVERY:
        key = path.rpartition(".")[2]
        assert f"{key} = " in written or f"{key} is left out" in written or f"{key}]" in written, path
