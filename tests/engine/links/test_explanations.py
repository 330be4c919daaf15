"""Every checked link of every method tells its own chain, which ends at the comparison's figure and can be evaluated again."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.links import LINKS
from engine.links.attachment import explain_attachment
from engine.links.module import explain_module
from engine.links.roof_fastening_alone import explain_fastening_alone
from engine.links.trail import CalculationTrail
from engine.units import FOOT
from support import assert_told, scenario_of

EVERY = (
    "dunlin_hall",
    "finch_shed",
    "heron_depot",
    "kestrel_yard",
    "plover_terrace",
    "sparrow_lane",
    "swallow_cottage",
    "wren_workshop",
)
CHANGED = [
    ("kestrel_yard", {"hardware__frame_moment": "60 lb ft"}),
    ("kestrel_yard", {"hardware__rail__deflection_ratio": 9000, "hardware__rack_beam__deflection_ratio": 9000}),
    ("kestrel_yard", {"hardware__leg_capacity": {"allowable": "90 lb"}}),
    ("kestrel_yard", {"site__wind_speed": "60 mph", "site__ground_snow": "60 psf"}),
    ("kestrel_yard", {"site__seismic_sds": 3.0, "site__wind_speed": "60 mph", "site__ground_snow": "0 psf"}),
    (
        "wren_workshop",
        {
            "methods__rail__runs": "up the slope",
            "module__clamp_zone": ["150 mm", "500 mm"],
            "site__seismic_sds": 3.0,
            "site__wind_speed": "60 mph",
            "site__ground_snow": "0 psf",
            "hardware__rail__moment_weak": "5 lb ft",
        },
    ),
    (
        "swallow_cottage",
        {
            "hardware__bracket": "rafter",
            "hardware__place": "pan",
            "hardware__attachment_uplift": {"lag": 1, "size": "5/16 in", "thread": "2 in", "specific_gravity": 0.42},
        },
    ),
    ("kestrel_yard", {"array__origin": ["4 ft", "3 ft"], "array__rows": 2, "array__columns": 4}),
]


def chains(name: str, **changes: object) -> int:
    scenario, told = scenario_of(name, **changes), 0
    for column in compare(scenario).columns:
        if column.design is None or column.design.candidate is None:
            continue
        trail = CalculationTrail(column.design.candidate.demands)
        for link in LINKS:
            key, check = link.key, column.checks[link.key]
            if check.utilisation is None or key == "structure":
                continue
            steps = link.explain(trail, check)
            assert steps, (column.id, key)
            assert_told(steps, of=(column.id, key))
            if steps and "W" in check.combination and key not in ("structure", "fixed_point"):
                assert any(step.symbol in ("qh", "qp") for step in steps), (column.id, key)
            if steps and steps[-1].symbol.startswith("u_"):
                assert steps[-1].result.value == pytest.approx(check.utilisation, rel=1e-9), (column.id, key)
                told += 1
    return told


@pytest.mark.parametrize("name", EVERY)
def test_each_link_is_told_to_its_own_figure(name: str) -> None:
    assert chains(name) >= 10


@pytest.mark.parametrize(("name", "changes"), CHANGED)
def test_other_links_and_other_cases_too(name: str, changes: dict[str, object]) -> None:
    assert chains(name, **changes) >= 4


@pytest.mark.parametrize("name", ["heron_depot", "kestrel_yard", "sparrow_lane", "wren_workshop"])
def test_the_bare_roof_is_told_from_a_fastenings_own_area(name: str) -> None:
    """Pressure times area, added up by the combination, is what the roof's state holds: where it is pulled most, and pushed most."""
    scenario = scenario_of(name)
    design = compare(scenario, ("direct",)).columns[0].design
    assert design
    assert design.candidate
    assert design.roof_alone
    trail, bare = CalculationTrail(design.candidate.demands), design.candidate.demands.roof.without_array
    for place, check, case in (
        (np.argmin(bare), design.roof_alone, "B_W_up"),
        (np.argmax(bare), replace(design.roof_alone, utilisation=0.0), "B_S"),
    ):
        rib, level, number = map(int, np.unravel_index(place, bare.shape))
        steps = explain_fastening_alone(trail, check, rib, level, number)
        assert steps[0].result.value == pytest.approx(design.candidate.demands.roof.area[rib, level] / FOOT**2)
        assert_told(steps)
        symbols = [step.symbol for step in steps]
        assert symbols[0] == "A_f"
        assert any(symbol.startswith(case) for symbol in symbols)
        assert symbols[-1] == ("u_roof_alone" if scenario.job.roof.floats else "Ra")


def test_what_pulls_an_attachment_across_its_rib_is_told() -> None:
    """An earthquake along the eave, on attachments that hold little of it."""
    shaken = {"site__seismic_sds": 3.0, "site__wind_speed": "60 mph", "site__ground_snow": "0 psf"}
    scenario = scenario_of(
        **shaken, methods__rail__spacing="4 ribs", hardware__attachment_across={"allowable": "20 lb"}
    )
    column = compare(scenario, ("rail",)).columns[0]
    assert column.design
    assert column.design.candidate
    check = next(check for check in column.checks.values() if check.link == "attachment")
    steps = explain_attachment(CalculationTrail(column.design.candidate.demands), check)
    assert_told(steps)
    assert steps[-1].terms["X"].value > 0
    assert steps[-1].terms["Xa"].value == pytest.approx(20)
    assert steps[-1].result.value == pytest.approx(check.utilisation)


def test_a_modules_wind_is_told_back_to_the_velocity_pressure() -> None:
    """The pressure that the standard's steps end at is the one that is added up."""
    scenario = scenario_of("kestrel_yard", site__ground_snow="0 psf")
    column = compare(scenario, ("rail",)).columns[0]
    assert column.design
    assert column.design.candidate
    trail = CalculationTrail(column.design.candidate.demands)
    steps = explain_module(trail, column.checks["module"])
    symbols = [step.symbol for step in steps]
    wind = next(number for number, symbol in enumerate(symbols) if symbol.startswith("p_W"))
    assert symbols.index("qh") < wind
    assert symbols[wind - 1] == "p"
    assert steps[wind - 1].result.value == pytest.approx(steps[wind].result.value)
