"""Library: PyNiteFEA, a general-purpose frame solver (stiffness method), on irregular beams and on layouts as they stand.

Collected where the library is installed: `pip install --editable ".[test,beams]"`.
"""

from __future__ import annotations

import numpy as np
import pytest
from Pynite import FEModel3D

from engine.comparison.compare import compare
from engine.mounting.layout import Layout
from engine.project.job import Job
from engine.statics.continuous_beam import UnitForces, solve_beams
from engine.statics.load_sharing import spring_reactions
from support import scenario_of
from support.irregular_beams import SEEDS, irregular_beam, solved
from support.published import verified


def by_frame_library(
    supports: list[float],
    loads: list[tuple[float, float, float]],
    stations: list[float],
    softness: float = 0.0,
) -> tuple[list[float], list[float], list[float]]:
    """Reactions, moments, and midspan deflections times EI of one beam [m, any force], from a stiffness solution in three dimensions.

    `softness`: EI over the stiffness of each support [m³]; 0 for rigid ones.
    """
    model = FEModel3D()
    model.add_material("any", 200e9, 77e9, 0.3, 0.0)
    model.add_section("any", 0.01, 1e-5, 1e-5, 1e-5)
    ends = [
        min(supports[0], *(load[0] for load in loads)) - 0.5,
        *supports,
        max(supports[-1], *(load[1] for load in loads)) + 0.5,
    ]
    for number, place in enumerate(ends):
        model.add_node(f"n{number}", place, 0, 0)
        held = 0 < number < len(ends) - 1
        model.def_support(f"n{number}", number == 1, held and not softness, True, True, False, False)
        if held and softness:
            model.def_support_spring(f"n{number}", "DY", 200e9 * 1e-5 / softness)
    for number, (left, right) in enumerate(zip(ends[:-1], ends[1:], strict=True)):
        model.add_member(f"m{number}", f"n{number}", f"n{number + 1}", "any", "any")
        for start, end, size in loads:
            if start == end and left <= start < right:
                model.add_member_pt_load(f"m{number}", "Fy", -size, start - left)
            low, high = max(start, left), min(end, right)
            if start < end and low < high:
                density = -size / (end - start)
                model.add_member_dist_load(f"m{number}", "Fy", density, density, low - left, high - left)
    model.analyze(check_statics=False)
    moments = []
    for station in stations:
        number = max(index for index, place in enumerate(ends[:-1]) if place <= station + 1e-12)
        moments.append(-model.members[f"m{number}"].moment("Mz", station - ends[number]))
    inner = range(1, len(ends) - 1)
    deflections_ei = [
        -model.members[f"m{number}"].deflection("dy", (ends[number + 1] - ends[number]) / 2) * 200e9 * 1e-5
        for number in inner[:-1]
    ]
    return [_reaction(model, f"n{number}", softness) for number in inner], moments, deflections_ei


def _reaction(model: FEModel3D, node: str, softness: float) -> float:
    """Reaction of a rigid support, or of a spring by its settlement."""
    if not softness:
        return float(model.nodes[node].RxnFY["Combo 1"])
    return float(-model.nodes[node].DY["Combo 1"] * 200e9 * 1e-5 / softness)


@pytest.mark.parametrize("seed", SEEDS)
def test_reactions_moments_and_deflections_agree_with_a_frame_library(seed: int) -> None:
    supports, loads = irregular_beam(seed)
    stations = [
        (left + (right - left) * part) / 100
        for left, right in zip(supports[:-1], supports[1:], strict=True)
        for part in (0.31, 0.77)
    ]
    reactions, moments, deflections_ei = solved(supports, loads, stations)
    metres = [place / 100 for place in supports], [(start / 100, end / 100, size) for start, end, size in loads]
    theirs, their_moments, their_sags = by_frame_library(*metres, stations)
    np.testing.assert_allclose(verified("irregular beams, reactions", theirs, reactions), theirs, atol=1e-6)
    np.testing.assert_allclose(verified("irregular beams, moments", their_moments, moments), their_moments, atol=1e-6)
    np.testing.assert_allclose(
        verified("irregular beams, midspan deflections x EI", their_sags, deflections_ei), their_sags, atol=1e-6
    )


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("softness", [0.02, 0.4])
def test_beams_on_springs_agree_with_a_frame_library(seed: int, softness: float) -> None:
    supports, loads = irregular_beam(seed)
    places = [place / 100 for place in supports]
    metres = [(start / 100, end / 100, size) for start, end, size in loads]
    theirs, *_ = by_frame_library(places, metres, [], softness)
    starts, ends, sizes = (np.array(column) for column in zip(*metres, strict=True))
    beam = solve_beams(np.array([places]), UnitForces(starts[None], ends[None]))
    ours = spring_reactions(beam, softness)[0] @ sizes
    np.testing.assert_allclose(verified("beams on springs, reactions", theirs, ours), theirs, atol=1e-5)


