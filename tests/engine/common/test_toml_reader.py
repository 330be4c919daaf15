"""Values in TOML that anybody may have typed: refused or taken as text at once, whatever their length."""

from __future__ import annotations

import pytest

from engine.common.toml_reader import tables_in
from engine.scenario.changes import toml_value


@pytest.mark.parametrize("head", ["", "x = { ", "[", "x = [{ "])
def test_a_key_without_end_is_refused_at_once(head: str) -> None:
    """Python's reader would need minutes: 10 s for 60,000 parts, 270 s for 400,000."""
    with pytest.raises(ValueError, match="a key of 100 parts or more given"):
        tables_in(head + ".".join("a" * 400_000))


def test_a_typed_value_with_such_a_key_is_text() -> None:
    typed = "{ " + ".".join("a" * 400_000) + " = 1 }"
    assert toml_value(typed) == typed


def test_a_number_without_end() -> None:
    with pytest.raises(ValueError, match="a number of thousands of digits given"):
        tables_in("x = " + "9" * 5000)
    assert tables_in("x = 0x" + "f" * 5000) == {"x": 16**5000 - 1}
