"""Counting pieces, by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from engine.bill.groups import GROUPS, OTHER_PARTS, group_of
from engine.bill.take_off import Bill, BillLine, joined
from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from engine.project.hardware import Hardware, Parts
from support import scenario_of


def test_pieces_of_the_default_scenario_by_hand() -> None:
    """Rails: 4 rows of 36 in 4 runs of 9: 16 rows-of-run, 2 rails each; 8 middle and 2 end clamps a rail."""
    rail, rack, direct = compare(scenario_of()).columns
    counted = {
        column.id: {item.part: item.quantity for item in column.design.bill.items}
        for column in (rail, rack, direct)
        if column.design
    }
    assert counted["rail"]["middle_clamp"] == 32 * 8
    assert counted["rail"]["end_clamp"] == 32 * 2
    assert counted["rail"]["attachment"] == value_of(rail, "attachments")
    # each rail is 9 x 1134 mm + 8 x 12.7 mm = 10.308 m: 2 stock lengths of 14 ft and 1.77 m, of which one stock length gives two
    assert counted["rail"]["rail"] == 32 * 2 + 16
    assert counted["rail"]["splice"] == 32 * 2
    assert rail.design
    bars = next(item for item in rail.design.bill.items if item.part == "rail")
    assert bars.lengths == pytest.approx([9 * 1.134 + 8 * 0.0127] * 32)
    assert bars.offcut == pytest.approx((32 * 2 + 16) * 14 * 0.3048 - sum(bars.lengths))
    # rack: 6 rows of 24 in 4 runs of 6 (40 ft / 5.69 ft = 7, evenly 6): two beams a row
    assert counted["tilted_rack"]["middle_clamp"] == 6 * 4 * 2 * 5
    assert counted["tilted_rack"]["leg"] == 2 * counted["tilted_rack"]["brace"] == value_of(rack, "attachments")
    assert counted["direct"] == {"attachment": 336, "module_hook": 336}
    assert value_of(rail, "mass_kg") == pytest.approx(144 * 21 + rail.design.bill.hardware_mass)


def test_price_and_labour_add_up() -> None:
    for column in compare(scenario_of()).columns:
        assert column.design
        bill = column.design.bill
        assert bill.hardware_cost == pytest.approx(sum(item.quantity * item.unit_price for item in bill.items))
        assert value_of(column, "total_cost") == pytest.approx(bill.hardware_cost + bill.hours * 45)
        assert value_of(column, "cost_per_watt") == pytest.approx(value_of(column, "total_cost") / (144 * 420))


TWO_SCREWS = {"screws": 2, "size": "#12", "into": "16 ga", "tensile_strength": "65 ksi"}
TWO_LAGS = {"lag": 2, "size": "1/4 in", "thread": "2 in", "specific_gravity": 0.42}


@pytest.mark.parametrize(
    ("hardware", "screws"),
    [
        ({}, 4),
        ({"hardware__attachment_screws": 3}, 3),
        ({"hardware__attachment_uplift": TWO_SCREWS}, 2),
        ({"hardware__attachment_uplift": [TWO_LAGS, {"allowable": "500 lb"}]}, 2),
        ({"hardware__attachment_uplift": TWO_SCREWS, "hardware__attachment_screws": 2}, 2),
        ({"hardware__attachment_down": TWO_SCREWS | {"screws": 5}}, 5),
    ],
)
def test_the_screws_of_the_strength_are_billed_and_sealed(hardware: dict[str, object], screws: int) -> None:
    """The strength and the bill are of one attachment: screws stated there are counted here, as holes and as price."""
    column = compare(scenario_of("wren_workshop", **hardware), ("direct",)).columns[0]
    design = column.design
    assert design
    attachments = len(design.layout.attachments)
    assert value_of(column, "penetrations") == screws * attachments
    billed = {item.part: item.quantity for item in design.bill.items}
    assert billed["screw"] == screws * attachments


def test_holes_are_counted_where_the_roof_is_pierced() -> None:
    """An exposed-fastener roof, brackets on the sheet: four screws an attachment, one seal each."""
    ribbed = scenario_of(
        roof__kind="exposed fastener",
        roof__rib_spacing="12 in",
        hardware={"bracket": "sheet"},
        roof__fastening={"uplift": {"allowable": "400 lb"}},
    )
    for column in compare(ribbed).columns:
        assert value_of(column, "penetrations") == 4 * value_of(column, "attachments")  # type: ignore[operator]
        assert column.design
        assert {item.part: item.quantity for item in column.design.bill.items}["seal"] == value_of(
            column, "attachments"
        )
    assert all(value_of(column, "penetrations") == 0 for column in compare(scenario_of()).columns)


PARTS = {
    "attachment": ("0.45 lb", 8.5, 4),
    "middle_clamp": ("0.15 lb", 2.2, 1.5),
    "end_clamp": ("0.18 lb", 2.6, 1.5),
    "splice": ("0.6 lb", 6.0, 3),
    "leg": ("1.1 lb", 7.5, 3),
    "brace": ("1.6 lb", 6.5, 3),
    "module_hook": ("0.3 lb", 3.4, 1.5),
    "screw": ("0.02 lb", 0.25, 0.5),
    "seal": ("0.05 lb", 0.9, 1),
}
"""The invented set, for one piece: mass, price, minutes."""


def test_the_invented_set_where_nothing_is_stated() -> None:
    """Every piece of three methods on a roof that is pierced, and bars of 14 ft at 1.1 lb/ft, 52 and 10 minutes a length."""
    ribbed = scenario_of(
        roof__kind="exposed fastener",
        hardware={"bracket": "sheet"},
        roof__fastening={"uplift": {"allowable": "400 lb"}},
    )
    met = set()
    for column in compare(ribbed).columns:
        assert column.design
        bill = column.design.bill
        assert bill.module_hours == pytest.approx(144 * 12 / 60)
        assert bill.hours == pytest.approx(bill.module_hours + sum(item.hours for item in bill.items))
        for item in bill.items:
            met.add(item.part)
            if item.part in PARTS:
                mass, price, minutes = PARTS[item.part]
                assert item.mass == pytest.approx(item.quantity * float(mass.split()[0]) * 0.45359237)
                assert (item.unit_price, item.price) == pytest.approx((price, item.quantity * price))
                assert item.hours == pytest.approx(item.quantity * minutes / 60)
            else:
                length = sum(item.lengths) / 0.3048
                assert item.mass == pytest.approx(length * 1.1 * 0.45359237)
                assert item.price == pytest.approx(52 * item.quantity)
                assert item.hours == pytest.approx(length / 14 * 10 / 60)
    assert met == {*PARTS, "rail", "rack_beam"}


def test_spares_are_bought_but_neither_weigh_nor_take_time() -> None:
    """2 % of 320 attachments is 6.4: 7 are bought; of 80 stock lengths 1.6: 2. By hand at 8.50 and 52 apiece."""
    plain, spared = (compare(scenario_of(hardware__spares=share), ("rail",)).columns[0] for share in (0, 2))
    assert plain.design
    assert spared.design
    before, after = ({item.part: item for item in each.design.bill.items} for each in (plain, spared))
    assert {part: item.spares for part, item in after.items()} == {
        "attachment": 7,
        "rail": 2,
        "splice": 2,
        "middle_clamp": 6,
        "end_clamp": 2,
    }
    assert after["attachment"].price == pytest.approx(327 * 8.5)
    assert after["rail"].price == pytest.approx(82 * 52)
    for part, item in after.items():
        assert item.ordered == item.quantity + item.spares
        assert (item.quantity, item.mass, item.hours) == (
            before[part].quantity,
            before[part].mass,
            before[part].hours,
        )
    assert value_of(spared, "mass_kg") == value_of(plain, "mass_kg")
    more = 7 * 8.5 + 2 * 52 + 2 * 6.0 + 6 * 2.2 + 2 * 2.6
    assert value_of(spared, "total_cost") == pytest.approx(value_of(plain, "total_cost") + more)  # type: ignore[operator]


def test_a_tenth_of_320_is_32_spares() -> None:
    """A tenth of 320 is 32 exactly: no rounding error makes it 33."""
    column = compare(scenario_of(hardware__spares=10), ("rail",)).columns[0]
    assert column.design
    assert next(item.spares for item in column.design.bill.items if item.part == "attachment") == 32


def test_every_part_has_a_group() -> None:
    parts = [*Parts.model_fields, *(name for name in Hardware.model_fields if Hardware().section(name))]
    assert {"rail", "rack_beam", "attachment"} <= set(parts)
    assert all(group_of(part) != OTHER_PARTS for part in parts)
    assert sorted(part for own in GROUPS.values() for part in own) == sorted(parts)


def test_the_bills_of_two_slopes_are_one_by_hand() -> None:
    """Sums of what each slope has; spares are those of each, and what one slope has alone stays as it is."""
    bracket = BillLine("attachment", "brackets", 10, "", mass=2.0, unit_price=8.5, price=85.0, hours=0.5, spares=1)
    screw = BillLine("screw", "screws", 40, "", mass=0.4, unit_price=0.25, price=10.0, hours=0.3)
    south = Bill((bracket, screw), modules=6, module_mass=126.0, module_hours=3.0, power=2520.0)
    north = Bill((replace(bracket, quantity=4, mass=0.8, price=34.0, hours=0.2),), 2, 42.0, 1.0, 840.0)
    both = joined((south, north))
    found = [(item.part, item.quantity, item.mass, item.price, item.hours, item.spares) for item in both.items]
    assert found == [
        ("attachment", 14, pytest.approx(2.8), 119.0, pytest.approx(0.7), 2),
        ("screw", 40, 0.4, 10.0, 0.3, 0),
    ]
    assert (both.modules, both.module_mass, both.module_hours, both.power) == (8, 168.0, 4.0, 3360.0)
