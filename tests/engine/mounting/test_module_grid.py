"""Modules in a grid: positions, keep-clear areas, ends of runs, and refusals; by hand."""

from __future__ import annotations

import numpy as np
import pytest

from engine.mounting.interface import Refusal
from engine.mounting.layout import Attitude, Field
from engine.mounting.module_grid import Grid, in_landscape, place_modules
from engine.project.array import LANDSCAPE
from engine.project.job import Job
from support import scenario_of

FLAT = Attitude(0.0, 0.1, 0.1, 1.0, 2.0)
GRID = Grid(LANDSCAPE, width=2.0, depth=1.0, pitch_x=2.5, pitch_y=1.25)


def job(**changes: object) -> Job:
    """Three rows of four modules, the last row of two."""
    plain = {
        "building__length": "40 m",
        "building__width": "20 m",
        "building__roof_shape": "flat",
        "building__slope": "0 deg",
    }
    array = {"array__origin": ["3 m", "2 m"], "array__rows": 3, "array__columns": 4, "array__leave_out": ["3.3", "3.4"]}
    return scenario_of(**plain | array | changes).job


def placed(grid: Grid = GRID, longest: float | None = None, *, by_column: bool = False, **changes: object) -> Field:
    field = place_modules(job(**changes), grid, FLAT, longest, by_column=by_column)
    assert not isinstance(field, Refusal)
    return field


def test_position_of_each_row_and_column() -> None:
    field = placed()
    assert field.row.tolist() == [0, 0, 0, 0, 1, 1, 1, 1, 2, 2]
    assert field.column.tolist() == [0, 1, 2, 3, 0, 1, 2, 3, 0, 1]
    np.testing.assert_allclose(field.outlines.left, 3 + 2.5 * field.column)
    np.testing.assert_allclose(field.outlines.right, 5 + 2.5 * field.column)
    np.testing.assert_allclose(field.outlines.low, 2 + 1.25 * field.row)
    np.testing.assert_allclose(field.outlines.high, 3 + 1.25 * field.row)
    assert (field.modules, field.lost) == (10, 0)
    assert field.covered == pytest.approx(10 * 2.0 * 1.0)


def test_the_stated_array_is_flat_and_in_landscape() -> None:
    job = scenario_of(array__height_above_roof="6 in").job
    grid, attitude = in_landscape(job)
    module, gap = job.module, job.module_gap
    assert (grid.width, grid.depth) == (module.length, module.width)
    assert (grid.pitch_x, grid.pitch_y) == pytest.approx((module.length + gap, module.width + gap))
    assert grid.orientation == LANDSCAPE
    assert (attitude.tilt, attitude.chord, attitude.long_side) == (0.0, module.width, module.length)
    assert attitude.low == attitude.high == attitude.middle == pytest.approx(6 * 0.0254)


def test_modules_that_touch_a_keep_clear_area_are_left_out() -> None:
    """From 5.1 to 5.4 m lies in the gap between columns; from 4.9 m on it removes column 0, to 5.6 m column 1 too."""

    def lost(x: str, width: str) -> list[int]:
        field = placed(array__keep_clear=[{"at": [x, "2.2 m"], "size": [width, "0.5 m"]}])
        gone = sorted(set(range(4)) - set(field.column[field.row == 0].tolist()))
        assert field.lost == len(gone)
        assert field.modules == 10 - len(gone)
        return gone

    assert lost("5.1 m", "0.3 m") == []
    assert lost("4.9 m", "0.5 m") == [0]
    assert lost("4.9 m", "0.7 m") == [0, 1]


def test_runs_end_at_gaps_and_at_the_longest_length() -> None:
    """A row of four, without its third module: two runs. Longest 5 m: two modules of 2.5 m a run, evenly divided."""
    assert placed().run.tolist() == [0, 0, 0, 0, 1, 1, 1, 1, 2, 2]
    gapped = placed(array__keep_clear=[{"at": ["8.5 m", "2.2 m"], "size": ["0.5 m", "0.5 m"]}])
    assert gapped.run.tolist() == [0, 0, 1, 2, 2, 2, 2, 3, 3]
    assert gapped.runs == 4
    assert gapped.minimum_attachments == 2 * (9 + 4)
    assert placed(longest=5.0).run.tolist() == [0, 0, 1, 1, 2, 2, 3, 3, 4, 4]
    assert placed(longest=7.5).run.tolist() == [0, 0, 1, 1, 2, 2, 3, 3, 4, 4]
    assert placed(longest=1.0).run.tolist() == list(range(10))


def test_by_column_runs_go_up_the_slope() -> None:
    columns = placed(by_column=True)
    assert columns.runs == 4
    for number in range(4):
        assert len(set(columns.run[columns.column == number].tolist())) == 1


@pytest.mark.parametrize(
    ("origin", "words"),
    [
        (["30.5 m", "2 m"], None),
        (["30.6 m", "2 m"], "along the eave; the roof ends at"),
        (["3 m", "16.5 m"], None),
        (["3 m", "16.6 m"], "up the slope; the roof ends at"),
    ],
)
def test_an_array_that_does_not_fit_is_refused(origin: list[str], words: str | None) -> None:
    """The grid is 9.5 m long and 3.5 m deep; the roof 40 by 20 m."""
    answer = place_modules(job(array__origin=origin), GRID, FLAT, None)
    assert isinstance(answer, Refusal) == bool(words)
    if isinstance(answer, Refusal):
        assert words in answer.reason


def test_an_array_without_modules_is_refused() -> None:
    answer = place_modules(job(array__keep_clear=[{"at": ["0 m", "0 m"], "size": ["30 m", "15 m"]}]), GRID, FLAT, None)
    assert isinstance(answer, Refusal)
    assert answer.code == "no_room"
