"""Drawing on the roof: every step changes the inputs as a person would write them, and the engine reads them."""

from __future__ import annotations

import pytest

from engine.mounting.layout import Field
from engine.mounting.module_grid import in_landscape, place_modules
from engine.units import FOOT, INCH, parse
from support import SCENARIOS
from tui.model.drawing import Drawing, written
from tui.model.inputs import Inputs


def drawing_of(inputs: Inputs) -> Drawing:
    return Drawing(inputs, inputs.scenario().job, "us")


@pytest.fixture
def drawn() -> Drawing:
    path = SCENARIOS / "kestrel_yard.toml"
    return drawing_of(Inputs(path, path.read_text(encoding="utf-8")))


def modules(inputs: Inputs) -> int:
    job = inputs.scenario().job
    field = place_modules(job, *in_landscape(job), None)
    assert isinstance(field, Field)
    return field.modules


@pytest.mark.parametrize("inches", [0, 1, 11.99, 12, 23.5, 482, 482.25])
def test_a_length_is_written_as_on_a_drawing_and_read_again(inches: float) -> None:
    words = written(inches * INCH, "us")
    assert parse(words, "length") == pytest.approx(inches * INCH, abs=0.005 * INCH)
    assert parse(written(inches * INCH, "si"), "length") == pytest.approx(inches * INCH, abs=1e-4)


def test_steps_are_a_module_a_seam_and_an_inch(drawn: Drawing) -> None:
    """Kestrel Yard: modules of 1722 x 1134 mm with gaps of 1/2 in, seams every 24 in, purlins every 5 ft."""
    assert drawn.step("module") == pytest.approx((1.722 + 0.5 * INCH, 1.134 + 0.5 * INCH))
    assert drawn.step("seam") == pytest.approx((24 * INCH, 5 * FOOT))
    assert drawn.step("inch") == pytest.approx((INCH, INCH))


def test_the_array_moves_and_stops_at_the_left_rake_and_the_eave(drawn: Drawing) -> None:
    moved = drawn.array_moved(2 * INCH, -INCH)
    assert moved.changes == {("array", "origin"): ["40 ft 2 in", "15 ft 5 in"]}
    assert drawing_of(moved).array_moved(-1000, -1000).scenario().job.origin == (0.0, 0.0)
    assert drawing_of(moved).array_moved(-2 * INCH, INCH).scenario().job.origin == drawn.job.origin


def test_rows_and_columns_are_added_and_dropped_down_to_one(drawn: Drawing) -> None:
    assert modules(drawn.array_resized(1, -2)) == 7 * 22
    assert modules(drawn.array_resized(-1000, -1000)) == 1


def test_a_keep_clear_area_is_placed_moved_resized_and_removed(drawn: Drawing) -> None:
    inputs = drawn.area_added(100 * FOOT, 25 * FOOT)
    area = inputs.scenario().job.keep_clear[0]
    assert area.at == pytest.approx((98 * FOOT, 21 * FOOT))
    assert area.size == pytest.approx((4 * FOOT, 8 * FOOT))
    assert modules(inputs) < 144
    inputs = drawing_of(inputs).area_moved(0, -FOOT, 1000)
    area = inputs.scenario().job.keep_clear[0]
    assert area.at[0] == pytest.approx(97 * FOOT)
    assert area.at[1] + area.size[1] == pytest.approx(inputs.scenario().job.building.slope_length, abs=INCH / 100)
    inputs = drawing_of(inputs).area_resized(0, 2 * FOOT, -1000)
    assert inputs.scenario().job.keep_clear[0].size == pytest.approx((6 * FOOT, INCH))
    assert drawing_of(inputs).area_removed(0).scenario().job.keep_clear == ()


def test_one_module_is_left_out_and_put_back(drawn: Drawing) -> None:
    job = drawn.job
    field = place_modules(job, *in_landscape(job), None)
    assert isinstance(field, Field)
    at = field.outlines
    for number in (0, 30, 143):
        box = (float(at.left[number]), float(at.low[number]), float(at.right[number]), float(at.high[number]))
        inputs = drawn.module_toggled(box)
        assert modules(inputs) == 143
        assert modules(drawing_of(inputs).module_toggled(box)) == 144


def test_an_aisle_lies_between_the_middle_rows_and_moves_row_by_row(drawn: Drawing) -> None:
    """Kestrel Yard: six rows of 24."""
    inputs = drawn.aisle_added()
    assert inputs.changes == {("array", "aisles"): [{"after_row": 3, "width": "3 ft"}]}
    assert modules(inputs) == 144
    inputs = drawing_of(inputs).aisle_moved(0, 0, 1)
    assert inputs.scenario().job.arrays[0].aisles[0].after_row == 4
    for _ in range(5):
        inputs = drawing_of(inputs).aisle_moved(0, 0, 1)
    assert inputs.scenario().job.arrays[0].aisles[0].after_row == 5
    inputs = drawing_of(inputs).aisle_moved(0, -1, 0)
    assert inputs.scenario().job.arrays[0].aisles[0].after_column == 12
    inputs = drawing_of(inputs).aisle_widened(0, FOOT)
    assert inputs.scenario().job.arrays[0].aisles[0].width == pytest.approx(4 * FOOT)
    assert drawing_of(inputs).aisle_removed(0).scenario().job.arrays[0].aisles == ()


def test_two_aisles_never_share_a_place_and_the_array_stays_around_them(drawn: Drawing) -> None:
    inputs = drawing_of(drawn.aisle_added()).aisle_added()
    places = [aisle.after_row for aisle in inputs.scenario().job.arrays[0].aisles]
    assert sorted(places) == [2, 3]
    fewest = drawing_of(inputs).array_resized(-100, 0).scenario().job.arrays[0]
    assert fewest.rows == 4


def test_the_box_of_an_aisle_is_the_room_between_the_modules(drawn: Drawing) -> None:
    for turned in (0, -1):
        inputs = drawn.aisle_added()
        inputs = drawing_of(inputs).aisle_moved(0, turned, 0) if turned else inputs
        job = inputs.scenario().job
        field = place_modules(job, *in_landscape(job), None)
        assert isinstance(field, Field)
        at, (left, low, right, high) = field.outlines, drawing_of(inputs).aisle_box(0)
        if turned:
            assert left == pytest.approx(float(at.right[at.right <= left + INCH].max()))
            assert right == pytest.approx(float(at.left[at.left >= right - INCH].min()))
        else:
            assert low == pytest.approx(float(at.high[at.high <= low + INCH].max()))
            assert high == pytest.approx(float(at.low[at.low >= high - INCH].min()))
