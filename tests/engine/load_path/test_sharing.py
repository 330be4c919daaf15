"""Attachments near the ends of lines: the largest of continuous beam, tributary load, and a rail on seams that give way."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.links.trail import CalculationTrail
from engine.load_path.demands import Demands
from engine.mounting.influence import SolvedLines
from engine.units import FOOT, POUND_FORCE
from support import scenario_of

SHORT_ROW = {
    "array__rows": 1,
    "array__columns": 2,
    "array__origin": ["41.5 ft", "20 ft"],
    "methods__rail__spacing": "2 ribs",
    "site__wind_speed": "85 mph",
}


def demands(name: str = "kestrel_yard", method: str = "rail", **changes: object) -> Demands:
    design = compare(scenario_of(name, **changes), (method,)).columns[0].design
    assert design
    assert design.candidate
    return design.candidate.demands


def test_three_attachments_of_one_row_by_hand() -> None:
    """By hand: Snow on two modules in a row, rails on seams at 42, 44 and 48 ft.

    On three equal springs a stiff rail brings each a third of the load, and more by its arm from their middle. The
    tributary load of a clamp goes to its neighbours by the lever rule, beyond the last seam all to that one.
    """
    of = demands(**SHORT_ROW)
    at, number = of.layout.attachments, [each.name for each in of.combinations].index("D + S")
    x, row = np.unique(at.x.round(6)), np.isclose(at.y, at.y.min())
    assert x / FOOT == pytest.approx([42, 44, 48], abs=1e-5)
    clamps = np.concatenate([of.field.outlines.left, of.field.outlines.right])
    arm = x - x.mean()
    stiff = 1 / 3 + arm * (clamps.mean() - x.mean()) / (arm**2).sum()
    tributary = [np.interp(clamps, x, unit).mean() for unit in np.eye(3)]
    by_beams, found = of.on_attachments.normal_by_beams[row, number], of.attachment_normal[row, number]
    ends = np.array([0, 2])
    expected = np.max([stiff, tributary, by_beams / by_beams.sum()], axis=0) * by_beams.sum()
    np.testing.assert_allclose(found[ends], expected[ends], rtol=1e-6)
    assert found[1] == pytest.approx(by_beams[1])
    assert (found[ends] > by_beams[ends] + 1).any()


@pytest.mark.parametrize(
    ("name", "method"), [("kestrel_yard", "rail"), ("kestrel_yard", "tilted_rack"), ("heron_depot", "rail")]
)
def test_nowhere_less_than_by_beams_and_the_same_away_from_the_ends(name: str, method: str) -> None:
    of = demands(name, method)
    largest, beams = of.attachment_normal, of.on_attachments.normal_by_beams
    assert (np.abs(largest) >= np.abs(beams) - 1e-6).all()
    differs = ~np.isclose(largest, beams).all(axis=1)
    assert differs.any()
    assert not (differs & ~SolvedLines(of.layout).is_near_end).any()


def test_modules_on_two_seams_share_their_load_by_statics() -> None:
    of = demands(method="direct")
    assert not SolvedLines(of.layout).is_near_end.any()
    assert (of.attachment_normal == of.on_attachments.normal_by_beams).all()


def test_a_stated_stiffness_takes_the_place_of_a_stiff_rail() -> None:
    """A hard seam leaves the continuous beam and the tributary load; a soft one comes near to the stiff rail."""
    stiff = np.abs(demands(**SHORT_ROW).attachment_normal)
    soft, hard = (
        np.abs(demands(**SHORT_ROW, roof__panel__stiffness_at_clamp=value).attachment_normal)
        for value in ("10 lb/in", "1000000 lb/in")
    )
    np.testing.assert_allclose(soft, stiff, rtol=0.05)
    assert (hard <= stiff + 1e-6).all()
    assert hard.max(axis=1).sum() < stiff.max(axis=1).sum()


def test_the_explanation_names_the_way_and_its_shares_add_up() -> None:
    of = demands(**SHORT_ROW)
    trail, number = CalculationTrail(of), [each.name for each in of.combinations].index("D + S")
    ways = set()
    for attachment in range(len(of.layout.attachments)):
        last = trail.attachment_force(attachment, number)[-1]
        assert last.result.value * POUND_FORCE == pytest.approx(of.attachment_normal[attachment, number])
        ways |= {last.meaning.partition("near the end of a line: ")[2].partition(")")[0]}
    assert "stiff beam on equal supports" in ways
    assert "" in ways
