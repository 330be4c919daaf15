"""Tilted racks: distance of rows, orientation and statics of frames; by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from engine.mounting.interface import Refusal
from engine.mounting.layout import Field
from engine.mounting.tilted_rack import TiltedRack, frame_feet
from support import scenario_of

FOOT, INCH = 0.3048, 0.0254
MODULE = {"module__length": "2 m", "module__width": "1 m", "array__gap": "20 mm", "array__rows": 2, "array__columns": 4}


def placed(rack: TiltedRack, **changes: object) -> Field:
    field = rack.place_modules(scenario_of(**MODULE | changes).job)
    assert not isinstance(field, Refusal)
    return field


@pytest.mark.parametrize(("tilt", "sun"), [("10 deg", "20 deg"), ("30 deg", "20 deg"), ("10 deg", "45 deg")])
def test_rows_do_not_shade_each_other(tilt: str, sun: str) -> None:
    """Distance of rows: cos tilt for the row, plus sin tilt / tan of the sun's elevation for its shadow."""
    field = placed(TiltedRack(tilt=tilt, design_sun_elevation=sun))
    angle, elevation = (math.radians(float(words.split()[0])) for words in (tilt, sun))
    low = np.unique(field.outlines.low.round(9))
    assert low[1] - low[0] == pytest.approx(math.cos(angle) + math.sin(angle) / math.tan(elevation))
    np.testing.assert_allclose(field.outlines.high - field.outlines.low, math.cos(angle))


def test_rows_keep_the_gap_if_the_shade_is_shorter() -> None:
    field = placed(TiltedRack(tilt="3 deg", design_sun_elevation="80 deg"), array__gap="50 mm")
    low = np.unique(field.outlines.low.round(9))
    assert low[1] - low[0] == pytest.approx(math.cos(math.radians(3)) + 0.05)


def test_low_side_sets_the_sign_of_the_tilt() -> None:
    rise = math.sin(math.radians(10))
    for side, sign in (("eave", 1), ("ridge", -1)):
        attitude = placed(TiltedRack(low_side=side)).attitude
        assert attitude.tilt == pytest.approx(10 * sign)
        assert (attitude.low, attitude.high) == pytest.approx((6 * INCH, 6 * INCH + rise))
        assert (attitude.chord, attitude.long_side) == pytest.approx((1.0, 2.0))


def test_modules_lie_in_landscape_and_rows_are_divided_at_the_longest_run() -> None:
    """Four modules of 2 m with 20 mm between: 8.06 m in one run, or two runs of two if the longest run is 5 m."""
    field = placed(TiltedRack())
    np.testing.assert_allclose(field.outlines.right - field.outlines.left, 2.0)
    assert field.runs == 2
    assert placed(TiltedRack(), hardware={"rack_beam": {"longest_run": "5 m"}}).runs == 4


def test_a_frame_on_two_feet() -> None:
    """A load along the slope h above feet 0.8 m apart turns the frame.

    The lower foot is pressed by h/0.8 of it, the upper one lifted by as much.
    """
    lower, upper = frame_feet(0.8, 0.4)
    assert (lower.offset, upper.offset) == (-0.4, 0.4)
    assert lower.normal == upper.normal == lower.in_plane == upper.in_plane == 0.5
    assert (lower.couple, upper.couple) == (0.5, -0.5)
    about_lower = upper.couple * 0.8 + 0.4  # the uplift of the upper foot balances the moment of the load
    assert about_lower == pytest.approx(0.0)


def test_quantities_of_frames() -> None:
    """Two rows of one run, a frame on every second seam.

    Each frame has two legs and one brace, each row two beams, with a clamp for two modules on each beam.
    """
    (column,) = compare(scenario_of(**MODULE, methods__tilted_rack__spacing="2 ribs"), ("tilted_rack",)).columns
    assert column.design
    frames = sum(len(lines) * len(lines.stands_on) for lines in column.design.layout.lines)
    pieces = {item.part: item.quantity for item in column.design.bill.items}
    assert value_of(column, "attachments") == pieces["attachment"] == 2 * frames
    assert (pieces["leg"], pieces["brace"]) == (2 * frames, frames)
    assert (pieces["middle_clamp"], pieces["end_clamp"]) == (2 * 2 * 3, 2 * 2 * 2)


@pytest.mark.parametrize(("first", "words"), [("0 m", "the lower feet"), ("0.25 m", "the upper feet")])
def test_feet_on_the_structure_need_purlins_under_both(first: str, words: str) -> None:
    """Rows at 4.25 m, feet cos 10 deg = 0.985 m apart, purlins 2 m apart.

    The lower feet can lie over one, the upper ones cannot.
    """
    changes = {
        "array__origin": ["3 m", "4.25 m"],
        "array__rows": 1,
        "roof__support_spacing": "2 m",
        "roof__first_support": first,
        "roof__last_support": "0.1 m",
        "hardware__bracket": "structure",
    }
    (column,) = compare(scenario_of("wren_workshop", **MODULE | changes), ("tilted_rack",)).columns
    assert column.status == "refused"
    assert words in column.flags[0].text
