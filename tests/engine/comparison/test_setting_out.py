"""Setting out of the default scenario by hand, and what must be true of every layout."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from engine.comparison.compare import Comparison, compare
from engine.comparison.setting_out import setting_out
from engine.units import feet_and_inches
from support import scenario_of

SCENARIOS = ("kestrel_yard", "sparrow_lane", "swallow_cottage", "dunlin_hall", "plover_terrace")


@cache
def comparison(name: str) -> Comparison:
    return compare(scenario_of(name))


def test_lines_of_the_default_scenario_by_hand() -> None:
    """Rails lie in the middle of the clamp zone, 375 mm from either end of a module of 1722 mm; rows 12.7 mm apart.

    The array begins 15.5 ft = 4724.4 mm from the eave: 5099.4, 6071.4; the next row 1734.7 mm on: 6834.1, 7806.1 ...
    """
    design = comparison("kestrel_yard").columns[0].design
    assert design
    places = setting_out(design)
    expected = [4724.4 + row * 1734.7 + within for row in range(4) for within in (375.0, 1722.0 - 375.0)]
    np.testing.assert_allclose(places.y * 1000, expected, atol=1e-6)
    # 5099.4 mm / 25.4 = 200.764 in = 16 ft 8.764 in, nearest eighth 8 6/8
    assert feet_and_inches(places.y[0]) == "16' 8 3/4\""
    # 6071.4 mm / 25.4 = 239.031 in = 19 ft 11.03 in
    assert feet_and_inches(places.y[1]) == "19' 11\""


def test_seams_of_the_default_scenario_by_hand() -> None:
    """Seams every 24 in from the rake: seam 21 is 20 x 2 ft = 40 ft from it, seam 37 is 72 ft."""
    design = comparison("kestrel_yard").columns[0].design
    assert design
    places = setting_out(design)
    at = dict(zip(places.rib.tolist(), places.x.tolist(), strict=True))
    assert feet_and_inches(at[21]) == "40' 0\""
    assert feet_and_inches(at[37]) == "72' 0\""
    assert all(x == pytest.approx((rib - 1) * 0.6096) for rib, x in at.items())


def test_cut_list_of_the_default_scenario_by_hand() -> None:
    """Each of 32 rails is 9 x 1134 + 8 x 12.7 = 10307.6 mm = 33 ft 9.81 in: two lengths of 14 ft and 1773.2 mm."""
    design = comparison("kestrel_yard").columns[0].design
    assert design
    (rails,) = setting_out(design).cut_bars
    assert sum(bars.count for bars in rails.bars) == 32
    for bars in rails.bars:
        assert bars.length * 1000 == pytest.approx(10307.6, abs=1e-3)
        assert feet_and_inches(bars.length) == "33' 9 3/4\""
        assert sorted(round(piece * 1000, 1) for piece in bars.bar.pieces) == [1773.2, 4267.2, 4267.2]
    assert rails.stock_pieces[0] == (64, (pytest.approx(4.2672),))
    count, pieces = rails.stock_pieces[1]
    assert (count, [round(piece * 1000, 1) for piece in pieces]) == (16, [1773.2, 1773.2])
    # the first block begins at 40 ft and is attached at 42, 44, 48, 52 ft and so on; with the short piece last its splices
    # would be at 54 and 68 ft, one of them at midspan; with it first one is 1.82 ft from an attachment, one 0.18 ft
    assert [feet_and_inches(splice.place) for splice in rails.bars[0].splices] == ["45' 9 3/4\"", "59' 9 3/4\""]
    by_hand = [1.7732 - 4 * 0.3048, 20 * 0.3048 - 1.7732 - 4.2672]
    assert [splice.distance for splice in rails.bars[0].splices] == pytest.approx(by_hand, abs=1e-4)


@pytest.mark.parametrize("name", SCENARIOS)
def test_every_attachment_stands_at_one_crossing(name: str) -> None:
    for column in comparison(name).columns:
        if column.design is None:
            continue
        places, at = setting_out(column.design), column.design.layout.attachments
        assert sorted(places.number[places.number > 0].tolist()) == list(range(1, len(at) + 1))
        place, line = np.nonzero(places.number)
        own = places.number[place, line] - 1
        np.testing.assert_allclose(places.x[place], at.x[own], atol=5e-4)
        np.testing.assert_allclose(places.y[line], at.y[own], atol=5e-4)
        np.testing.assert_array_equal(places.rib[place], at.rib[own] + 1)
        assert places.count_by_line.sum() == places.count_by_rib.sum() == len(at)


@pytest.mark.parametrize("name", SCENARIOS)
def test_the_cut_list_is_the_bills(name: str) -> None:
    """Numbers of bars, of stock lengths and of splices, and the total length, all from the other side."""
    for column in comparison(name).columns:
        if column.design is None:
            continue
        billed = {item.part: item for item in column.design.bill.items}
        for cut in setting_out(column.design).cut_bars:
            item = billed[cut.part]
            assert sum(bars.count for bars in cut.bars) == len(item.lengths)
            assert sum(bars.count * bars.length for bars in cut.bars) == pytest.approx(sum(item.lengths), abs=1e-4)
            assert sum(count for count, _ in cut.stock_pieces) == item.quantity
            pieces = sum(count * sum(each) for count, each in cut.stock_pieces)
            assert item.quantity * cut.stock_length - pieces == pytest.approx(item.offcut, abs=1e-4)
            splices = sum(bars.count * len(bars.splices) for bars in cut.bars)
            assert splices == (billed["splice"].quantity if "splice" in billed else 0)


@pytest.mark.parametrize("name", SCENARIOS)
def test_module_blocks_hold_all_modules(name: str) -> None:
    for column in comparison(name).columns:
        if column.design is None:
            continue
        runs, at = setting_out(column.design).runs, column.design.field.outlines
        assert sum(run.modules for run in runs) == column.design.field.modules
        assert min(run.left for run in runs) == at.left.min()
        assert max(run.high for run in runs) == at.high.max()


def test_rails_up_the_slope_are_measured_from_the_eave_on_their_seams() -> None:
    changes = {"methods__rail__runs": "up the slope", "module__clamp_zone": ["150 mm", "500 mm"]}
    design = compare(scenario_of("wren_workshop", **changes), ("rail",)).columns[0].design
    assert design
    places = setting_out(design)
    (rails,) = places.cut_bars
    assert rails.up_slope
    assert {rib for bars in rails.bars for rib in bars.on} == set(places.rib.tolist())
    assert min(bars.start for bars in rails.bars) == pytest.approx(design.field.outlines.low.min(), abs=1e-6)
