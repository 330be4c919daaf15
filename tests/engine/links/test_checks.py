"""Links one by one: what is asked, put beside a stated strength by hand, and where on the roof it is."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from engine.design.design import Design
from engine.links.check import Check
from engine.load_path.demands import Demands
from engine.units import INCH, KSI, POUND_FORCE, PSF
from support import scenario_of


def link(name: str, method: str = "direct", **changes: object) -> tuple[Check, Demands, Design]:
    """A link's check, the demands it is held against, and the design they are of."""
    (column,) = compare(scenario_of(**changes), (method,)).columns
    assert column.design
    assert column.design.candidate
    return (
        next(check for check in column.checks.values() if check.link == name),
        column.design.candidate.demands,
        column.design,
    )


def test_a_fastening_is_pushed_down_against_its_stated_bearing() -> None:
    check, demands, _ = link("roof_fastening", roof__fastening__bearing={"allowable": "50 lb"})
    assert check.place.name.endswith("down load")
    assert check.demand == pytest.approx(np.max(demands.fastening))
    assert check.utilisation == pytest.approx(np.max(demands.fastening) / (50 * POUND_FORCE))
    assert "down load not" not in check.note


def test_without_a_stated_bearing_a_clip_rests_on_its_purlin() -> None:
    """Down load presses clip and purlin together: nothing holds it back. Statics, no source needed."""
    check, _, _ = link("roof_fastening")
    assert check.note.startswith("down load needs no check: the clip bears on the purlin")
    assert not check.unchecked


@pytest.mark.parametrize("changes", [{}, {"site__ground_snow": "70 psf", "site__wind_speed": "80 mph"}])
def test_a_module_is_held_against_its_rating_each_way(changes: dict[str, object]) -> None:
    """Tested with 2400 Pa up and 5400 Pa down: 1600 and 3600 Pa to design for. It is named by row and column, and lies there."""
    check, demands, design = link("module", "rail", **changes)
    used = np.maximum(-demands.module_pressure / 1600, demands.module_pressure / 3600).max(axis=1)
    module = int(np.argmax(used))
    assert check.utilisation == pytest.approx(used[module])
    assert check.place.name == f"module in row {design.field.row[module] + 1}, column {design.field.column[module] + 1}"
    assert (check.place.x, check.place.y) == (design.field.outlines.left[module], design.field.outlines.low[module])


@pytest.mark.parametrize("name", ["attachment", "rib", "fixed_point"])
def test_a_place_is_named_by_its_seam(name: str) -> None:
    """Seams stand 24 in apart from the rake, the first one on it."""
    check, _, _ = link(name, "rail")
    assert check.place.x is not None
    assert check.place.name.endswith(f"seam {round(check.place.x / 0.6096) + 1}")


@pytest.mark.parametrize(("method", "member"), [("rail", "rail"), ("tilted_rack", "rack"), ("direct", "module_frame")])
def test_every_link_in_its_order_and_each_with_its_place(method: str, member: str) -> None:
    """A place that has a distance from the rake has one from the eave too, but for a panel's fixed point, and lies on the slope."""
    (column,) = compare(scenario_of(), (method,)).columns
    order = [
        *("module", "clamp", member, "attachment", "rib", "rib_at_clamp"),
        *("roof_fastening", "fixed_point", "panel_travel", "roof_member", "structure"),
    ]
    assert [check.link for check in column.checks.values()] == order
    for check in column.checks.values():
        if check.link in ("module", "clamp", "attachment", "rib", "roof_fastening") or (
            check.link == member and check.utilisation
        ):
            assert check.place.x is not None, check.link
            assert check.place.y is not None, check.link
            assert 0 <= check.place.x <= 220 * 0.3048
            assert 0 <= check.place.y <= 55.2 * 0.3048
    assert list(column.checks.values())[-1].place.name == "under the array"


def test_an_attachment_and_a_clamp_are_where_they_are_said_to_be() -> None:
    attachment, demands, design = link("attachment", "rail")
    attachments, used = design.layout.attachments, demands
    here = int(np.argmin(np.hypot(attachments.x - attachment.place.x, attachments.y - attachment.place.y)))
    assert (attachments.x[here], attachments.y[here]) == (attachment.place.x, attachment.place.y)
    assert np.abs(used.attachment_normal[here]).max() > 0
    clamp, demands, _ = link("clamp", "rail")
    lifted = int(np.argmin(demands.clamp_force.min(axis=1)))
    assert [clamp.place.x, clamp.place.y] == demands.clamp_position[lifted].tolist()


