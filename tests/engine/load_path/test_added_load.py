"""What the array adds to purlins and to the roof, against an independent worked example and by hand."""

from __future__ import annotations

import numpy as np
import pytest

from engine.common.combination import Combination
from engine.comparison.compare import compare
from engine.load_path.added_load import added_pressure, gravity_combinations, increase_of_load, increase_of_moment
from engine.load_path.demands import Demands
from engine.load_path.roof_members import RoofMembers
from engine.units import FOOT, POUND_FORCE, PSF
from support import scenario_of

D, D_S, WIND = (
    Combination("D", {"D": 1.0}),
    Combination("D + S", {"D": 1.0, "S": 1.0}, "snow"),
    Combination("W", {"W": 1.0}, "wind"),
)
FRAMES, X = np.arange(6) * 25 * FOOT, np.arange(0.125, 125, 0.25) * FOOT


def purlins(*bays: int, frames: np.ndarray | None = FRAMES) -> RoofMembers:
    """Two purlins 5 ft wide over five bays of 25 ft, the second with the array on some bays: 20.5 to 26.68 psf."""
    bare = np.full((2, len(X), 1), 20.5 * 5 * 0.25 * POUND_FORCE)
    added = np.zeros_like(bare)
    added[1, np.isin(np.floor(X / FOOT / 25) + 1, bays)] = 6.18 * 5 * 0.25 * POUND_FORCE
    nothing = np.zeros_like(bare)
    forces = [np.concatenate([nothing, each, nothing], axis=2) for each in (added, bare, bare)]
    return RoofMembers(np.array([0.0, 5 * FOOT]), frames, X, *forces)


def test_an_array_on_one_bay_adds_47_percent_of_moment_for_30_percent_of_load() -> None:
    """2950 to 4348 lb ft in bay 3, whose middle is 62.5 ft from the rake."""
    found = increase_of_moment(purlins(3), (D, D_S, WIND))
    assert found
    assert (found.line, found.combination) == (1, "D + S")
    assert found.along / FOOT == pytest.approx(62.5)
    assert found.before / POUND_FORCE / FOOT == pytest.approx(2950, rel=3e-3)
    assert found.after / POUND_FORCE / FOOT == pytest.approx(4348, rel=3e-3)
    assert found.share == pytest.approx(0.47, abs=5e-3)
    load = increase_of_load(purlins(3), (D, D_S, WIND), (0.0, 1.0))
    assert load.share == pytest.approx(0.301, abs=1e-3)
    assert (load.line, load.along / FOOT) == (1, pytest.approx(62.5))
    assert load.before / POUND_FORCE == pytest.approx(20.5 * 5 * 25)


def test_an_array_on_all_bays_adds_as_much_moment_as_load() -> None:
    found = increase_of_moment(purlins(1, 2, 3, 4, 5), (D, D_S, WIND))
    assert found
    assert found.share == pytest.approx(6.18 / 20.5)


def test_without_spans_the_load_along_the_array_is_compared() -> None:
    unknown = purlins(3, frames=None)
    assert increase_of_moment(unknown, (D, D_S, WIND)) is None
    along = increase_of_load(unknown, (D, D_S, WIND), (50 * FOOT, 75 * FOOT))
    assert along.share == pytest.approx(6.18 / 20.5)
    half = increase_of_load(unknown, (D, D_S, WIND), (25 * FOOT, 75 * FOOT))
    assert half.share == pytest.approx(6.18 / 20.5 / 2)


def test_without_snow_dead_loads_are_compared() -> None:
    assert gravity_combinations((D, D_S, WIND)).tolist() == [1]
    assert gravity_combinations((D, WIND)).tolist() == [0]


def demands(**changes: object) -> Demands:
    (column,) = compare(scenario_of(**changes), ("direct",)).columns
    assert column.candidate
    return column.candidate.demands


@pytest.mark.parametrize(
    ("changes", "snow", "roof"),
    [
        ({}, 3.5, 1.5 + 17.5),
        ({"site__standard": "ASCE 7-22", "site__ground_snow": "40 psf", "site__roof_thermal_resistance": "20 h ft2 F/Btu"}, 0.7 * 0.7 * 40 * 0.19, None),
        ({"building__thermal": "unheated"}, 0.0, 1.5 + 21.0),
        ({"site__ground_snow": "0 psf"}, 0.0, 1.5),
    ],
)  # fmt: skip
def test_snow_that_the_array_adds_by_hand(changes: dict[str, object], snow: float, roof: float | None) -> None:
    """pf = 0.7 Ct pg (Is = Ce = 1): Ct 1.2 on modules; 1.0 on the heated roof; in 7-22, R 20 and 40 psf, 1.01, with 0.7
    from its strength level to that of the dead load. Per area of the slope, cos 4.76 deg."""
    found = added_pressure(demands(building__roof_shape="monoslope", building__width="55 ft", **changes))
    cosine = np.cos(np.arctan(1 / 12))
    assert found.snow / PSF == pytest.approx(snow * cosine, abs=1e-9)
    if roof is not None:
        assert found.roof / PSF == pytest.approx(1.5 + (roof - 1.5) * cosine)
