"""The attachments one by one, and the plan they stand on."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from engine.comparison.attachment_schedule import Schedule, schedule
from engine.comparison.compare import Column, compare
from engine.comparison.roof_plan import Plan, plan
from engine.design.design import Design
from engine.design.trial import Candidate
from engine.units import FOOT, POUND_FORCE
from support import scenario_of

EVERY = ("dunlin_hall", "finch_shed", "heron_depot", "kestrel_yard", "plover_terrace", "sparrow_lane", "wren_workshop")


def designs(name: str, **changes: object) -> list[tuple[Column, Design, Schedule, Plan]]:
    scenario = scenario_of(name, **changes)
    columns = [column for column in compare(scenario).columns if column.design]
    return [
        (column, column.design, schedule(column.design), plan(column.design)) for column in columns if column.design
    ]


@pytest.mark.parametrize("name", EVERY)
def test_the_worst_point_is_the_links_own_figure(name: str) -> None:
    for column, design, attachments, _ in designs(name):
        checked = {check.link: check.utilisation for check in column.checks.values()}
        assert set(attachments.ratios) == (
            (set() if design.layout.member.clamped else {"clamp"}) | {"attachment", "rib", "roof_fastening"}
            if checked
            else set()
        )
        for link, used in attachments.ratios.items():
            assert used.max() == pytest.approx(checked[link], rel=1e-12), link


def test_points_are_numbered_as_one_walks() -> None:
    for _, _, attachments, _ in designs("kestrel_yard"):
        places = list(zip(attachments.row.tolist(), attachments.x.tolist(), strict=True))
        assert all(first < second for first, second in pairwise(places))
        assert (
            len({(row, round(y, 2)) for row, y in zip(attachments.row.tolist(), attachments.y.tolist(), strict=True)})
            == attachments.row.max()
        )
        np.testing.assert_allclose(attachments.x, (attachments.rib - 1) * 2 * FOOT)


LONG, SHORT, GAP = 1.722, 1.134, 0.5 * 0.0254
"""Sides of the default scenario's modules, and the gap between them [m]."""

LEFT, LOW = 40 * FOOT, 15.5 * FOOT
"""Its array's lower left corner [m]."""


def at_every_seam(first: float, stretches: list[tuple[float, float]], levels: list[float]) -> np.ndarray:
    """Row, seam, x and y of an attachment wherever a seam, 2 ft apart from the `first` [m], meets a line at a level.

    The line is continuous over each of its `stretches`, from and to [m]. Rows count from the eave, seams from the rake.
    """
    seams = [(number + 1, first + number * 2 * FOOT) for number in range(110)]
    met = [(seam, x) for seam, x in seams if any(start <= x <= end for start, end in stretches)]
    return np.array([(row, seam, x, y) for row, y in enumerate(levels, 1) for seam, x in met])


def test_places_from_the_scenarios_dimensions() -> None:
    """Source: the dimensions in the file, by hand; the first seam lies 5 in from the rake.

    Rails: 24 modules of 1722 mm are as wide as 36 of 1134 mm, in runs of nine (40 ft); each rail lies in the middle of
    the clamp zone from 250 to 500 mm. Rack: runs of six; feet under the low and the high edge, rows unshaded at 20 deg.
    Direct: every seam that crosses an edge 100 mm or more from its corners, in the middle of each gap.
    """
    every = {"rail__spacing": "1 ribs", "tilted_rack__spacing": "1 ribs", "direct__spacing": "3 per edge"}
    rail, rack, direct = designs(
        "kestrel_yard", roof__first_rib="5 in", **{f"methods__{key}": value for key, value in every.items()}
    )
    tilt, sun = np.radians([10, 20])
    deep, pitch = SHORT * np.cos(tilt), SHORT * (np.cos(tilt) + np.sin(tilt) / np.tan(sun))

    def runs(count: int, modules: int, side: float) -> list[tuple[float, float]]:
        starts = [LEFT + number * modules * (side + GAP) for number in range(count)]
        return [(start, start + modules * (side + GAP) - GAP) for start in starts]

    edges = [(start + 0.1, end - 0.1) for start, end in runs(24, 1, LONG)]
    expected = (
        (runs(4, 9, SHORT), [LOW + row * (LONG + GAP) + at for row in range(4) for at in (0.375, LONG - 0.375)]),
        (runs(4, 6, LONG), [LOW + row * pitch + at for row in range(6) for at in (0, deep)]),
        (edges, [LOW - GAP / 2 + row * (SHORT + GAP) for row in range(7)]),
    )
    for (_, _, attachments, _), (stretches, levels) in zip((rail, rack, direct), expected, strict=True):
        places = np.column_stack([attachments.row, attachments.rib, attachments.x, attachments.y])
        np.testing.assert_allclose(places, at_every_seam(5 / 12 * FOOT, stretches, levels), atol=1e-6)


