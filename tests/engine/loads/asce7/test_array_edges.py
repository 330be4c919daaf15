"""Exposed edges, ASCE 7 §29.4.3 and §29.4.4, in both readings; expected maps drawn by hand."""

from __future__ import annotations

import numpy as np
import pytest
from standards_fields import building, field

from engine.loads.asce7.array_edges import FLUSH_GAP, exposed_modules, group_gap
from engine.mounting.layout import Attitude, Field
from engine.units import FOOT, INCH


def shown(of: Field, *, literal: bool = False, gap: float = FLUSH_GAP, **changes: object) -> list[str]:
    """The exposed modules as rows of text, the row at the eave last."""
    answer = exposed_modules(of, building(**changes), literal=literal, gap=gap)
    drawn = np.full((int(of.row.max()) + 1, int(of.column.max()) + 1), ".")
    drawn[of.row, of.column] = np.where(answer, "#", "o")
    return ["".join(row) for row in drawn[::-1]]


SMALL = Attitude(0.0, 4 * INCH, 5 * INCH, 1 * FOOT, 2 * FOOT)
"""Modules of 2 by 1 ft: safe reach 3 ft, literal reach 1.5 ft."""


def test_safe_reading_takes_the_longer_side_from_every_edge() -> None:
    """Reach 3 ft: up the slope the 1 ft rows begin 0, 1.05, 2.10, 3.15 ft from the edge: three rows; along it two columns of 2 ft."""
    of = field(rows=8, columns=6, size=(2.0, 1.0), attitude=SMALL)
    assert shown(of) == ["######"] * 3 + ["##oo##"] * 2 + ["######"] * 3


def test_literal_reading_takes_the_chord() -> None:
    """Reach 1.5 ft: two rows, one column; the array lies 30 ft and more from the roof's edges, more than 0.5 h of 10 ft."""
    of = field(rows=6, columns=5, size=(2.0, 1.0), attitude=SMALL)
    assert shown(of, literal=True) == ["#####"] * 2 + ["#ooo#"] * 2 + ["#####"] * 2


def test_literal_reading_leaves_out_edges_near_the_roofs_edge() -> None:
    """The eave side lies 9 ft and the rake side 9 ft from the roof's edge, not more than 0.5 h = 10 ft: neither is exposed."""
    of = field(rows=6, columns=5, size=(2.0, 1.0), at=(9.0, 9.0), attitude=SMALL)
    assert shown(of, literal=True) == ["#####"] * 2 + ["oooo#"] * 4
    assert shown(of)[-1] == "#####"
    assert shown(of, literal=True, mean_roof_height="17 ft") == ["#####"] * 2 + ["#ooo#"] * 2 + ["#####"] * 2


def test_a_hole_counts_only_where_it_is_wider_than_the_gap() -> None:
    """One module missing: 6.1 ft wide along the eave, 3.1 ft up the slope: only its left and right sides are exposed.

    Literal reach is 4.5 ft: of a 6 by 3 ft grid one column and two rows from each free side.
    """
    of = field(rows=7, columns=7, missing=frozenset({(3, 3)}))
    assert shown(of, literal=True) == [
        "#######",
        "#######",
        "#o###o#",
        "#o#.#o#",
        "#o###o#",
        "#######",
        "#######",
    ]


@pytest.mark.parametrize(("gap", "expected"), [(3.9, False), (4.1, True)])
def test_rows_farther_apart_than_the_gap_are_groups(gap: float, expected: bool) -> None:
    """In the middle of a large array a row is exposed only where it stands alone."""
    of = field(rows=9, columns=15, at=(50.0, 20.0), gap=(0.05, gap))
    middle = exposed_modules(of, building(), literal=False, gap=FLUSH_GAP)[(of.row == 4) & (of.column == 7)]
    assert bool(middle[0]) is expected


def test_group_gap_of_tilted_rows() -> None:
    """max(4 h2, 4 ft)."""
    assert group_gap(0.5 * FOOT) == pytest.approx(4 * FOOT)
    assert group_gap(2.0 * FOOT) == pytest.approx(8 * FOOT)


def test_small_arrays_and_single_modules_are_all_exposed() -> None:
    for rows, columns in ((1, 1), (1, 9), (2, 4), (4, 2)):
        assert exposed_modules(field(rows=rows, columns=columns), building(), literal=False, gap=FLUSH_GAP).all()


def test_mirrored_array_mirrored_answer() -> None:
    missing = frozenset({(2, 1), (2, 2), (5, 6), (0, 0)})
    mirrored = frozenset((r, 8 - c) for r, c in missing)
    wide = (200 - 9 * 6.05 + 0.05) / 2
    for literal in (False, True):
        one = shown(field(rows=8, columns=9, at=(wide, 20.0), missing=missing), literal=literal)
        other = shown(field(rows=8, columns=9, at=(wide, 20.0), missing=mirrored), literal=literal)
        assert [row[::-1] for row in one] == other


def test_against_distances_taken_one_by_one() -> None:
    """The same answer by brute force: every module against every free side, rectangle to segment."""
    of = field(rows=15, columns=14, missing=frozenset({(6, 6), (7, 6), (14, 13), (0, 2)}))
    reach = 1.5 * of.attitude.long_side
    at, present = of.outlines, set(zip(of.row.tolist(), of.column.tolist(), strict=True))
    free = []
    for i, (r, c) in enumerate(zip(of.row.tolist(), of.column.tolist(), strict=True)):
        if (r - 1, c) not in present and (r - 2, c) not in present:
            free.append((at.left[i], at.low[i], at.right[i], at.low[i]))
        if (r + 1, c) not in present and (r + 2, c) not in present:
            free.append((at.left[i], at.high[i], at.right[i], at.high[i]))
        if (r, c - 1) not in present:
            free.append((at.left[i], at.low[i], at.left[i], at.high[i]))
        if (r, c + 1) not in present:
            free.append((at.right[i], at.low[i], at.right[i], at.high[i]))
    expected = []
    for i in range(of.modules):
        apart = [
            np.hypot(max(0, x0 - at.right[i], at.left[i] - x1), max(0, y0 - at.high[i], at.low[i] - y1))
            for x0, y0, x1, y1 in free
        ]
        expected.append(min(apart) <= reach)
    assert 0 < sum(expected) < of.modules
    assert exposed_modules(of, building(), literal=False, gap=FLUSH_GAP).tolist() == expected


def test_a_hole_exposes_the_four_modules_beside_it() -> None:
    """Lp so short that 1.5 Lp does not reach across the gap to the next module: the rim, and what borders the hole."""
    tiny = Attitude(0.0, 4 * INCH, 5 * INCH, 0.02 * FOOT, 0.02 * FOOT)
    of = field(rows=7, columns=7, gap=(0.05, 0.05), missing=frozenset({(3, 3)}), attitude=tiny, at=(60.0, 30.0))
    found = exposed_modules(of, building(), literal=False, gap=0.3)
    exposed = {
        (row, column)
        for row, column, yes in zip(of.row.tolist(), of.column.tolist(), found.tolist(), strict=True)
        if yes
    }
    rim = {(row, column) for row in range(7) for column in range(7) if row in (0, 6) or column in (0, 6)}
    assert exposed == rim | {(2, 3), (4, 3), (3, 2), (3, 4)}
