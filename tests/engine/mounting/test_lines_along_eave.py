"""Rows of modules and the lines under them: grouping of equal rows, shared clamps, and words for spacings."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from engine.design.trial import DesignContext
from engine.mounting.build_layout import join_runs
from engine.mounting.interface import Refusal, RunGroup
from engine.mounting.layout import Field
from engine.mounting.lines_along_eave import (
    ModuleRows,
    alike_runs,
    candidate_steps,
    lines_under_rows,
    rows_of,
    split_rows,
)
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


def groups_of(of: DesignContext) -> list[RunGroup]:
    lines = of.method.field_lines(of.job, of.field)
    assert not isinstance(lines, Refusal)
    return lines.groups(of.strips.strip)


def rows(field: Field, strip: np.ndarray) -> list[ModuleRows]:
    return [rows_of(field, group) for group in alike_runs(field, strip)]


def test_rows_with_equal_positions_are_grouped() -> None:
    """Kestrel Yard's rails: four rows in four runs of nine; all rows have the same positions, run by run."""
    of = context_of("kestrel_yard", "rail")
    alike = rows(of.field, np.zeros(of.field.modules, dtype=np.int64))
    assert [group.module.shape for group in alike] == [(4, 9)] * 4
    assert [group.number.tolist() for group in alike] == [[0, 1, 2, 3]] * 4
    for group in alike:
        left = of.field.outlines.left[group.module]
        np.testing.assert_allclose(left, np.broadcast_to(group.left, group.module.shape))
        np.testing.assert_allclose(of.field.outlines.low[group.module[:, 0]], group.low)
        assert (group.start, group.end) == (group.left[0], group.right[-1])
        singly = split_rows(group)
        assert [each.module.shape for each in singly] == [(1, 9)] * 4
        assert [each.low.item() for each in singly] == group.low.tolist()
    assert sorted(module for group in alike for module in group.module.ravel().tolist()) == list(range(144))


def test_rows_in_other_strips_are_not_grouped() -> None:
    """The lowest row in a strip of its own: in each of four runs it is a group of its own."""
    field = context_of("kestrel_yard", "tilted_rack").field
    found = rows(field, (field.row == 0).astype(np.int64))
    assert sorted(each.number.tolist() for each in found) == [[0]] * 4 + [[1, 2, 3, 4, 5]] * 4


def test_a_run_group_is_laid_once_for_its_ribs() -> None:
    """Rails in eight groups, each in one strip: where the spacing of the edge changes, the inner groups stay the same."""
    of = context_of("kestrel_yard", "rail")
    uniform = of.uniform_layout(2.0)
    wider = of.lay_out(replace(of.strips, spacings=(3.0, *[2.0] * (len(of.strips.names) - 1))), 0)
    assert not isinstance(uniform, Refusal)
    assert not isinstance(wider, Refusal)
    assert len(uniform.runs) == 8
    kept = [one is other for one, other in zip(uniform.runs, wider.runs, strict=True)]
    assert kept == [bool(strip) for strip in of.strips.strip[[group.module[0, 0] for group in groups_of(of)]]]
    assert sum(len(laid.attachments) for laid in wider.runs) == len(wider.attachments)


def test_runs_that_share_attachments_are_laid_as_one() -> None:
    """Two groups of lines at the same places are no layout of two; laid together each place has one attachment."""
    of = context_of("kestrel_yard", "rail")
    layout, lines = of.uniform_layout(2.0), of.method.field_lines(of.job, of.field)
    assert not isinstance(layout, Refusal)
    assert not isinstance(lines, Refusal)
    first = layout.runs[0]
    assert join_runs(layout.pattern, [first, first]) is None
    together = join_runs(layout.pattern, [lines.lay([*first.lines, *first.lines])])
    assert together
    assert len(together.attachments) == len(first.attachments)
    assert len(together.lines) == 2 * len(first.lines)


def test_neighbours_share_a_clamp() -> None:
    """Two lines under rows of nine: ten clamps each, loaded at both edges of every module by half of the line's share."""
    field = context_of("kestrel_yard", "rail").field
    first = rows(field, np.zeros(field.modules, dtype=np.int64))[0]
    lines = lines_under_rows(
        first, first.low[:, None] + np.array([0.4, 1.3]), np.array([0.6, 0.4]), np.array([0.1, -0.1]), 0.86
    )
    assert lines.clamp.tolist() == [0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9]
    assert lines.clamps == 10
    assert len(lines) == 8
    np.testing.assert_allclose(lines.across[:2] - first.low[0], [0.4, 1.3])
    np.testing.assert_allclose(lines.load_start[:4], [first.left[0], first.right[0], first.left[1], first.right[1]])
    np.testing.assert_allclose(lines.load_start, lines.load_end)
    np.testing.assert_allclose(lines.share, np.tile([0.3, 0.2], 4))
    np.testing.assert_allclose(lines.couple[:2], [[0.05] * 18, [-0.05] * 18])
    assert lines.module[0].tolist() == lines.module[1].tolist() == np.repeat(first.module[0], 2).tolist()
    assert lines.length == pytest.approx(first.end - first.start)


def test_candidate_spacings_end_at_the_longest_run() -> None:
    """Runs of nine are 33.8 ft long: sixteen seams of 24 in."""
    of = context_of("kestrel_yard", "rail")
    assert candidate_steps(of.job, of.field) == tuple(range(16, 0, -1))
