"""What must not be missed: which flags each bundled job raises, and the figures in their words by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.comparison.figures import value_of
from engine.comparison.flags import Flag, verdict
from engine.design.search import SpanLimits
from engine.load_path.added_load import added_pressure
from support import WEAKER_ROOF, scenario_of

RAISED = {
    ("finch_shed", "rail"): "overspan not_checked_rib_at_clamp not_checked_roof_member all_exposed floor_w_down snow_higher_roof snow_unbalanced closer_is_worse snow_shedding strength strength invented_strengths near_ends even_load_table review_structure no_check_needed no_check_needed no_check_needed no_check_needed",
    ("finch_shed", "direct"): "edge_consent not_checked_module_frame not_checked_rib_at_clamp not_checked_roof_member all_exposed floor_w_down snow_higher_roof snow_unbalanced snow_shedding strength strength invented_strengths near_ends even_load_table review_structure no_check_needed no_check_needed no_check_needed no_check_needed",
    ("heron_depot", "rail"): "overspan all_exposed floor_w_down snow_higher_roof snow_thermal modules_lost cantilever strength invented_strengths near_ends even_load_table review_structure shown_by_others no_check_needed reported",
    ("heron_depot", "tilted_rack"): "overspan edge_consent snow_drift snow_higher_roof snow_thermal modules_lost cantilever strength invented_strengths near_ends even_load_table review_structure shown_by_others no_check_needed reported",
    ("kestrel_yard", "rail"): "overspan all_exposed floor_w_up floor_w_down snow_higher_roof snow_unbalanced cantilever snow_shedding strength invented_strengths near_ends even_load_table review_structure shown_by_others no_check_needed reported",
    ("kestrel_yard", "direct"): "edge_consent all_exposed floor_w_up floor_w_down snow_higher_roof snow_unbalanced snow_shedding strength invented_strengths even_load_table review_structure shown_by_others no_check_needed reported",
    ("magpie_annex", "rail"): "overspan overhang all_exposed floor_w_up floor_w_down snow_drift_step snow_sliding snow_shedding strength invented_strengths near_ends even_load_table review_structure no_check_needed reported",
    ("plover_terrace", "rail"): "floor_w_up floor_w_down snow_higher_roof snow_unbalanced snow_thermal cantilever snow_shedding invented_strengths near_ends even_load_table review_structure shown_by_others no_check_needed reported",
    ("plover_terrace", "tilted_rack"): "does_not_fit",
    ("sparrow_lane", "tilted_rack"): "outside_scope outside_scope coefficient_needed edge_consent snow_drift snow_higher_roof snow_unbalanced snow_shedding invented_strengths",
    ("wren_workshop", "rail"): "over nothing_found roof_holds_nowhere not_checked_rib_at_clamp not_checked_roof_member all_exposed floor_w_down snow_higher_roof snow_unbalanced snow_shedding invented_strengths near_ends even_load_table review_structure no_check_needed no_check_needed no_check_needed",
}  # fmt: skip
FOOT = 0.3048


def column(method: str, name: str = "kestrel_yard", **changes: object) -> Column:
    return compare(scenario_of(name, **changes), (method,)).columns[0]


def flags(code: str, method: str, **changes: object) -> list[Flag]:
    return [flag for flag in column(method, **changes).flags if flag.code == code]


@pytest.mark.parametrize(("name", "method"), RAISED)
def test_every_flag_of_a_bundled_job(name: str, method: str) -> None:
    assert " ".join(flag.code for flag in column(method, name).flags) == RAISED[name, method]


def test_what_the_array_adds_to_a_deck_by_hand() -> None:
    """Sparrow Lane: pg 20 psf, Ct 1.0 and 1.2, 3:12: weight, and 0.7 x 20 x 0.2 = 2.8 psf of snow, over ps and 1.5 psf."""
    found = column("rail", "sparrow_lane", site__ground_snow="20 psf")
    (flag,) = [flag for flag in found.flags if flag.code == "review_structure"]
    weight = value_of(found, "dead_load_pa")
    assert isinstance(weight, float)
    assert found.candidate
    added = added_pressure(found.candidate.demands)
    assert added.weight == pytest.approx(weight)
    share = (added.weight + added.snow) / added.roof
    assert f"{share:.0%} of the" in flag.text
    assert flag.text.endswith("From 5% on, the building's engineer must show it (IEBC 805.2, 806.2)")


def test_the_purlin_on_which_load_and_moment_grow_most_is_named() -> None:
    """Kestrel Yard, seams clamped: 22 ft bays; without spans the load along the array alone."""
    (without,) = flags("review_structure", "direct")
    assert without.text.startswith("The load on purlin 5, 21.00 ft (6.401 m) from the eave, grows by")
    assert "state the spans in [roof.member] for its moment" in without.text
    (flag,) = flags("review_structure", "direct", roof__member={"spans": "22 ft"})
    assert "between two supports in D + S unbalanced; the moment of purlin" in flag.text


@pytest.mark.parametrize(
    ("snow", "thermal", "said"),
    [
        ("20 psf", "heated", True),
        ("0 psf", "heated", True),
        ("120 psf", "heated", True),
        ("120 psf", "unheated", False),
    ],
)
def test_less_than_a_twentieth_of_dead_load_and_snow_is_not_worth_a_word(snow: str, thermal: str, said: bool) -> None:
    """On a deck, 2.6 psf of weight beside 100 psf of snow is 3 %; where the roof is heated Ct 1.2 adds a fifth of it."""
    found = column("rail", "sparrow_lane", site__ground_snow=snow, building__thermal=thermal)
    assert ("review_structure" in {flag.code for flag in found.flags}) == said


@pytest.mark.parametrize(
    ("setbacks", "words"),
    [
        ({"eave": "15 ft"}, []),
        (
            {"eave": "16 ft"},
            [
                "24 modules are nearer to the eave than the stated setback of 16.00 ft (4.877 m); the nearest is 15.50 ft"
            ],
        ),
        (
            {"rakes": "60 ft"},
            ["42 modules are nearer to the rakes than the stated setback of 60.00 ft (18.288 m); the nearest is"],
        ),
        (
            {"ridge": "30 ft"},
            ["modules are nearer to the ridge than the stated setback of 30.00 ft (9.144 m); the nearest is"],
        ),
        ({"eave": "16 ft", "ridge": "30 ft"}, ["to the eave", "to the ridge"]),
    ],
)
def test_setbacks(setbacks: dict[str, str], words: list[str]) -> None:
    """Kestrel Yard's 6 rows of 24 begin 15.5 ft from the eave and 40 ft from the rake; at 5.69 ft a column 4 columns start within
    60 ft of the left rake, and 3 end within 60 ft of the right one.
    """
    found = flags("setback", "direct", array__setbacks=setbacks)
    assert len(found) == len(words)
    for flag, said in zip(found, words, strict=True):
        assert said in flag.text


@pytest.mark.parametrize(("x", "ends"), [("0.1 ft", 1), ("1.9 ft", 0)])
def test_ends_that_reach_too_far_are_counted_on_both_sides(x: str, ends: int) -> None:
    """A rail of four portrait modules: 15.005 ft over seams 2 ft apart; the stub beside the last seam may be a third of 2 ft.

    From 0.1 ft on it ends at 15.105 ft: 1.9 ft before the first seam at 2 ft, 1.105 ft past that at 14 ft; from 1.9 ft on 0.1 ft and
    0.905 ft: the right end is then too long as well, and the left one is not.
    """
    changes = {"methods__rail__spacing": "1 ribs", "array__rows": 1, "array__columns": 2, "array__origin": [x, "20 ft"]}
    (flag,) = flags("cantilever", "rail", **changes)
    assert flag.text.startswith(f"{2 * (1 + ends)} overhangs exceed 0.33 of the adjacent span")


@pytest.mark.parametrize(
    ("wind", "up"), [("105 mph", "48 of 144 modules"), ("60 mph", "all 144 modules"), ("180 mph", None)]
)
def test_on_how_many_modules_the_floor_governs(wind: str, up: str | None) -> None:
    """The floor of 16 psf against qh (GCp) γE γa at each module's own area."""
    (column,) = compare(scenario_of(site__wind_speed=wind), ("direct",)).columns
    assert column.design
    every = np.arange(144)
    pulls = column.design.loads.wind("W up", every, np.full(144, column.design.field.area))
    at_floor = int((np.abs(pulls / 47.880259) < 16.0 + 1e-6).sum())
    said = [flag.text for flag in column.flags if flag.code == "floor_w_up"]
    assert at_floor == {"48 of 144 modules": 48, "all 144 modules": 144, None: 0}[up]
    assert said == ([f"The 16.0 psf (0.766 kPa) minimum wind governs uplift on {up}"] if up else [])


