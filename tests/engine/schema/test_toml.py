"""Values as TOML writes them, read back."""

from __future__ import annotations

import tomllib

import pytest

from engine.schema.toml import to_toml


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (True, "true"),
        (3, "3"),
        (2.5, "2.5"),
        ("a", '"a"'),
        (["a", 1], '["a", 1]'),
        ({}, "{}"),
        ({"a b": 1, "c": "d"}, '{ "a b" = 1, c = "d" }'),
    ],
)
def test_values_as_toml_writes_them(value: object, written: str) -> None:
    assert to_toml(value) == written
    assert tomllib.loads(f"x = {written}")["x"] == value
