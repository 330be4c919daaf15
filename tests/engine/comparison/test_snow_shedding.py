"""Snow that leaves the array: where it is said, and what lines of snow retention add to the panels."""

from __future__ import annotations

import numpy as np
import pytest

from engine.common.errors import InputError
from engine.comparison.compare import Column, compare
from engine.design.design import Design
from engine.links import LINKS
from engine.links.trail import CalculationTrail
from engine.units import FOOT, POUND_FORCE
from support import assert_told, scenario_of

LINE = {"at": "2 ft", "load": "40 lb/ft"}
FIXED = {"methods__direct__spacing": "2 per edge"}


def column(name: str = "kestrel_yard", **changes: object) -> Column:
    return compare(scenario_of(name, **FIXED | changes), ("direct",)).columns[0]


def design(of: Column) -> Design:
    assert of.design
    assert of.design.candidate
    return of.design


def texts(of: Column) -> dict[str, str]:
    return {flag.code: flag.text for flag in of.flags}


def test_snow_over_the_eave_is_said_with_its_cure() -> None:
    text = texts(column())["snow_shedding"]
    assert text.startswith("Snow can slide off the modules and over the eave, 15.50 ft (4.724 m) below the lowest row.")
    assert text.endswith("or hold the snow (roof.snow_retention)")


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"site__ground_snow": "0 psf"}, False),
        ({"building__slope": "0.25:12"}, False),  # §7.9: slippery surfaces shed above 1/4 on 12
        ({"building__slope": "0.26:12"}, True),
        ({"building__parapet_height": "3 ft"}, False),
        ({"roof__snow_retention": [LINE]}, False),
        ({"roof__snow_retention": [LINE | {"at": "15.5 ft"}]}, False),
        ({"roof__snow_retention": [LINE | {"at": "16 ft"}]}, True),  # the lowest row is below the line
    ],
)
def test_it_is_said_only_where_it_can_happen(changes: dict[str, object], said: bool) -> None:
    assert ("snow_shedding" in texts(column(**changes))) == said


def test_lines_load_every_panel_in_combinations_with_snow() -> None:
    """40 and 20 lb/ft on seams 2 ft apart: 120 lb on each panel's anchorage in D + S, 90 lb where S counts 0.75."""
    lines = [LINE, LINE | {"at": "30 ft", "load": "20 lb/ft"}]
    plain, held = (design(column(roof__snow_retention=each)) for each in ([], lines))
    for name, pounds in (("D", 0.0), ("D + S", 120.0), ("D + 0.75S + 0.45W down", 90.0), ("0.6D + 0.6W up", 0.0)):
        (number,) = (n for n, each in enumerate(plain.loads.combinations) if each.name == name)
        for key in ("sheet_and_snow_sliding", "in_plane_without_array"):
            before, after = (
                getattr(each.candidate.demands.roof, key)[1:-1, number]  # type: ignore[union-attr]
                for each in (plain, held)
            )
            np.testing.assert_allclose(after - before, pounds * POUND_FORCE, atol=1e-6)


def test_the_anchorage_feels_the_lines_and_its_steps_can_be_evaluated_again() -> None:
    plain, held = column(), column(roof__snow_retention=[LINE])
    assert held.checks["fixed_point"].demand == pytest.approx(plain.checks["fixed_point"].demand + 80 * POUND_FORCE)
    link = next(link for link in LINKS if link.key == "fixed_point")
    steps = link.explain(CalculationTrail(design(held).candidate.demands), held.checks["fixed_point"])  # type: ignore[union-attr]
    assert_told(steps)
    assert steps[-1].result.value == pytest.approx(held.checks["fixed_point"].utilisation)
    assert any("snow retention" in step.meaning for step in steps)


def test_panel_screws_share_it() -> None:
    """With so heavy a line that snow controls instead of wind."""
    screws = {"roof__fastening__in_plane": {"allowable": "300 lb"}}
    plain, held = (
        column("wren_workshop", **screws, roof__snow_retention=each) for each in ([], [LINE | {"load": "4000 lb/ft"}])
    )
    assert held.checks["roof_fastening"].utilisation > plain.checks["roof_fastening"].utilisation  # type: ignore[operator]


def test_what_the_lines_add_is_said_and_what_is_not_checked() -> None:
    """40 lb/ft on seams 2 ft apart."""
    text = texts(column(roof__snow_retention=[LINE]))["snow_retention"]
    assert text.startswith("Snow retention (1 line) adds 80 lb (0.36 kN) along the slope to each panel")
    assert "not checked" in text
    assert "snow_retention" not in texts(column(roof__snow_retention=[LINE], site__ground_snow="0 psf"))


@pytest.mark.parametrize(
    ("line", "path", "sentence"),
    [
        (LINE | {"at": "60 ft"}, "1.at", "60.00 ft (18.288 m) given; allowed is at most the length of the slope"),
        (LINE | {"load": "40 lb"}, "1.load", "'40 lb' given; write a line load with its unit"),
        (LINE | {"load": "-1 lb/ft"}, "1.load", "'-1 lb/ft' given; allowed is 0 lb/ft to 5000 lb/ft"),
        ({"at": "2 ft"}, "1.load", "missing; it has no default"),
    ],
)
def test_what_is_refused(line: dict[str, str], path: str, sentence: str) -> None:
    with pytest.raises(InputError) as refused:
        scenario_of(roof__snow_retention=[line])
    (problem,) = refused.value.problems
    assert problem.path == f"roof.snow_retention.{path}"
    assert problem.message.startswith(sentence)


def test_lengths_are_read_in_metres() -> None:
    (line,) = scenario_of(roof__snow_retention=[LINE]).job.roof.snow_retention
    assert (line.at, line.load) == pytest.approx((2 * FOOT, 40 * POUND_FORCE / FOOT))
