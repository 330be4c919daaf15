"""Rows of modules and the lines under them: grouping of equal rows, shared clamps, and words for spacings."""

from __future__ import annotations

import numpy as np
import pytest

from engine.mounting.interface import Refusal
from engine.mounting.layout import SpacingPattern
from engine.mounting.lines_along_eave import candidate_steps, lines_under_rows, module_rows, split_rows
from support import context_of


@pytest.mark.parametrize(
    ("step", "words"),
    [
        (1, "every seam"),
        (1.5, "2 of every 3 seams"),
        (2, "every 2nd seam"),
        (2.5, "2 of every 5 seams"),
        (3, "every 3rd seam"),
        (4, "every 4th seam"),
        (11, "every 11th seam"),
        (13, "every 13th seam"),
    ],
)
def test_words_of_a_spacing(step: float, words: str) -> None:
    """Rails in one run of 80 ft, so that wide spacings fit too."""
    of = context_of("kestrel_yard", "rail", hardware={"rail": {"longest_run": "400 ft"}})
    layout = of.uniform_layout(step)
    assert not isinstance(layout, Refusal)
    assert of.method.spacing_label(layout, of.job) == words


def test_rows_with_equal_positions_are_grouped() -> None:
    """Kestrel Yard's rails: four rows in four runs of nine; all rows have the same positions, run by run."""
    of = context_of("kestrel_yard", "rail")
    alike = module_rows(of.field)
    assert [rows.module.shape for rows in alike] == [(4, 9)] * 4
    assert [rows.number.tolist() for rows in alike] == [[0, 1, 2, 3]] * 4
    for rows in alike:
        np.testing.assert_allclose(of.field.outlines.left[rows.module], np.broadcast_to(rows.left, rows.module.shape))
        np.testing.assert_allclose(of.field.outlines.low[rows.module[:, 0]], rows.low)
        assert (rows.start, rows.end) == (rows.left[0], rows.right[-1])
        singly = split_rows(rows)
        assert [each.module.shape for each in singly] == [(1, 9)] * 4
        assert [each.low.item() for each in singly] == rows.low.tolist()
    assert sorted(module for rows in alike for module in rows.module.ravel().tolist()) == list(range(144))


def test_rows_with_other_spacings_are_not_grouped() -> None:
    """The lowest row on every 2nd seam: in each of four runs it is a group of its own."""
    field = context_of("kestrel_yard", "tilted_rack").field
    pattern = SpacingPattern((3.0, 2.0), (field.row == 0).astype(np.int64), ("others", "lowest row"))
    rows = module_rows(field, pattern)
    assert sorted(each.number.tolist() for each in rows) == [[0]] * 4 + [[1, 2, 3, 4, 5]] * 4
    for each in rows:
        assert set(each.steps.tolist()) == ({2.0} if each.number.tolist() == [0] else {3.0})


def test_neighbours_share_a_clamp() -> None:
    """Two lines under rows of nine: ten clamps each, loaded at both edges of every module by half of the line's share."""
    rows = module_rows(context_of("kestrel_yard", "rail").field)[0]
    lines = lines_under_rows(
        rows, rows.low[:, None] + np.array([0.4, 1.3]), np.array([0.6, 0.4]), np.array([0.1, -0.1]), 0.86
    )
    assert lines.clamp.tolist() == [0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9]
    assert lines.clamps == 10
    assert len(lines) == 8
    np.testing.assert_allclose(lines.across[:2] - rows.low[0], [0.4, 1.3])
    np.testing.assert_allclose(lines.load_start[:4], [rows.left[0], rows.right[0], rows.left[1], rows.right[1]])
    np.testing.assert_allclose(lines.load_start, lines.load_end)
    np.testing.assert_allclose(lines.share, np.tile([0.3, 0.2], 4))
    np.testing.assert_allclose(lines.couple[:2], [[0.05] * 18, [-0.05] * 18])
    assert lines.module[0].tolist() == lines.module[1].tolist() == np.repeat(rows.module[0], 2).tolist()
    assert lines.length == pytest.approx(rows.end - rows.start)


def test_candidate_spacings_end_at_the_longest_run() -> None:
    """Runs of nine are 33.8 ft long: sixteen seams of 24 in."""
    of = context_of("kestrel_yard", "rail")
    assert candidate_steps(of.job, of.field) == tuple(range(16, 0, -1))
