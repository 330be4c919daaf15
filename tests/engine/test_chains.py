"""Every checked link of every method tells its own chain, which ends at the comparison's figure and can be evaluated again."""

from __future__ import annotations

import pytest

from engine.chains import CHAINS
from engine.chains.road import Road
from engine.comparison import compare
from engine.table import LINK_KEYS
from support import assert_told, scenario_of

EVERY = ("finch_shed", "heron_depot", "kestrel_yard", "plover_terrace", "sparrow_lane", "wren_workshop")
CHANGED = [
    ("kestrel_yard", {"hardware__frame_moment": "60 lb ft"}),
    ("kestrel_yard", {"hardware__rail__deflection_ratio": 9000, "hardware__rack_beam__deflection_ratio": 9000}),
    ("kestrel_yard", {"hardware__leg_capacity": {"allowable": "90 lb"}}),
    ("kestrel_yard", {"site__wind_speed": "60 mph", "site__ground_snow": "60 psf"}),
    ("kestrel_yard", {"site__seismic_sds": 3.0, "site__wind_speed": "60 mph", "site__ground_snow": "0 psf"}),
    ("kestrel_yard", {"array__origin": ["4 ft", "3 ft"], "array__rows": 2, "array__columns": 4}),
]


def chains(name: str, **changes: object) -> int:
    scenario, told = scenario_of(name, **changes), 0
    for column in compare(scenario).columns:
        if column.design is None or column.design.attempt is None:
            continue
        road = Road(scenario.job, column.design, column.design.attempt)
        for key, check in zip(LINK_KEYS, column.links, strict=True):
            if check.utilisation is None or key not in CHAINS:
                continue
            steps = CHAINS[key](road, check)
            assert_told(steps, of=(column.id, key))
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
