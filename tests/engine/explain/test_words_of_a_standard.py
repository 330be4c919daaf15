"""Explanations in the words and units of a standard with partial factors, from every figure back to the loads."""

from __future__ import annotations

import re
from functools import cache

import pytest

from engine.comparison.compare import Comparison, compare
from engine.comparison.figures import figures
from engine.explain.find import explain_figure
from engine.explain.print import to_text
from support import scenario_of

US = re.compile(r"(?<![(\d.,])\d[\d.,]* (?:ft2?|in[34]?|lb|kip|psf|ksi|psi|mph)\b(?!\))")
"""A US quantity that stands alone; beside one in SI it is in brackets."""


@cache
def european() -> Comparison:
    """With a coefficient for the rack too, so that every method is checked."""
    return compare(scenario_of("dunlin_hall", methods__tilted_rack__net_coefficient=1.2))


@cache
def explained(method: str) -> str:
    column = european().column(method)
    assert column
    assert column.candidate
    parts = (to_text(explain_figure(european(), column, figure, "si"), "si") for figure in figures())
    return re.sub(r"\s+", " ", " ".join(parts).replace("\u00a0", ""))


@pytest.mark.parametrize("method", ["rail", "tilted_rack", "direct"])
def test_no_step_is_in_us_units(method: str) -> None:
    assert [found[0] for found in US.finditer(explained(method))] == []


@pytest.mark.parametrize("method", ["rail", "tilted_rack", "direct"])
def test_loads_and_resistances_are_design_values(method: str) -> None:
    """No allowable anywhere; what a combination gives is a design load, force or reaction."""
    words = explained(method)
    assert "allowable" not in words
    assert "design force on the attachment (down positive) in 0.9D + 1.5W up" in words
    assert ("design force on the fastening" if method == "direct" else "design reaction of the clip on seam") in words
    assert "design resistance in" in words
    assert not re.search(r"(?<!design )force on the attachment \(down positive\) in", words)


def test_tables_name_design_loads() -> None:
    labels = {figure.key: figure.label(european().scenario.job) for figure in figures()}
    assert labels["point_load_up_n"] == "largest design uplift"
    assert labels["point_load_down_n"] == "largest design down load"
    allowables = {figure.key: figure.label(scenario_of().job) for figure in figures()}
    assert allowables["point_load_up_n"] == "largest uplift"
