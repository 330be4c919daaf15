"""Attachments shared by neighbouring modules, supportable stretches of edges, and special cases of layouts."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.comparison.compare import Column, compare
from engine.comparison.figures import value_of
from support import scenario_of
from support.balance import checked_designs
from support.columns import demands, number
from support.generated import EVERY_RIB, cases

SMALL = {"array__rows": 3, "array__columns": 6}


def direct(**changes: object) -> Column:
    return compare(scenario_of(**{**SMALL, **changes}), ("direct",)).columns[0]


@given(st.integers(10, 30), st.integers(95, 130))
@cases(40)
def test_neighbours_share_their_attachments(gap: int, origin: int) -> None:
    """Two attachments an edge, three rows, six columns: 6 x 4 lines x 2 = 48; clips carry the sum of their forces."""
    column = direct(array__gap=f"{gap} mm", array__origin=["12.2 m", f"{origin * 5} cm"])
    if column.design is None or column.design.candidate is None:
        return
    two = direct(
        array__gap=f"{gap} mm", array__origin=["12.2 m", f"{origin * 5} cm"], methods__direct__spacing="2 per edge"
    )
    assert value_of(two, "attachments") == 48
    demands = column.design.candidate.demands
    np.testing.assert_allclose(
        demands.fastening_from_attachments.sum(axis=(0, 1)), demands.attachment_normal.sum(axis=0), rtol=1e-9, atol=1e-6
    )


@pytest.mark.parametrize("stretch", [["100 mm", "861 mm"], ["250 mm", "600 mm"], ["100 mm", "400 mm"]])
def test_edges_are_held_only_in_the_supportable_stretch(stretch: list[str]) -> None:
    column = direct(module__edge_support=stretch, roof__rib_spacing="12 in")
    near, far = (float(length.split()[0]) / 1000 for length in stretch)
    assert column.design
    for lines in column.design.layout.lines:
        ribs = 0.3048 * lines.stands_on
        from_corner = np.minimum(ribs - lines.start, lines.end - ribs)
        assert from_corner.min() >= near - 1e-9
        assert from_corner.max() <= far + 1e-9


def test_an_edge_held_by_no_two_crossings_is_refused() -> None:
    column = direct(module__edge_support=["250 mm", "300 mm"])
    assert column.status == "refused"
    assert "no two of which hold an edge" in column.flags[0].text


def test_very_close_ribs() -> None:
    small = {"array__rows": 1, "array__columns": 2, "building__length": "70 ft", "building__width": "60 ft"}
    column = direct(**small, roof__rib_spacing="3 in", module__length="3 m", module__edge_support=["100 mm", "1500 mm"])
    assert value_of(column, "attachments")


def test_three_rails_over_too_few_purlins_are_refused() -> None:
    """Two rails of a row would lie over one purlin."""
    ribbed = {
        "roof__kind": "exposed fastener",
        "hardware": {"bracket": "structure"},
        "roof__fastening": {"uplift": {"allowable": "400 lb"}},
    }
    for origin in ("15.5 ft", "15.7 ft", "16 ft", "16.3 ft"):
        column = compare(
            scenario_of(
                **ribbed,
                roof__support_spacing="20 in",
                module__clamp_zone=["250 mm", "861 mm"],
                methods__rail__rails_per_row=3,
                array__rows=1,
                array__origin=["40 ft", origin],
            ),
            ("rail",),
        ).columns[0]
        assert column.status == "refused" or (
            column.controlling is not None and np.isfinite(column.controlling.utilisation or 0)
        )


def test_a_roof_that_fails_without_the_array_is_flagged_first() -> None:
    weak = direct(roof__panel__moment_rib_compressed="20 lb ft", roof__panel__moment_pan_compressed="15 lb ft")
    assert weak.status == "over"
    assert weak.flags[0].code == "bare_roof_over"
    assert value_of(weak, "bare_roof_utilisation") is not None
    assert value_of(weak, "bare_roof_utilisation") > 1


def test_if_nothing_holds_the_least_overloaded_is_shown() -> None:
    """Heavy snow: every second seam is better for a rack than every seam, and the design shown is no worse."""
    heavy = {"site__ground_snow": "80 psf"}
    shown = compare(scenario_of(**heavy), ("tilted_rack",)).columns[0]
    second = compare(scenario_of(**heavy, methods__tilted_rack__spacing="2 ribs"), ("tilted_rack",)).columns[0]
    assert shown.controlling is not None
    assert second.controlling is not None
    assert shown.controlling.utilisation <= second.controlling.utilisation + 0.005  # type: ignore[operator]


def test_brackets_on_the_structure_do_not_load_the_sheet() -> None:
    """The panel has no along-slope load from the array, and no unavoidable load from wind on the modules."""
    column = compare(
        scenario_of(
            "wren_workshop",
            hardware__bracket="structure",
            roof__support_spacing="12 in",
            module__clamp_zone=["150 mm", "600 mm"],
        ),
        ("rail",),
    ).columns[0]
    assert column.design
    assert column.design.candidate
    demands = column.design.candidate.demands
    bare_snow_only = compare(
        scenario_of(
            "wren_workshop",
            site__ground_snow="0 psf",
            hardware__bracket="structure",
            roof__support_spacing="12 in",
            module__clamp_zone=["150 mm", "600 mm"],
        ),
        ("rail",),
    ).columns[0]
    assert bare_snow_only.design
    assert bare_snow_only.design.candidate
    demands = bare_snow_only.design.candidate.demands
    np.testing.assert_array_equal(demands.panel_in_plane, demands.roof.sheet_and_snow_sliding[demands.rib])
    assert not demands.fastening_from_attachments.any()
    assert "no_spacing_helps" not in {flag.code for flag in column.flags}


def test_span_limits_do_not_exceed_the_spans_laid_out() -> None:
    """A very strong rail on a short run: the limit is the longest span laid out, not the step of the pattern."""
    strong = {"hardware": {"rail": {"moment_strong": "5000 lb ft", "inertia": "9 in4"}}, "site__ground_snow": "0 psf"}
    column = compare(scenario_of(**strong), ("rail",)).columns[0]
    assert column.design
    assert value_of(column, "rail_span_limit_m") is not None
    runs = max(lines.length for lines in column.design.layout.lines)
    assert value_of(column, "rail_span_limit_m") <= runs


def test_rails_under_a_single_column_by_the_lever_rule() -> None:
    """Source: statics by hand. Rails up the slope on the seams at 80 and 112 in, under two modules of 1722 mm and 21 kg.

    The middle of the modules, 5.1 ft and 861 mm from the rake, is 429 mm short of the second rail: of 813 mm between
    the rails that is the first one's part.
    """
    small = {"building__length": "45 ft", "building__width": "30 ft", "array__rows": 2, "array__columns": 1}
    up = {"methods__rail__runs": "up the slope", "array__origin": ["5.1 ft", "6 ft"]}
    (column,) = compare(scenario_of("sparrow_lane", **small, **up), ("rail",)).columns
    clamps = demands(column)
    by_weight = clamps.clamp_force[:, number(column, "D")]
    weight = 2 * 21 * 9.80665 * np.cos(np.arctan(6 / 12))
    first = (112 * 25.4 - 5.1 * 304.8 - 861) / (32 * 25.4)
    for inches, part in ((80, first), (112, 1 - first)):
        on_rail = np.isclose(clamps.clamp_position[:, 0], inches * 0.0254)
        assert by_weight[on_rail].sum() == pytest.approx(part * weight, rel=1e-6)


def test_a_rack_with_its_low_side_toward_the_ridge() -> None:
    """Low side toward the ridge: wind along the slope changes its sign, snow acts at θ - ω, the weight stays the same."""
    racks = [{"spacing": "2 ribs", "low_side": side} for side in ("eave", "ridge")]
    (_, eave), (_, ridge) = (
        next(checked_designs(compare(scenario_of(methods__tilted_rack=rack), ("tilted_rack",)))) for rack in racks
    )
    toward_eave, toward_ridge = eave.attachment_cases["W up"][1], ridge.attachment_cases["W up"][1]
    assert toward_eave.sum() > 0 > toward_ridge.sum()
    assert toward_ridge.sum() == pytest.approx(-toward_eave.sum(), rel=1e-9)
    for case, part in (("D", 1.0), ("S", np.cos(np.radians(4.7636 - 10)) / np.cos(np.radians(4.7636 + 10)))):
        assert ridge.attachment_cases[case][0].sum() == pytest.approx(
            eave.attachment_cases[case][0].sum() * part, rel=1e-5
        )


def test_modules_inside_stated_setbacks_are_flagged() -> None:
    def setback_flags(**changes: object) -> dict[str, list[str]]:
        columns = compare(scenario_of(**EVERY_RIB, **changes)).columns
        return {column.id: [flag.text for flag in column.flags if flag.code == "setback"] for column in columns}

    near = (
        "modules are nearer to the eave than the stated setback of 16.00 ft (4.877 m); the nearest is 15.50 ft (4.724 m) "
        "away. Move the array or leave them out"
    )
    flags = setback_flags(array__setbacks={"eave": "16 ft", "ridge": "3 ft"})
    assert flags["direct"] == [f"24 {near}"]
    assert flags["rail"] == [f"36 {near}"]
    assert not any(setback_flags().values())
