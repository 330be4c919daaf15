"""Vertical and horizontal forces on modules, resolved normal to the roof and down the slope."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import compare
from support import scenario_of


def test_seismic_force_toward_the_eave_is_resolved_along_the_slope() -> None:
    """Rotated back by the slope (3:12), the two forces are the vertical and horizontal parts of the weight again."""
    scenario = scenario_of(site__seismic_sds=1.0, building__slope="3:12", methods__rail__spacing="2 ribs")
    design = compare(scenario, ("rail",)).columns[0].design
    assert design
    assert design.candidate
    forces, slope = design.candidate.demands.forces, np.arctan(3 / 12)
    pushed = {case: part for case, part in design.loads.weight_cases.items() if part.toward_eave}
    assert pushed
    for case, part in pushed.items():
        (normal,), (down,) = forces.of(case, np.array([0]), np.array([1.0]))
        assert normal * np.cos(slope) + down * np.sin(slope) == pytest.approx(part.downward * forces.weight)
        assert down * np.cos(slope) - normal * np.sin(slope) == pytest.approx(part.toward_eave * forces.weight)


def test_only_seismic_force_acts_along_the_eave() -> None:
    scenario = scenario_of(site__seismic_sds=1.0, methods__rail__spacing="2 ribs")
    design = compare(scenario, ("rail",)).columns[0].design
    assert design
    assert design.candidate
    forces = design.candidate.demands.forces
    across = {case for case in forces.cases if forces.across(case)}
    assert across
    assert across <= set(design.loads.weight_cases) - {"D"}


@pytest.mark.parametrize(("side", "downhill"), [("eave", 1), ("ridge", -1)])
def test_wind_acts_along_the_normal_of_a_tilted_module(side: str, downhill: int) -> None:
    """With its low edge toward the eave a module faces down the slope.

    Uplift also pulls it down the slope, by the sine of its tilt.
    """
    scenario = scenario_of(methods__tilted_rack={"spacing": "2 ribs", "low_side": side})
    design = compare(scenario, ("tilted_rack",)).columns[0].design
    assert design
    assert design.candidate
    forces, tilt = design.candidate.demands.forces, np.radians(10)
    module, area = np.array([40]), np.array([3.0])
    pull = design.loads.wind("W up", module, area).item() * design.field.area
    assert pull < 0
    (normal,), (down,) = forces.of("W up", module, area)
    assert normal == pytest.approx(pull * np.cos(tilt))
    assert down == pytest.approx(-pull * np.sin(tilt) * downhill)


def test_snow_counts_per_horizontal_area_of_a_tilted_module() -> None:
    """Roof 1:12 and tilt 10 deg: vertical snow on the module's horizontal projection.

    The resolved forces add up to it.
    """
    scenario = scenario_of(methods__tilted_rack__spacing="2 ribs", site__ground_snow="40 psf")
    design = compare(scenario, ("tilted_rack",)).columns[0].design
    assert design
    assert design.candidate
    forces, slope = design.candidate.demands.forces, np.arctan(1 / 12)
    (normal,), (down,) = forces.of("S", np.array([7]), np.array([1.0]))
    upright = design.loads.snow("S", np.array([7])).item() * design.field.area * np.cos(slope + np.radians(10))
    assert normal * np.cos(slope) + down * np.sin(slope) == pytest.approx(upright)
    assert down * np.cos(slope) - normal * np.sin(slope) == pytest.approx(0.0, abs=1e-9 * upright)
