"""The comparison as text: what it says is what the columns hold, and no line is wider than a terminal."""

from __future__ import annotations

import datetime

import pytest

from engine.comparison.compare import compare
from engine.export.csv import to_markdown
from engine.export.stamp import Stamp
from engine.export.text import to_text
from engine.units import text
from support import scenario_of

DAY = datetime.date(2026, 3, 4)


@pytest.mark.parametrize("system", ["us", "si"])
def test_what_it_is_of_and_under_which_wind_and_snow(system: str) -> None:
    comparison = compare(scenario_of(), ("direct",))
    told = to_text(comparison, Stamp(DAY, system))  # type: ignore[arg-type]
    lines = told.splitlines()
    assert lines[0] == "Kestrel Yard cold store (invented)"
    joined = " ".join(told.split()).replace("- ", "-")
    for name, value, dimension in comparison.site:
        assert f"{name} {text(value, dimension, system)}" in joined  # type: ignore[arg-type]
    assert max(map(len, lines)) <= 80
    assert "Preliminary" in told
    assert "2026-03-04" in told


def test_each_methods_flags_stand_under_its_name() -> None:
    comparison = compare(scenario_of())
    told = " ".join(to_text(comparison, Stamp(DAY)).split())
    for column, following in zip(comparison.columns, [*comparison.columns[1:], None], strict=True):
        start = told.index(f" {column.title}: ", told.index(" rails: "))
        end = told.index(f" {following.title}: ", start) if following else len(told)
        for flag in column.flags:
            assert " ".join(flag.text.split()) in told[start:end]


def test_where_there_is_nothing_to_flag_it_says_so() -> None:
    comparison = compare(scenario_of(), ("direct",))
    comparison.columns[0].__dict__["flags"] = ()
    assert "   nothing to flag" in to_text(comparison, Stamp(DAY)).splitlines()


def test_in_markdown_nothing_a_user_typed_is_markup() -> None:
    """A title of every sign that means something there, each behind a backslash."""
    told = to_markdown(compare(scenario_of(title="a|b *c* [d](e) <f> `g` #1 !"), ("direct",)), Stamp(DAY))
    assert r"a\|b \*c\* \[d\](e) \<f\> \`g\` \#1 \!" in told.splitlines()[0]
    assert "a|b" not in told
