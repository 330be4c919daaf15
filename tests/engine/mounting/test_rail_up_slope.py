"""Rails up the slope, each over one rib: positions, shares and refusals."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.comparison.figures import value_of
from engine.mounting.interface import Refusal
from engine.mounting.lines_up_slope import RailsUpSlope, best_ribs
from support import context_of, scenario_of

FOOT, INCH = 0.3048, 0.0254
ZONE = (0.150, 0.500)


def rails(**changes: object) -> Column:
    """The workshop: ribs every 12 in, purlins every 4 ft, four rows of eight modules in landscape."""
    options = {"methods__rail__runs": "up the slope", "module__clamp_zone": ["150 mm", "500 mm"], **changes}
    return compare(scenario_of("wren_workshop", **options), ("rail",)).columns[0]


def test_each_rail_lies_over_one_rib_in_the_clamp_zones() -> None:
    column = rails()
    assert column.design
    layout, field = column.design.layout, column.design.field
    assert layout.member.runs_up_slope
    for lines in layout.lines:
        for x, modules in zip(lines.across, lines.module, strict=True):
            assert x / FOOT == pytest.approx(round(x / FOOT))
            inside = np.minimum(x - field.outlines.left[modules], field.outlines.right[modules] - x)
            assert inside.min() >= ZONE[0] - 1e-9
            assert inside.max() <= ZONE[1] + 1e-9
    np.testing.assert_allclose(layout.attachments.x, FOOT * layout.attachments.rib)
    assert len(
        {(rib, round(y, 6)) for rib, y in zip(layout.attachments.rib, layout.attachments.y, strict=True)}
    ) == len(layout.attachments)


def test_steps_and_purlins() -> None:
    """Brackets on the sheet are 2 ft apart along a rib; those on the structure over purlins, 4 ft apart from 6 in."""
    step = rails(methods__rail__spacing="1 rib")
    assert step.design
    assert np.unique(np.diff(np.unique(np.round(step.design.layout.attachments.y, 6)))) == pytest.approx(2 * FOOT)
    over = rails(methods__rail__spacing="1 rib", hardware__bracket="structure")
    assert over.design
    supports = (over.design.layout.attachments.y - 6 * INCH) / (4 * FOOT)
    np.testing.assert_allclose(supports, np.round(supports), atol=1e-9)
    assert (value_of(step, "spacing"), value_of(over, "spacing")) == ("every step", "every purlin")


def test_steps_are_centred_on_the_array() -> None:
    """By hand: four modules of 1134 mm with gaps of 0.5 in are 15.007 ft long; seven steps of 2 ft leave 0.5035 ft at each end."""
    column = rails(methods__rail__spacing="1 rib")
    assert column.design
    y, field = column.design.layout.attachments.y, column.design.field.outlines
    assert y.min() - field.low.min() == pytest.approx(0.5035 * FOOT, abs=1e-4)
    assert field.high.max() - y.max() == pytest.approx(0.5035 * FOOT, abs=1e-4)


def test_ribs_with_the_most_even_shares_are_chosen() -> None:
    """Statics: only positions symmetrical about the middle, 14 + 861 mm, give each rail half of a module."""
    job = scenario_of("wren_workshop", module__clamp_zone=["150 mm", "500 mm"]).job
    chosen = best_ribs(job, 0.014, np.arange(36) * 0.05, rails=2)
    assert not isinstance(chosen, Refusal)
    places, shares = chosen
    assert places.sum() == pytest.approx(2 * 0.875)
    np.testing.assert_allclose(shares, 0.5)


def test_attachments_and_clamps_are_counted_by_column() -> None:
    """Eight columns of four modules, two rails each.

    They have at least 2 x (32 + 8) attachments, and clamps at five edges of 16 rails.
    """
    column = rails()
    assert column.design
    assert (value_of(column, "modules"), value_of(column, "attachments_minimum")) == (32, 80)
    pieces = {item.part: item.quantity for item in column.design.bill.items}
    assert (pieces["end_clamp"], pieces["middle_clamp"]) == (2 * 16, 3 * 16)
    long = 4 * 1134 / 304.8 + 3 * 0.5 / 12
    assert sum(lines.length * len(lines) for lines in column.design.layout.lines) == pytest.approx(
        16 * long * FOOT, rel=1e-6
    )


def test_candidate_spacings_end_at_a_columns_length() -> None:
    """A column of four is 15.0 ft long: seven steps of 2 ft, or three purlins of 4 ft."""
    column, over = rails(), rails(hardware__bracket="structure", methods__rail__rails_per_row=3)
    assert column.design
    assert over.design
    steps = RailsUpSlope(2, 2 * FOOT, staggered=False)
    assert steps.candidate_spacings(scenario_of("wren_workshop").job, column.design.field) == (7, 6, 5, 4, 3, 2, 1)
    on_purlins = scenario_of("wren_workshop", hardware__bracket="structure").job
    assert steps.candidate_spacings(on_purlins, over.design.field) == (3, 2, 1)


def test_attachments_are_added_up_to_the_minimum_and_no_more() -> None:
    """Sixteen rails of five attachments each; every 7th step alone would leave three."""
    of = context_of(
        "wren_workshop", "rail", methods__rail__runs="up the slope", module__clamp_zone=["150 mm", "500 mm"]
    )
    sparse, filled = (of.uniform_layout(7, minimum) for minimum in (0, 80))
    assert not isinstance(sparse, Refusal)
    assert not isinstance(filled, Refusal)
    assert len(sparse.attachments) < 80
    assert len(filled.attachments) == 80


def test_a_third_rail_lies_in_the_middle_half() -> None:
    """Modules of 1.75 m: from 0.4375 to 1.3125 m, independent of the clamp zones."""
    job = scenario_of("wren_workshop", module__length="1.75 m", module__clamp_zone=["150 mm", "600 mm"]).job
    missed = best_ribs(job, 0.0, np.array([0.2, 1.35, 1.5]), rails=3)
    assert isinstance(missed, Refusal)
    chosen = best_ribs(job, 0.0, np.array([0.2, 1.3, 1.5]), rails=3)
    assert not isinstance(chosen, Refusal)
    assert chosen[0].tolist() == [0.2, 1.3, 1.5]


def test_purlins_too_far_apart_for_the_minimum_are_refused() -> None:
    column = rails(hardware__bracket="structure")
    assert column.status == "refused"
    assert (
        "Even at every purlin the array has 64 attachments; the minimum by rule of practice is 80"
        in column.flags[0].text
    )
    third = rails(hardware__bracket="structure", methods__rail__rails_per_row=3)
    assert (
        value_of(third, "attachments") == 84
    )  # of 24 rails in turn three and four of the four purlins that they cross


def test_a_rib_outside_the_zone_is_refused_with_its_distance() -> None:
    """Modules from 16 ft on, ribs at whole feet.

    The right zone of 1222 to 1472 mm ends 0.11 in short of the rib at 48 in.
    """
    column = rails(module__clamp_zone=["250 mm", "500 mm"])
    assert column.status == "refused"
    assert column.flags[0].code == "misses_zone"
    assert f"the nearest is {1222 / 25.4 - 48:.2f} in" in column.flags[0].text


def test_along_slope_load_presses_the_lower_clamp_and_lifts_the_upper() -> None:
    """By hand: in-plane force Q of a module at arm e above the attachments: Q e / depth at its edges, times the rail's share."""
    column = rails()
    assert column.design
    lines, field = column.design.layout.lines[0], column.design.field
    arm = (5 - 2) * INCH
    low, high = lines.couple[0, :2]
    share = 2 * lines.share[0]
    assert low == pytest.approx(share * arm / 1.134)
    assert high == pytest.approx(-low)
    assert field.attitude.middle == pytest.approx(5 * INCH)


