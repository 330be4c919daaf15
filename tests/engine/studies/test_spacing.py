"""Spacing study: with wider spacing there are fewer attachments, and each link fails at some spacing."""

from __future__ import annotations

import re

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from engine.studies.spacing import SpacingStudy, study
from support import scenario_of


@pytest.fixture(scope="module")
def studies() -> dict[str, SpacingStudy]:
    return {each.id: each for each in study(scenario_of())}


def test_spacings_from_one_rib_to_beyond_the_rail_span_limit(studies: dict[str, SpacingStudy]) -> None:
    rail = studies["rail"]
    assert [row.label for row in rail.rows[:3]] == ["every seam", "every 2nd seam", "every 3rd seam"]
    counts = [row.attachments for row in rail.rows]
    assert counts == sorted(counts, reverse=True)
    spans = [row.span for row in rail.rows]
    assert spans == sorted(spans)
    assert rail.limits
    assert rail.limits.member
    assert spans[-1] > rail.limits.member


def test_the_roof_fails_long_before_the_rail(studies: dict[str, SpacingStudy]) -> None:
    """On the default scenario clips and seams fail at every 3rd seam, the rail at every 5th."""
    rail = studies["rail"]
    assert rail.first_failure == {
        "seam bending": "every 3rd seam",
        "clip": "every 3rd seam",
        "attachment": "every 4th seam",
        "seam at the clamp": "every 4th seam",
        "rail": "every 5th seam",
        "panel anchorage": "every 7th seam",
    }
    assert rail.sentence == (
        "The rail spans 8.00 ft (2.438 m); the roof allows 4.00 ft (1.219 m). "
        "The rail's span is 2.0 times what the roof allows"
    )


def test_one_spacing_of_the_study_equals_the_comparison(studies: dict[str, SpacingStudy]) -> None:
    """At every 4th seam: 160 attachments, 1.57 of a clip.

    A hand calculation of that comparison stands in `tests/validation`.
    """
    (fixed,) = compare(scenario_of(methods__rail__spacing="4 ribs"), ("rail",)).columns
    row = studies["rail"].rows[3]
    assert (row.attachments, row.attachment_up, row.hardware_cost) == (
        value_of(fixed, "attachments"),
        value_of(fixed, "point_load_up_n"),
        value_of(fixed, "hardware_cost"),
    )
    assert [check.utilisation for check in row.checks.values()] == [
        check.utilisation for check in fixed.checks.values()
    ]


def test_every_spacing_has_a_verdict_in_words(studies: dict[str, SpacingStudy]) -> None:
    """The clips at every seam, every 4th seam and under the rack are those of `tests/validation`."""
    sentences = [row.sentence for row in studies["rail"].rows]
    assert sentences[0] == "Every component checked holds: clip at 0.86 of allowable."
    assert sentences[3] == "The rail holds, the roof fails: clip at 1.48 of allowable."
    assert sentences[4] == "Both the rail and the roof fail: seam at 1.69 of allowable."
    assert studies["tilted_rack"].rows[1].sentence == "Every component checked holds: clip at 0.82 of allowable."
    (terrace,) = study(scenario_of("plover_terrace", roof__panel__at_clamp_down={"allowable": "5000 lb"}), ("rail",))
    assert terrace.rows[5].sentence == "The roof holds, the rail fails: 2.18 of allowable."
    assert terrace.rows[0].sentence == "The rail holds, the panel anchorage fails: 1.24 of allowable."


@pytest.mark.parametrize("method", ["rail", "tilted_rack", "direct"])
def test_the_elevation_shows_the_largest_load_under_its_members(studies: dict[str, SpacingStudy], method: str) -> None:
    for row in studies[method].rows:
        for seen, largest in (
            (row.at_largest_uplift, row.attachment_up),
            (row.at_largest_down_load, row.attachment_down_load),
        ):
            assert seen.force.max() == largest
            assert (seen.at[1:] > seen.at[:-1]).all()
            start, end = seen.members[:, 0], seen.members[:, 1]
            assert all(((start <= x + 0.1) & (x - 0.1 <= end)).any() for x in seen.at)


def test_positions_that_the_member_crosses(studies: dict[str, SpacingStudy]) -> None:
    """Rails along the eave cross seams; up the slope they run from fastening to fastening."""
    scenario = scenario_of()
    np.testing.assert_array_equal(studies["rail"].crossed_at, scenario.job.roof.ribs(scenario.job.building))
    assert (studies["rail"].member, studies["rail"].runs_up_slope) == ("rail", False)
    shop = scenario_of("wren_workshop", methods__rail__runs="up the slope", module__clamp_zone=["150 mm", "500 mm"])
    (up,) = study(shop, ("rail",))
    assert up.runs_up_slope
    np.testing.assert_array_equal(up.crossed_at, shop.job.roof.supports(shop.job.building))


def test_equal_patterns_are_shown_once() -> None:
    (shed,) = study(scenario_of("finch_shed"), ("rail",))
    assert [row.label for row in shed.rows].count("every 15th rib") == 1


def test_direct_shows_all_numbers_per_edge(studies: dict[str, SpacingStudy]) -> None:
    """Two columns overhang too far at every number, unless the frame's strength is stated."""
    (weak,) = study(scenario_of(hardware__frame_moment=None), ("direct",))
    assert weak.sentence == "Fails at every spacing"
    direct = studies["direct"]
    assert [row.label for row in direct.rows] == ["3 per edge", "2 per edge"]
    assert direct.limits is None
    assert direct.sentence == "Holds at 2 per edge, 3 per edge"


def test_a_method_outside_the_scope_gives_the_reason() -> None:
    house = {each.id: each for each in study(scenario_of("sparrow_lane"))}
    assert not house["tilted_rack"].rows
    assert "26.57 deg" in house["tilted_rack"].sentence


def test_it_tells_which_of_how_many_spacings_it_tries() -> None:
    told: list[str] = []
    (found,) = study(scenario_of("finch_shed", site__wind_speed="99 mph"), ("rail",), told.append)
    counts = [re.match(r"(\d+) of (\d+): rails: every", words) for words in told]
    assert [int(each[1]) for each in counts if each] == list(range(1, len(counts) + 1))
    assert len(found.rows) <= len(counts) <= int(counts[0][2])  # type: ignore[index]