def test_places_in_the_pan_from_the_scenarios_dimensions() -> None:
    """Source: the dimensions in the file, by hand: ribs every 9 in from 5 in on, a pan half-way to the next rib."""
    found = designs("swallow_cottage", hardware__place="pan", roof__first_rib="5 in")
    assert found
    for _, _, attachments, _ in found:
        np.testing.assert_allclose(attachments.x, (5 + 9 * (attachments.rib - 0.5)) / 12 * FOOT)


def test_the_zone_is_the_worst_of_the_modules_held() -> None:
    """ASCE 7 Fig. 30.3-2A by hand: zone 1 reaches 1.2h = 28.8 ft from the eave, in plan; no rake is that near.

    A module is in it with any part, and so is a point that holds it: on an edge between two rows the lower one decides.
    """
    attachments = designs("kestrel_yard", methods__direct__spacing="2 per edge")[2][2]
    lowest_row_held = np.maximum(attachments.y - GAP / 2 - SHORT, LOW)
    in_zone_1 = lowest_row_held * np.cos(np.arctan(1 / 12)) < 28.8 * FOOT
    assert attachments.zone == tuple(np.where(in_zone_1, "1", "1'"))
    assert set(attachments.zone) == {"1", "1'"}


def test_a_clip_is_told_at_the_points_beside_it() -> None:
    """Each point's clip figure, found again by looking at every clip of its seam with no point between them."""
    _, design, attachments, _ = designs("kestrel_yard", methods__direct__spacing="2 per edge")[2]
    assert isinstance(design.candidate, Candidate)
    demands = design.candidate.demands
    with_array, bare = (
        -demands.fastening / (430 * POUND_FORCE),
        -demands.roof.without_array[demands.rib] / (430 * POUND_FORCE),
    )
    used = np.maximum(np.maximum(with_array, bare).max(axis=2), 0.0)
    for number in (0, 17, 100, len(attachments) - 1):
        row = int(np.flatnonzero(demands.rib == attachments.rib[number] - 1)[0])
        others = attachments.y[(attachments.rib == attachments.rib[number]) & (np.arange(len(attachments)) != number)]
        beside = [
            used[row, clip]
            for clip, y in enumerate(demands.fastening_y)
            if not ((others > min(y, attachments.y[number])) & (others < max(y, attachments.y[number]))).any()
        ]
        assert attachments.ratios["roof_fastening"][number] == pytest.approx(max(beside), rel=1e-9)


def test_outside_the_standards_scope_points_have_places_only() -> None:
    _, _, attachments, _ = designs("sparrow_lane")[1]
    assert attachments.up is None
    assert attachments.utilisation is None
    assert attachments.governing == ("",) * 36


@pytest.mark.parametrize("name", EVERY)
def test_zones_cover_the_roof_once(name: str) -> None:
    _, _, _, drawn = designs(name)[0]
    at = drawn.roof_zones.places
    assert ((at.right - at.left) * (at.high - at.low)).sum() == pytest.approx(drawn.length * drawn.depth)
    assert (at.left >= -1e-9).all()
    assert (at.high <= drawn.depth + 1e-9).all()


def test_corner_zones_by_hand() -> None:
    """ASCE 7 Fig. 30.3-2A: each corner is an L of two arms 0.6h by 0.2h, so 0.2 h² in plan; two corners on a slope."""
    _, _, _, drawn = designs("kestrel_yard")[0]
    at, h = drawn.roof_zones.places, 24 * FOOT
    corner = drawn.roof_zones.zone == drawn.roof_zones.names.index("3")
    area = ((at.right - at.left) * (at.high - at.low))[corner].sum()
    assert area == pytest.approx(2 * 0.2 * h**2 / np.cos(np.arctan(1 / 12)), rel=1e-6)


def test_exposed_edges_are_the_arrays_outline() -> None:
    for _, design, _, drawn in designs("kestrel_yard", methods__rail__spacing="1 ribs"):
        at = design.field.outlines
        if not drawn.exposed.all():
            continue
        edges = drawn.exposed_edges
        length = np.hypot(edges.x2 - edges.x1, edges.y2 - edges.y1).sum()
        wide, deep = at.right[0] - at.left[0], at.high[0] - at.low[0]
        rows, columns = len(np.unique(design.field.row)), len(np.unique(design.field.column))
        assert length == pytest.approx(2 * (columns * wide + rows * deep))


def test_a_made_up_standard_draws_its_own_zones() -> None:
    site = {"standard": "Made-up 1", "gust": "1 kPa"}
    _, _, attachments, drawn = designs("kestrel_yard", site=site)[2]
    assert drawn.roof_zones.names == ("field", "eave")
    assert len(drawn.borders) == 1
    assert set(attachments.zone) == {"field"}
