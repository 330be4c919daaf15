"""Transfer of loads: effective areas of members, clamps, along-slope load on panels; by hand."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.comparison.figures import value_of
from engine.load_path.transfer import ClampLoads, effective_area, member_areas
from support import scenario_of
from support.columns import demands

FOOT, POUND = 0.3048, 4.4482216


def column(method: str, **changes: object) -> Column:
    return compare(scenario_of(**changes), (method,)).columns[0]


@pytest.mark.parametrize(
    ("method", "spacing", "span", "width"),
    [
        ("rail", "2 ribs", 4.0, 1.722 / 2 / 0.3048),  # half of a module 1722 mm long, 2.825 ft
        ("rail", "5 ribs", 10.0, 10.0 / 3),  # a third of the span is larger
        ("tilted_rack", "2 ribs", 4.0, 1.134 / 2 / 0.3048),  # two beams share a module 1134 mm wide, 1.860 ft
        ("tilted_rack", "3 ribs", 6.0, 2.0),
    ],
)
def test_a_members_effective_wind_area(method: str, spacing: str, span: float, width: float) -> None:
    """Span times width, the width at least a third of the span (§26.2)."""
    design = column(method, **{f"methods__{method}__spacing": spacing}).design
    assert design
    longest = max(design.layout.lines, key=design.layout.span)
    assert design.layout.span(longest) == pytest.approx(span * FOOT)
    assert member_areas(design.layout, longest)[0] / FOOT**2 == pytest.approx(span * width)


@pytest.mark.parametrize(("method", "end"), [("rail", 0), ("rail", -1), ("tilted_rack", 0), ("direct", -1)])
def test_overhangs_have_their_own_effective_wind_area(method: str, end: int) -> None:
    """By hand: the moment over the last attachment is the overhang's load times its arm, at length x max(width, length/3)."""
    spacing = {f"methods__{method}__spacing": "2 per edge" if method == "direct" else "3 ribs"}
    of = demands(column(method, array__origin=["18.7 ft", "18 ft"], **spacing))
    lines, bars = of.layout.lines[0], of.layout.member.bars
    places, rib_moments = of.layout.supports(lines), of.members[0]
    station = 0 if end == 0 else len(places) - 1
    hangs = places[0] - lines.start if end == 0 else lines.end - places[-1]
    module, c = (
        lines.module[:1, end],
        [combination.factors == {"D": 0.6, "W up": 0.6} for combination in of.combinations].index(True),
    )
    area = np.array([hangs * max(lines.width / bars, hangs / 3)])
    normal, in_plane = (force[0, c] for force in of.forces_on_members.combined(module, np.arange(len(module)), area))
    force = (lines.share[0] * normal + lines.couple[0, end] * in_plane) / bars
    spread = (
        hangs**2 / 2 / of.job.module.length if method == "direct" else hangs
    )  # the load of an edge is even, that of a rail acts at its end
    assert rib_moments.strong[0, station, c] == pytest.approx(-force * spread)


def test_weight_bends_a_rail_about_both_axes() -> None:
    """With the modules at the height of the attachments there is no couple.

    The moments are in the ratio of sin to cos of the slope at every station.
    """
    level = {"array__height_above_roof": "4 in", "hardware__attachment_height": "4 in"}
    of = demands(column("rail", building__slope="4:12", methods__rail__spacing="3 ribs", **level))
    number = next(n for n, each in enumerate(of.combinations) if each.factors == {"D": 1.0})
    for lines in of.members:
        assert np.abs(lines.weak[..., number]).max() > 1
        np.testing.assert_allclose(lines.weak[..., number], lines.strong[..., number] * 4 / 12, atol=1e-9)


def test_effective_areas_have_a_minimum() -> None:
    assert effective_area(np.array([-0.3, 0.0, 0.005, 0.02])).tolist() == [0.01, 0.01, 0.01, 0.02]


def test_each_clamp_holds_one_module_or_two() -> None:
    """Rails: of every run of nine modules the end clamps hold one, the others two; a quarter of each."""
    of = column("rail", methods__rail__spacing="2 ribs")
    assert of.design
    clamp_loads = ClampLoads.of_lines(of.design.layout)
    per_rail = [len(clamp_loads.of_clamp(clamp)[0]) for clamp in range(10)]
    assert per_rail == [1, *[2] * 8, 1]
    clamps = sum(len(line) * line.clamps for line in of.design.layout.lines)
    assert len(clamp_loads.first) == clamps == 32 * 10
    everything = [clamp_loads.of_clamp(clamp) for clamp in range(clamps)]
    assert np.concatenate([module for module, _, _ in everything]).tolist() == clamp_loads.module.tolist()
    assert sum(share.sum() for _, share, _ in everything) == pytest.approx(144)
    assert np.concatenate([share for _, share, _ in everything]) == pytest.approx(0.25)
    at = of.design.field.outlines
    for (module, _, _), (x, y) in zip(everything, clamp_loads.position, strict=True):
        edges = np.concatenate([at.left[module], at.right[module]])
        assert np.abs(edges - x).min() < 1e-9
        assert (at.low[module] < y).all()
        assert (y < at.high[module]).all()


