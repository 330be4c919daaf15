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

EVERY = ("finch_shed", "heron_depot", "kestrel_yard", "plover_terrace", "sparrow_lane", "wren_workshop")


def designs(name: str, **changes: object) -> list[tuple[Column, Design, Schedule, Plan]]:
    scenario = scenario_of(name, **changes)
    columns = [column for column in compare(scenario).columns if column.design]
    return [
        (column, column.design, schedule(column.design), plan(scenario.job, column.design))
        for column in columns
        if column.design
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


def test_a_clip_is_told_at_the_points_beside_it() -> None:
    """Each point's clip figure, found again by looking at every clip of its seam with no point between them."""
    _, design, attachments, _ = designs("kestrel_yard", methods__direct__spacing="2 per edge")[2]
    assert isinstance(design.candidate, Candidate)
    demands = design.candidate.demands
    with_array, bare = (
        -demands.fastening / (390 * POUND_FORCE),
        -demands.roof.without_array[demands.rib] / (390 * POUND_FORCE),
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