def test_modules_too_heavy_to_be_lifted_pull_on_nothing() -> None:
    """0.6 of 300 lb on 1.5 m² is more than 0.6 of 16 psf of wind: no attachment is pulled, and that evenly."""
    heavy = {
        "module__mass": "300 lb",
        "module__length": "1.5 m",
        "module__width": "1 m",
        "module__edge_support": ["50 mm", "750 mm"],
    }
    (column,) = compare(
        scenario_of(**heavy, module__clamp_zone=["100 mm", "400 mm"], site__wind_speed="60 mph"), ("direct",)
    ).columns
    assert value_of(column, "point_load_up_n") == 0.0
    assert value_of(column, "evenness") == 1.0
    clamp = next(check for check in column.checks.values() if check.link == "clamp")
    assert clamp.utilisation == 0.0


def test_a_fastening_says_with_what_it_is_worst() -> None:
    """On a floating roof nothing shears the clip; panel screws share what slides."""
    check, _, _ = link("roof_fastening")
    assert check.place.name.endswith(", with the array")


def test_a_fixed_point_without_a_stated_strength_is_not_checked() -> None:
    check, demands, _ = link("fixed_point", roof__fixed_point=None)
    assert check.utilisation is None
    assert [(each.direction, each.owner) for each in check.unchecked] == [("along the slope", "roof maker")]
    assert check.demand == np.abs(demands.panel_in_plane).max()


def test_added_weight_and_snow_are_held_against_the_collateral_allowance() -> None:
    """0.7 x 25 psf of snow, Ct 1.2 on modules, 1.0 on the heated roof: 3.5 psf more per horizontal area."""
    check, demands, _ = link("structure", roof__collateral_allowance="8 psf")
    snow = 3.5 * PSF * np.cos(np.arctan(1 / 12))
    assert [part.name for part in check.parts] == ["weight", "snow beyond the roof's own"]
    assert [part.demand for part in check.parts] == pytest.approx([demands.dead_pressure, snow], rel=5e-3)
    assert check.parts[0].demand == pytest.approx(demands.dead_pressure)
    assert check.utilisation == pytest.approx(sum(part.demand for part in check.parts) / (8 * PSF))
    without, _, _ = link("structure", roof__collateral_allowance=None)
    assert without.utilisation is None
    assert [(each.direction, each.owner) for each in without.unchecked] == [("down", "building engineer")]
    assert without.demand == pytest.approx(sum(part.demand for part in check.parts))


def test_where_the_roof_is_as_cold_as_the_modules_weight_alone_is_added() -> None:
    check, demands, _ = link("structure", building__thermal="unheated")
    assert (check.demand, check.parts) == (demands.dead_pressure, ())


def test_a_rail_sags_against_its_stated_part_of_the_span() -> None:
    """1000 ksi and 0.5 in4, allowed span/180; sags times EI are compared with beam tables and other programs elsewhere."""
    bar = {
        "hardware__rail__modulus": "1000 ksi",
        "hardware__rail__inertia": "0.5 in4",
        "hardware__rail__deflection_ratio": 180,
    }
    check, demands, _ = link("rail", "rail", methods__rail__spacing="2 ribs", **bar)
    rigidity = 1000 * KSI * 0.5 * INCH**4
    used = [
        np.abs(these.deflection_ei) / rigidity * 180 / np.diff(these.supports)[:, None] for these in demands.members
    ]
    assert check.place.name == "deflection at midspan"
    assert check.place.x is not None
    middles = [(these.supports[1:] + these.supports[:-1]) / 2 for these in demands.members]
    assert np.abs(np.concatenate(middles) - check.place.x).min() < 1e-9
    assert check.utilisation == pytest.approx(max(each.max() for each in used))
    assert check.demand == pytest.approx(check.utilisation * 4 * 0.3048 / 180)  # every span is two seams of 24 in
