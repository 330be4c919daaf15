"""The module maker's ratings by support: what is read, and every wrong combination refused in one sentence."""

from __future__ import annotations

from typing import Any

import pytest

from engine.common.errors import InputError
from engine.scenario.listing import inputs_of
from support import scenario_of

ROW: dict[str, Any] = {"side": "long", "up": {"test": "2400 Pa"}, "down": {"test": "5400 Pa"}}
NO_OTHERS = {"module__rating_up": None, "module__rating_down": None}
CHOICE = "give rating_up and rating_down for any support, or ratings by support"


def problems(**changes: object) -> dict[str, str]:
    with pytest.raises(InputError) as refused:
        scenario_of(**changes)
    return {problem.path: problem.message for problem in refused.value.problems}


def test_a_rating_by_support_is_read_with_its_defaults() -> None:
    """Clamps, with any rails, at any place and any number of points, unless the row says otherwise."""
    (plain,) = scenario_of(**NO_OTHERS, module__ratings=[ROW]).job.module.ratings
    assert (plain.side, plain.hold, plain.rails, plain.zone, plain.points) == ("long", "clamp", None, None, None)
    assert plain.words == "long side, clamp"
    full = {**ROW, "hold": "bolt", "rails": "across", "zone": ["250 mm", "500 mm"], "points": 6}
    (row,) = scenario_of(**NO_OTHERS, module__ratings=[full]).job.module.ratings
    assert row.zone == (0.25, 0.5)
    assert row.words == (
        "long side, bolt, rails across, 9.84 in (250 mm) to 19.69 in (500 mm) from a corner, 6 or more points"
    )


def test_ratings_by_support_are_listed_as_written() -> None:
    rows = {row.path: row for row in inputs_of(scenario_of(**NO_OTHERS, module__ratings=[ROW]))}
    assert rows["module.ratings"].stated
    assert rows["module.ratings"].written.startswith('[{ side = "long", up = { test = "2400 Pa" }')
    assert rows["module.rating_up"].written == "not set"
    assert {row.path: row for row in inputs_of(scenario_of())}["module.ratings"].written == "not set"


@pytest.mark.parametrize(
    ("changes", "path", "sentence"),
    [
        ({"module__ratings": [ROW]}, "module.ratings", f"module.rating_up and module.rating_down given too; {CHOICE}"),
        ({"module__ratings": [ROW], "module__rating_up": None}, "module.ratings", f"module.rating_down given too; {CHOICE}"),
        ({"module__rating_up": None}, "module.rating_up", f"missing; {CHOICE}"),
        ({"module__rating_down": None}, "module.rating_down", f"missing; {CHOICE}"),
        (NO_OTHERS, "module.rating_up", f"missing; {CHOICE}"),
        ({**NO_OTHERS, "module__ratings": []}, "module.rating_up", f"missing; {CHOICE}"),
        ({**NO_OTHERS, "module__ratings": [ROW] * 51}, "module.ratings", "51 ratings given; allowed are 50"),
        (
            {**NO_OTHERS, "module__ratings": [ROW, {**ROW, "side": "short", "zone": ["0 mm", "568 mm"]}]},
            "module.ratings.2.zone",
            "ends beyond the middle of the short side; give from and to, measured from the corner",
        ),
        (
            {**NO_OTHERS, "module__ratings": [{**ROW, "zone": ["500 mm", "250 mm"]}]},
            "module.ratings.1.zone",
            "the second length must be larger than the first"
        ),
        ({**NO_OTHERS, "module__ratings": [{**ROW, "side": "top"}]}, "module.ratings.1.side", "'top' given; allowed is 'long' or 'short'"),
        ({**NO_OTHERS, "module__ratings": [{**ROW, "sides": "long"}]}, "module.ratings.1.sides", "unknown; did you mean 'side'?"),
        ({**NO_OTHERS, "module__ratings": [{**ROW, "points": 1}]}, "module.ratings.1.points", "1 given; allowed is 2 to 20"),
        ({**NO_OTHERS, "module__ratings": [{**ROW, "up": {}}]}, "module.ratings.1.up", "give exactly one of 'test' and 'design'"),
        ({**NO_OTHERS, "module__ratings": [{"side": "long", "up": ROW["up"]}]}, "module.ratings.1.down", "missing; it has no default"),
        ({**NO_OTHERS, "module__ratings": "2400 Pa"}, "module.ratings", "'2400 Pa' given; allowed is a table or list"),
    ],
)  # fmt: skip
def test_a_wrong_combination_of_ratings_is_refused_in_one_sentence(
    changes: dict[str, Any], path: str, sentence: str
) -> None:
    """The short side is 1134 mm, so that its middle is 567 mm from the corner."""
    found = problems(**changes)
    assert list(found) == [path]
    assert sentence in found[path]


def test_a_zone_that_ends_in_the_middle_of_its_side_is_allowed() -> None:
    row = {**ROW, "side": "short", "zone": ["0 mm", "567 mm"]}
    assert scenario_of(**NO_OTHERS, module__ratings=[row]).job.module.ratings[0].zone == pytest.approx((0, 0.567))
