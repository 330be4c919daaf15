"""Arrays parallel to the roof, ASCE 7 §29.4.4: factors at their break points, limits one by one."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from standards_fields import FLUSH, building, field, loads

from engine.loads.asce7 import array_flush
from engine.loads.asce7.array_edges import edge_factor
from engine.loads.asce7.net_pressure import DOWN, UP
from engine.units import FOOT, INCH


@pytest.mark.parametrize(
    ("area", "expected"),
    [(1, 0.8), (10, 0.8), (10 * 10**0.5, 0.6), (100, 0.4), (1000, 0.4), (10.0001, 0.8), (99.999, 0.4)],
)
def test_pressure_equalization(area: float, expected: float) -> None:
    """Fig. 29.4-8: .8 to 10 ft², .4 from 100 ft², straight in log A; continuous at both ends."""
    assert array_flush.pressure_equalization(np.array([area]))[0] == pytest.approx(expected, abs=1e-5)


def test_edge_factor() -> None:
    """1.5 for uplift on exposed modules only."""
    exposed = np.array([True, False])
    assert edge_factor(UP, exposed).tolist() == [1.5, 1.0]
    assert edge_factor(DOWN, exposed).tolist() == [1.0, 1.0]


def said(*, of: object = None, **changes: object) -> list[str]:
    modules = field(attitude=replace(FLUSH, **changes.pop("attitude", {})), **changes)  # type: ignore[arg-type]
    return [limit.sentence for limit in array_flush.limits(of or building(), modules)]  # type: ignore[arg-type]


def test_within_all_limits() -> None:
    assert said() == []
    assert said(attitude={"high": 10 * INCH}) == []
    assert said(gap=(0.25 / 12, 0.25 / 12)) == []
    assert said(at=(60.0, 0.84)) == said(at=(0.84, 30.0)) == said(at=(60.0, 60.208 - 12.15 - 0.84)) == []


def test_height() -> None:
    (sentence,) = said(attitude={"high": 10.5 * INCH})
    assert sentence == "the modules' top is 10.50 in (267 mm) above the roof, the limit is 10.00 in (254 mm)"


def test_gap() -> None:
    (sentence,) = said(gap=(0.2 / 12, 0.2 / 12))
    assert sentence == "the gap between modules is 0.20 in (5 mm), the minimum is 0.25 in (6 mm)"
    assert said(gap=(0.0, 0.0), rows=1, columns=1) == []


@pytest.mark.parametrize(
    ("at", "edge"),
    [
        ((60.0, 0.8), "eave"),
        ((0.8, 30.0), "left rake"),
        ((200 - 36.25 - 0.8, 30.0), "right rake"),
        ((60.0, 60.208 - 12.15 - 0.8), "ridge"),
    ],
)
def test_distance_from_every_edge(at: tuple[float, float], edge: str) -> None:
    """Top at 5 in: 10 in from eave, rakes and ridge, measured along the roof (60 ft of plan are 60.208 ft of slope)."""
    (sentence,) = said(at=at)
    assert (
        sentence
        == f"the array is 0.80 ft (0.244 m) from the {edge}, the minimum is 0.83 ft (0.254 m) (twice its height)"
    )


def test_the_ridge_of_a_single_slope_is_its_high_edge() -> None:
    (sentence,) = said(
        of=building(roof_shape="monoslope", width="60 ft", slope="2 deg"), at=(60.0, 60.0366 - 12.15 - 0.5)
    )
    assert "from the high edge" in sentence


def test_long_modules_are_flagged_and_still_covered() -> None:
    found = loads(modules=field(size=(7.5, 3.0), attitude=replace(FLUSH, long_side=7.5 * FOOT)))
    assert found.outside == ()
    assert "long_module" in {remark.code for remark in found.remarks}
    assert "long_module" not in {remark.code for remark in loads().remarks}


def test_tilt_to_two_degrees_is_parallel() -> None:
    """Beyond 2 deg the clause for tilted rows answers, with its own zones."""
    parallel = loads(modules=field(attitude=replace(FLUSH, tilt=2.0)))
    tilted = loads(modules=field(attitude=replace(FLUSH, tilt=2.1)))
    assert parallel.zone_names == ("1'", "1", "2", "3")
    assert tilted.zone_names == ("1", "2", "3")


def test_a_parapet_presses_modules_near_the_edge() -> None:
    """Flat roof, h 20 ft: modules 2 ft from the eave lie in zone 2 (to 12 ft): GCp 1.0 to 10 ft², γa 0.8, and 0.3 without it."""
    near = field(at=(60.0, 2.0))
    area = np.full(1, 5.0 * FOOT**2)
    module = np.zeros(1, dtype=np.int64)
    pressed = [
        loads(of=building(parapet_height=high), modules=near).module_wind.coefficient("W down", module, area / FOOT**2)[
            0
        ]
        for high in ("2 ft", "3 ft")
    ]
    assert pressed == pytest.approx([0.3 * 0.8, 1.0 * 0.8])