@pytest.mark.parametrize("method", ["rail", "tilted_rack"])
def test_clamps_together_carry_weight_and_snow_of_the_modules(method: str) -> None:
    """D + S depends on no effective area: the sum of all clamp forces equals every module's weight and snow."""
    of = demands(column(method, **{f"methods__{method}__spacing": "2 ribs"}, site__ground_snow="40 psf"))
    number = next(n for n, each in enumerate(of.combinations) if each.factors == {"D": 1.0, "S": 1.0})
    normal, in_plane = of.forces_on_clamps.combined(np.arange(144), np.arange(144), np.ones(144))
    tilt = np.radians(of.field.attitude.tilt)
    off = normal[:, number] * np.cos(tilt) - in_plane[:, number] * np.sin(tilt)
    assert of.clamp_force[:, number].sum() * of.layout.member.bars == pytest.approx(off.sum(), rel=1e-6)


@pytest.mark.parametrize(
    ("method", "beneath"),
    [
        ("rail", {"attachment"}),
        ("tilted_rack", {"attachment", "leg", "brace"}),
        ("direct", {"attachment", "module_hook"}),
    ],
)
def test_hardware_below_a_link_does_not_relieve_it(method: str, beneath: set[str]) -> None:
    """Clamps are relieved by the modules' weight alone (21 kg each).

    Members are relieved by the weight of rails too, attachments by that of all hardware.
    """
    of = demands(column(method, **{f"methods__{method}__spacing": "2 per edge" if method == "direct" else "2 ribs"}))
    parts = {item.part: item.mass for item in of.bill.items}
    assert beneath <= parts.keys()
    each = [forces.weight / 9.80665 for forces in (of.forces_on_clamps, of.forces_on_members, of.forces)]
    above = sum(mass for part, mass in parts.items() if part not in beneath)
    assert each == pytest.approx([21.0, 21.0 + above / 144, 21.0 + sum(parts.values()) / 144])


def test_evenness_is_the_mean_over_the_largest_uplift() -> None:
    of = column("direct")
    pulls = -np.minimum(demands(of).attachment_normal, 0.0).min(axis=1)
    assert value_of(of, "evenness") == pytest.approx(pulls.mean() / pulls.max())
    assert value_of(of, "point_load_up_n") == pytest.approx(pulls.max())
    assert value_of(of, "point_load_down_n") == pytest.approx(np.maximum(demands(of).attachment_normal, 0.0).max())


def test_along_slope_load_of_a_panel_is_from_attachments_and_snow_beside_them() -> None:
    found = demands(column("rail", methods__rail__spacing="2 ribs"))
    attachments = found.layout.attachments
    for row in (0, len(found.rib) // 2):
        brought = found.attachment_in_plane[attachments.rib == found.rib[row]].sum(axis=0)
        np.testing.assert_allclose(
            found.panel_in_plane[row], brought + found.roof.sheet_and_snow_sliding[found.rib[row]]
        )


@pytest.mark.parametrize(("method", "tilt"), [("direct", 0.0), ("tilted_rack", 10.0)])
def test_unavoidable_load_of_a_fastening(method: str, tilt: float) -> None:
    """A clip with 10 ft² under modules carries their least pressure normal to the roof, plus the internal pressure.

    The least is taken in each combination.
    """
    found = demands(column(method, array__rows=6 if tilt else 8))
    whole = float((found.roof.area * found.roof.covered_fraction).max()) / FOOT**2
    assert 9.5 * np.cos(np.radians(tilt)) / (2 if tilt else 1) < whole <= 10.0
    number = next(n for n, each in enumerate(found.combinations) if each.factors == {"D": 0.6, "W up": 0.6})
    inside = 0.6 * found.loads.internal_pressure("W up")
    lowest = found.module_pressure[:, number].min() * np.cos(np.radians(tilt))
    assert found.unavoidable_fastening_load[number] == pytest.approx(whole * FOOT**2 * (lowest + inside))