LAYOUTS = [
    ("kestrel_yard", "rail", {"methods__rail__spacing": "3 ribs"}),
    ("kestrel_yard", "tilted_rack", {}),
    ("kestrel_yard", "direct", {"methods__direct__spacing": "3 per edge"}),
    ("heron_depot", "rail", {}),
    ("sparrow_lane", "rail", {}),
    ("sparrow_lane", "direct", {"methods__direct__spacing": "4 per edge"}),
    ("kestrel_yard", "direct", {"roof__edge_strip": "20 ft", "roof__edge_support_spacing": "2.5 ft"}),
    ("wren_workshop", "rail", {"methods__rail__runs": "up the slope", "module__clamp_zone": ["150 mm", "500 mm"]}),
]


@pytest.mark.parametrize(("name", "method", "changes"), LAYOUTS)
def test_rails_racks_and_edges_as_laid_out(name: str, method: str, changes: dict[str, str]) -> None:
    """Every different line of real layouts: the shares its points get of its modules."""
    _, layout = laid_out(name, method, changes)
    for lines in layout.lines[:6]:
        places = list(layout.supports(lines))
        loads = list(zip(lines.load_start, lines.load_end, [1.0] * len(lines.load_start), strict=True))
        theirs, *_ = by_frame_library(places, loads, [])
        ours = (
            solve_beams(np.array([places]), UnitForces(lines.load_start[None], lines.load_end[None]))
            .reactions[0]
            .sum(axis=1)
        )
        what = f"{name}, {method}: what a point gets of a unit load at every clamp or edge"
        np.testing.assert_allclose(verified(what, theirs, ours), theirs, atol=1e-7)


ARM = 1e-3
"""An in-plane force at its height turns a seam: a pair of forces so far apart [m]."""


@pytest.mark.parametrize(("name", "method", "changes"), LAYOUTS)
def test_seams_as_laid_out(name: str, method: str, changes: dict[str, str]) -> None:
    """A seam in the middle of the array, in the uplift combination: what its points bring to every fastening, and how it bends."""
    (column,) = compare(scenario_of(name, **changes), (method,)).columns
    assert column.design
    assert column.design.candidate
    demands, points = column.design.candidate.demands, column.design.layout.attachments
    row = len(demands.rib) // 2
    here = np.flatnonzero(points.rib == demands.rib[row])
    normal, turn = demands.attachment_normal[here, -1], -demands.attachment_in_plane[here, -1] * points.height
    loads = [(float(y), float(y), float(force)) for y, force in zip(points.y[here], normal, strict=True)]
    for y, couple in zip(points.y[here].tolist(), turn.tolist(), strict=True):
        loads += [(y - ARM / 2, y - ARM / 2, -couple / ARM), (y + ARM / 2, y + ARM / 2, couple / ARM)]
    held = demands.is_fastened[row]
    supports = demands.fastening_y[held].tolist()
    theirs, *_ = by_frame_library(supports, loads, [])
    brought = verified(
        f"{name}, {method}: what a seam brings to a fastening",
        theirs,
        demands.fastening_from_attachments[row, held, -1],
        "N",
    )
    np.testing.assert_allclose(brought, theirs, atol=1e-3 * np.abs(normal).max())
    assert not demands.fastening_from_attachments[row, ~held].any()

    these = next(these for these in demands.roof.rib_groups if demands.rib[row] in these.ribs)
    air = list(
        zip(
            these.low.tolist(),
            these.high.tolist(),
            demands.fastening_from_surface[row, these.levels, -1].tolist(),
            strict=True,
        )
    )
    bending, last = demands.rib_moments, len(demands.combinations) - 1
    places = np.array([bending.position(row, item, last) for item in range(len(bending.positions))])
    seen = (
        (np.abs(places[:, None] - points.y[here]).min(axis=1) > ARM) & (places > supports[0]) & (places < supports[-1])
    )
    _, moments, _ = by_frame_library(supports, loads + air, places[seen].tolist())
    rib_moments = verified(f"{name}, {method}: how a seam bends", moments, bending.extremes[row, seen, last], "N m")
    np.testing.assert_allclose(rib_moments, moments, atol=1e-3 * np.abs(moments).max())


def laid_out(name: str, method: str, changes: dict[str, str]) -> tuple[Job, Layout]:
    scenario = scenario_of(name, **changes)
    (column,) = compare(scenario, (method,)).columns
    assert column.design
    return scenario.job, column.design.layout