def test_rails_are_divided_at_their_longest_run() -> None:
    column = rails(hardware__rail={"longest_run": "8 ft"})
    assert value_of(column, "runs") == 16
    assert column.design
    assert max(lines.length for lines in column.design.layout.lines) <= 8 * FOOT


def test_seismic_force_along_the_eave_bends_the_rail_sideways() -> None:
    """The weak axis carries forces along the eave; along-slope loads run along the rail."""
    still, shaken = rails(), rails(site__seismic_sds=1.0)
    assert still.design
    assert still.design.candidate
    assert shaken.design
    assert shaken.design.candidate
    assert not any(group.weak.any() for group in still.design.candidate.demands.members)
    assert any(group.weak.any() for group in shaken.design.candidate.demands.members)


def test_the_mirror_image_has_the_same_utilisations() -> None:
    """The roof is 80 ft long with ribs at every foot: an array of the same width as far from the right rake."""
    wide = 8 * 1722 / 304.8 + 7 * 0.5 / 12
    left, right = rails(), rails(array__origin=[f"{80 - 16 - wide:.9f} ft", "4 ft"])
    assert value_of(left, "attachments") == value_of(right, "attachments")
    for check, image in zip(left.checks.values(), right.checks.values(), strict=True):
        if check.utilisation is not None:
            assert image.utilisation == pytest.approx(check.utilisation, rel=1e-6), check.link
