"""The chart of the spacing study: its marks lie on their curves, on the right side of the limit."""

from __future__ import annotations

import pytest

from tui.render.canvas import ACROSS, DOWN, Canvas
from tui.render.chart import ROOF, Frame, _curve

WIDTH = 40


@pytest.mark.parametrize("height", [6, 8, 16, 17])
@pytest.mark.parametrize(
    "values", [(0.2, 0.5, 0.98, 1.0, 1.02, 1.5, 1.9), (0.99, 0.995, 1.005), (1.001, 0.999), (0.0, 1.0)]
)
def test_every_mark_lies_on_its_curve_and_on_its_side_of_the_limit(values: tuple[float, ...], height: int) -> None:
    canvas = Canvas(WIDTH, height)
    x = tuple(float(10 + 10 * number) for number in range(len(values)))
    frame = Frame(x, (height - 1) * DOWN - 1)
    _curve(canvas, frame, values, ROOF, "")
    limit = round(frame.y(1.0)) // DOWN
    for place, value in zip(x, values, strict=True):
        (row,) = [each for each in range(height) if canvas.letters[each, round(place) // ACROSS] == ROOF]
        column = round(place) // ACROSS
        assert canvas.dots[row * DOWN : (row + 1) * DOWN, column * ACROSS : (column + 1) * ACROSS].any()
        assert row < limit if value > 1 else row > limit