def test_nothing_is_said_to_be_missing_where_a_pattern_was_found() -> None:
    found = column("rail", roof__fastening__uplift={"allowable": "2000 lb"})
    assert found.status == "holds"
    assert not {"over", "nothing_found", "remedied", "roof_holds_nowhere"} & {flag.code for flag in found.flags}
    fixed = column("rail", methods__rail__spacing="4 ribs")
    assert fixed.status == "over"
    assert "nothing_found" not in {flag.code for flag in fixed.flags}


def test_a_method_that_is_refused_has_no_figures() -> None:
    refused = column("tilted_rack", "plover_terrace")
    assert refused.status == "refused"
    assert value_of(refused, "attachments_per_module") is None
    assert value_of(refused, "cost_per_watt") is None
    assert refused.controlling is None


def test_a_closer_spacing_that_fails_within_both_limits_is_a_caution() -> None:
    """Finch Shed with a rail of 6 ft and a roof of 8 ft that fails at 4 ft; a failure beyond the rail's limit is none."""
    scenario = scenario_of("finch_shed")
    (made,) = compare(scenario, ("rail",)).columns
    assert made.design
    for failing, codes in ((4, ["closer_spacing_fails"]), (7, [])):
        limits = SpanLimits(6 * FOOT, 8 * FOOT, (), ((failing * FOOT, failing * FOOT),))
        found = [
            flag for flag in verdict.flags(scenario.job, replace(made.design, limits=limits)) if "span" in flag.text
        ]
        assert [flag.code for flag in found] == codes
        for flag in found:
            assert flag.severity == "caution"
            assert "Closer spacings at which the roof fails: 4.00 ft (1.219 m). Use only a spacing" in flag.text


def test_the_roof_that_fails_at_every_spacing_is_stated_at_the_rails_own_span() -> None:
    """Kestrel Yard's rails on weaker clips: 8 ft, where a clip of 350 lb carries the 635 lb of `test_hand_calculation`."""
    (flag,) = flags("roof_holds_nowhere", "rail", **WEAKER_ROOF)
    assert "At the rail's own span of 8.00 ft (2.438 m) the clip is at 1.81 of its allowable." in flag.text
    assert value_of(column("rail", **WEAKER_ROOF), "overspan_basis") == "load"
    assert value_of(column("rail"), "overspan_basis") == "spans"
    assert value_of(column("tilted_rack"), "overspan_basis") == "spans"
    assert value_of(column("direct"), "overspan_basis") is None
