"""The list of higher roofs: what is read, every value with its range, and contradictions in one sentence each."""

from __future__ import annotations

from typing import Any

import pytest

from engine.common.errors import InputError
from engine.project.size_limits import MAX_HIGHER_ROOFS
from engine.units import FOOT
from support import scenario_of

ROOF = {"side": "ridge", "height": "8 ft", "upwind_length": "60 ft", "slides_here": False}


def problems(*roofs: dict[str, Any], **changes: Any) -> dict[str, str]:
    with pytest.raises(InputError) as refused:
        scenario_of(building__higher_roofs=list(roofs), **changes)
    return {problem.path: problem.message for problem in refused.value.problems}


def test_all_of_it_is_read() -> None:
    full = ROOF | {
        "distance": "3 ft",
        "slope": "1:12",
        "ridge_distance": "30 ft",
        "slippery": True,
        "slides_here": True,
    }
    (read,) = scenario_of(building__higher_roofs=[full]).job.building.higher_roofs
    assert (read.side, read.slippery, read.slides_here) == ("ridge", True, True)
    lengths = (read.distance, read.height, read.upwind_length, read.ridge_distance)
    assert lengths == pytest.approx((3 * FOOT, 8 * FOOT, 60 * FOOT, 30 * FOOT))
    assert read.slope == pytest.approx(4.7636, abs=1e-4)


def test_defaults_are_the_safe_side() -> None:
    """Adjoining, slippery, and sliding here: the last needs its measures."""
    (read,) = scenario_of(building__higher_roofs=[ROOF]).job.building.higher_roofs
    assert (read.distance, read.slippery) == (0.0, True)
    assert scenario_of().job.building.higher_roofs == ()


@pytest.mark.parametrize(
    ("changes", "path", "sentence"),
    [
        ({"side": "north"}, "1.side", "'north' given; allowed is 'eave' or 'ridge' or 'left rake' or 'right rake'"),
        ({"height": "0 ft"}, "1.height", "'0 ft' given; allowed is 0.1 ft to 500 ft"),
        ({"height": 8}, "1.height", "8 given; write a length as text"),
        ({"distance": "-1 ft"}, "1.distance", "'-1 ft' given; allowed is 0 ft to 100 ft"),
        ({"upwind_length": "0 ft"}, "1.upwind_length", "'0 ft' given; allowed is 1 ft to 3000 ft"),
        ({"slope": "80 deg"}, "1.slope", "'80 deg' given; allowed is 0 deg to 70 deg"),
        ({"slippery": "yes"}, "1.slippery", "'yes' given; allowed is true or false"),
        ({"hight": "8 ft"}, "1.hight", "unknown; did you mean 'height'?"),
        ({"slides_here": True}, "1.slope", "missing; snow that slides here needs it, else write slides_here = false"),
        ({"slides_here": True}, "1.ridge_distance", "missing; snow that slides here needs it"),
        (
            {"ridge_distance": "61 ft"},
            "1.ridge_distance",
            "61.00 ft (18.593 m) given; allowed is at most building.higher_roofs.1.upwind_length, 60.00 ft (18.288 m): "
            "the ridge would be beyond that roof",
        ),
    ],
)
def test_what_is_refused(changes: dict[str, Any], path: str, sentence: str) -> None:
    found = problems(ROOF | changes)
    assert found[f"building.higher_roofs.{path}"].startswith(sentence)


@pytest.mark.parametrize("key", ["side", "height", "upwind_length"])
def test_what_must_be_stated(key: str) -> None:
    short = {name: value for name, value in ROOF.items() if name != key}
    assert problems(short) == {f"building.higher_roofs.1.{key}": "missing; it has no default"}


def test_the_second_of_a_list_has_its_number() -> None:
    assert list(problems(ROOF, ROOF | {"height": "x"})) == ["building.higher_roofs.2.height"]


def test_a_hip_roof_meets_a_higher_one_at_its_eave_only() -> None:
    hip = {"site__standard": "ASCE 7-22", "building__roof_shape": "hip"}
    found = problems(ROOF, ROOF | {"side": "eave"}, **hip)
    assert found == {
        "building.higher_roofs.1.side": "'ridge' given; on a hip roof only 'eave' can meet a higher roof",
    }


def test_too_many_of_them() -> None:
    found = problems(*[ROOF] * (MAX_HIGHER_ROOFS + 1))
    assert found["building.higher_roofs"] == "21 higher roofs given; allowed are 20"
