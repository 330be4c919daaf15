"""What acts upright and toward the eave, resolved normal to the roof and down it."""

from __future__ import annotations

import numpy as np
import pytest

from engine.chains.road import Road
from engine.comparison import compare
from support import scenario_of


def test_an_earthquake_toward_the_eave_is_resolved_along_the_slope() -> None:
    """Turned back by the slope (3:12), the two forces are the parts of the weight again that act upright and along the ground."""
    scenario = scenario_of(site__seismic_sds=1.0, building__slope="3:12", methods__rail__spacing="2 ribs")
    design = compare(scenario, ("rail",)).columns[0].design
    assert design
    assert design.attempt
    forces, slope = Road(scenario.job, design, design.attempt).forces, np.arctan(3 / 12)
    pushed = {case: part for case, part in design.loads.weight_cases.items() if part.toward_eave}
    assert pushed
    for case, part in pushed.items():
        (normal,), (down,) = forces.of(case, np.array([0]), np.array([1.0]))
        assert normal * np.cos(slope) + down * np.sin(slope) == pytest.approx(part.downward * forces.weight)
        assert down * np.cos(slope) - normal * np.sin(slope) == pytest.approx(part.toward_eave * forces.weight)


def test_only_an_earthquake_acts_along_the_eave() -> None:
    scenario = scenario_of(site__seismic_sds=1.0, methods__rail__spacing="2 ribs")
    design = compare(scenario, ("rail",)).columns[0].design
    assert design
    assert design.attempt
    forces = Road(scenario.job, design, design.attempt).forces
    across = {case for case in forces.cases if forces.across(case)}
    assert across
    assert across <= set(design.loads.weight_cases) - {"D"}
