"""Figures by name: every number the exports show can be named, and is shown as the screens show it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from engine.comparison.compare import compare
from engine.comparison.figures import figure_named
from engine.comparison.record import comparison_record
from engine.lessons.figures import fill_in, find_figure
from support import scenario_of


@pytest.fixture(scope="module")
def shown() -> dict[str, Any]:
    return comparison_record(compare(scenario_of()))


@pytest.mark.parametrize("system", ["us", "si"])
def test_named_figures_read_as_the_comparison_shows_them(shown: dict[str, Any], system: Any) -> None:
    keys = (
        "attachments", "attachments_per_module", "point_load_up_n", "mass_kg", "rail_span_limit_m", "dead_load_pa", "penetrations",
        "support_line_load_n_per_m", "labour_hours", "total_cost", "cost_per_watt", "fastening_utilisation", "evenness",
    )  # fmt: skip
    names = {key: key for key in keys} | {"links.roof_fastening.utilisation": "roof_fastening"}
    for name, key in names.items():
        for column in compare(scenario_of()).columns:
            found = find_figure(shown, f"methods.{column.id}.{name}")
            assert found.text(system) == figure_named(key).cell(column, system), name


@pytest.mark.parametrize(
    ("name", "value", "dimension"),
    [
        ("title", "Kestrel Yard cold store (invented)", ""),
        ("loads.wind speed.value", 46.9, "speed"),
        ("methods.rail.links.rib.resistance", 470 * 0.3048 * 4.44822, "moment"),
        ("methods.rail.links.roof_fastening.title", "clip", ""),
        ("methods.rail.bill.attachment.price", 320 * 8.5, "money"),
        ("cautions.1", "Preliminary. A licensed engineer and the local code decide.", ""),
    ],
)
def test_a_name_leads_through_tables_and_lists(shown: dict[str, Any], name: str, value: object, dimension: str) -> None:
    found = find_figure(shown, name)
    assert found.value == (value if isinstance(value, str) else pytest.approx(value, rel=0.01))
    assert found.dimension == dimension


def test_every_number_has_a_name(shown: dict[str, Any]) -> None:
    """Walk all of it, and find each value again by its name."""
    names = list(_names(shown, ""))
    assert len(names) > 150
    for name, value in names:
        assert find_figure(shown, name).value == value, name


def _names(here: Any, way: str) -> Iterator[tuple[str, Any]]:
    if isinstance(here, list):
        for number, entry in enumerate(here, 1):
            first = str(next(iter(entry.values()))) if isinstance(entry, dict) else str(number)
            if [str(next(iter(one.values()))) for one in here if isinstance(one, dict)].count(first) <= 1:
                yield from _names(entry, f"{way}.{first}")
    elif isinstance(here, dict):
        for key, entry in here.items():
            yield from _names(entry, f"{way}.{key}".lstrip("."))
    else:
        yield way, here


def test_words_keep_braces_that_name_nothing_else(shown: dict[str, Any]) -> None:
    assert fill_in("{methods.rail.status}! } { x", lambda name: find_figure(shown, name), "us") == "holds! } { x"
