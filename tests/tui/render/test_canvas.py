"""The canvas: a dot that is drawn is where it should be, and nowhere else."""

from __future__ import annotations

import numpy as np
import pytest

from tui.render.canvas import Canvas

# The Unicode Standard, chapter 21.1: dots 1 to 8 of a braille cell are bits 0 to 7 of the letter
DOT = {(0, 0): 0x01, (0, 1): 0x02, (0, 2): 0x04, (1, 0): 0x08, (1, 1): 0x10, (1, 2): 0x20, (0, 3): 0x40, (1, 3): 0x80}


@pytest.mark.parametrize(("place", "bit"), DOT.items())
def test_every_dot_is_its_bit(place: tuple[int, int], bit: int) -> None:
    canvas = Canvas(1, 1)
    canvas.line(*place, *place)
    assert canvas.content().plain == chr(0x2800 + bit)


@pytest.mark.parametrize("ends", [(0, 0, 39, 0), (3, 0, 3, 15), (0, 0, 15, 15), (39, 15, 0, 1), (5, 9, 5, 9)])
def test_a_line_runs_from_end_to_end_without_a_gap(ends: tuple[int, int, int, int]) -> None:
    canvas = Canvas(20, 4)
    canvas.line(*ends)
    y, x = np.nonzero(canvas.dots)
    assert (ends[0], ends[1]) in set(zip(x.tolist(), y.tolist(), strict=True))
    assert (ends[2], ends[3]) in set(zip(x.tolist(), y.tolist(), strict=True))
    assert len(x) == max(abs(ends[2] - ends[0]), abs(ends[3] - ends[1])) + 1
    along = np.linspace(0, 1, len(x))
    if ends[0] != ends[2]:  # no dot is farther than half a dot from the true line
        order = np.argsort(x if ends[0] < ends[2] else -x, kind="stable")
        assert np.abs(y[order] - (ends[1] + along * (ends[3] - ends[1]))).max() <= 0.5


def test_a_rectangle_is_filled_to_its_corners() -> None:
    canvas = Canvas(4, 2)
    canvas.fill(1, 2, 4, 5)
    expected = np.zeros((8, 8), dtype=bool)
    expected[2:6, 1:5] = True
    assert (canvas.dots == expected).all()


def test_what_lies_outside_is_not_drawn() -> None:
    canvas = Canvas(3, 2)
    canvas.line(-10, -10, 20, 20)
    canvas.fill(-5, 3, 99, 3)
    canvas.words(-1, 0, "abcdef")
    canvas.words(0, 7, "far below")
    assert canvas.content().plain.splitlines()[0] == "bcd"
    assert canvas.dots.sum() == 6 + 6 - 1


def test_letters_hide_dots_and_keep_their_style() -> None:
    canvas = Canvas(6, 1)
    canvas.fill(0, 0, 11, 3, "red")
    canvas.words(2, 0, "hi", "bold")
    content = canvas.content()
    assert content.plain == "⣿⣿hi⣿⣿"
    assert [(span.start, span.end, span.style) for span in content.spans] == [
        (0, 2, "red"),
        (2, 4, "bold"),
        (4, 6, "red"),
    ]


@pytest.mark.parametrize("every", [1, 2, 3])
def test_frames_are_the_lines_of_their_sides(every: int) -> None:
    """Some of them partly outside, one a single dot."""
    at_once, split_rows = Canvas(20, 8), Canvas(20, 8)
    x0, y0, x1, y1 = np.array([[0, 0, 7, 7], [5, 3, 18, 20], [-6, -4, 3, 9], [30, 25, 60, 50], [12, 12, 12, 12]]).T
    at_once.frames(x0, y0, x1, y1, "bold", every=every)
    for left, top, right, bottom in zip(x0, y0, x1, y1, strict=True):
        for ends in (
            (left, top, right, top),
            (left, bottom, right, bottom),
            (left, top, left, bottom),
            (right, top, right, bottom),
        ):
            split_rows.line(*ends, "bold", every=every)
    assert at_once.content() == split_rows.content()
    assert at_once.dots.any()
