"""Several arrays on one slope: joined, apart, turned, refused; loads that meet on one panel add up."""

from __future__ import annotations

import itertools
import math
from typing import Any

import numpy as np
import pytest

from engine.common.errors import InputError
from engine.comparison.compare import Column, Comparison, compare
from engine.comparison.figures import value_of
from engine.comparison.record import comparison_record
from engine.mounting.layout import Rectangles
from engine.mounting.neighbours import free_sides
from engine.units import FOOT, INCH
from support import scenario_of

ALONG, UP = 1.722 + 0.5 * INCH, 1.134 + 0.5 * INCH
"""Pitch of the default scenario's modules in landscape [m]: 1722 by 1134 mm and a gap of 0.5 in."""


def array(name: str, rows: int, columns: int, at: tuple[float, float], **others: object) -> dict[str, object]:
    """One array with its corner in feet."""
    origin = [f"{place:.9f} ft" for place in at]
    plain = {"name": name, "rows": rows, "columns": columns, "origin": origin, "gap": "0.5 in"}
    return plain | {"height_above_roof": "5 in"} | others


def compared(arrays: list[dict[str, object]], *methods: str, **changes: object) -> Comparison:
    """The default scenario with other arrays."""
    return compare(scenario_of(array=None, arrays=arrays, **changes), methods)


def figures(comparison: Comparison) -> list[Any]:
    """All figures of the methods, without the names of places."""

    def plain(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: plain(part) for key, part in value.items() if key not in ("where", "inputs")}
        return [plain(part) for part in value] if isinstance(value, list) else value

    return [plain(each) for each in comparison_record(comparison)["methods"]]


def assert_same(one: Any, other: Any) -> None:
    """Two records with the same words, and numbers equal to 1e-9."""
    if isinstance(one, dict):
        assert one.keys() == other.keys()
        for key in one:
            assert_same(one[key], other[key])
    elif isinstance(one, list):
        assert len(one) == len(other)
        for pair in zip(one, other, strict=True):
            assert_same(*pair)
    elif isinstance(one, float):
        assert one == pytest.approx(other, rel=1e-9, abs=1e-9)
    else:
        assert one == other


@pytest.mark.slow
@pytest.mark.parametrize(
    "parts",
    [
        [("A", 6, 10, (0, 0)), ("B", 6, 14, (10, 0))],
        [("B", 2, 24, (0, 0)), ("A", 4, 24, (0, 2))],
        [("A", 2, 24, (0, 0)), ("C", 4, 9, (0, 2)), ("B", 4, 15, (9, 2))],
    ],
    ids=["columns", "rows", "three"],
)
def test_an_array_divided_without_a_gap_is_the_same_array(parts: list[Any]) -> None:
    """In any order of the parts, and also where a method turns the modules."""
    whole = figures(compare(scenario_of()))
    divided = [
        array(name, rows, columns, (40 + across * ALONG / FOOT, 15.5 + up * UP / FOOT))
        for name, rows, columns, (across, up) in parts
    ]
    for order in (divided, divided[::-1]):
        assert_same(figures(compared(order)), whole)


def fixed_point(*arrays: dict[str, object]) -> float:
    """Largest load on a fixed point with modules on seams, two attachments an edge [N]."""
    fixed = {"methods__direct__spacing": "2 per edge", "site__ground_snow": "25 psf"}
    (column,) = compared(list(arrays), "direct", **fixed).columns
    check = column.checks["fixed_point"]
    assert isinstance(check.demand, float)
    return check.demand


def test_loads_of_two_arrays_on_one_panel_add_up() -> None:
    """Superposition: what each array adds to the bare panel, both add together.

    Three arrays of one column, one above the other on the same seams. With f0 for the bare panel,
    f(A) + f(B) - f(A, B) = f0 = f(B) + f(C) - f(B, C).
    """
    a, b, c = (array(name, 2, 1, (60.0, up)) for name, up in (("A", 5.0), ("B", 20.0), ("C", 35.0)))
    bare = fixed_point(a) + fixed_point(b) - fixed_point(a, b)
    assert bare == pytest.approx(fixed_point(b) + fixed_point(c) - fixed_point(b, c), rel=1e-9)
    assert bare > 0
    assert fixed_point(a, b, c) == pytest.approx(fixed_point(a) + fixed_point(b) + fixed_point(c) - 2 * bare, rel=1e-9)


def test_load_that_an_array_adds_to_a_fixed_point_by_hand() -> None:
    """Two modules from 60 ft on, held on the seams at 62 and 64 ft, bring 0.588 of their load to the nearer one.

    Module 21 kg, 1.722 by 1.134 m, three edges of two attachments with hooks; slope 1:12. Snow on modules is 0.7 x 1.0 x
    1.2 x 25 = 21 psf and on the heated roof 0.7 x 1.0 x 1.0 x 25 = 17.5 psf of plan (ASCE 7 §7.3); under the modules
    none lies on the panel's strip of 24 in.
    """
    a, b = array("A", 2, 1, (60.0, 5.0)), array("B", 2, 1, (60.0, 20.0))
    (column,) = compared([a, b], "direct", methods__direct__spacing="2 per edge").columns
    assert column.design
    hardware = (column.design.bill.mass - 4 * 21.0) / 2
    sine, cosine = 1 / math.hypot(1, 12), 12 / math.hypot(1, 12)
    share = (64.0 - 60.0 - 1.722 / 2 / 0.3048) / 2.0
    weight = (2 * 21.0 + hardware) * 9.80665 * share
    psf = 4.4482216 / 0.3048**2
    snow = (2 * 1.722 * 1.134 * 21.0 * share - 2 * 24 * 0.0254 * 1.134 * 17.5) * psf * cosine
    assert fixed_point(a, b) - fixed_point(a) == pytest.approx((weight + snow) * sine, rel=1e-5)


def test_blocks_are_exposed_at_an_aisle_only_if_it_is_wider_than_four_feet() -> None:
    """ASCE 7 §29.4.4 (from memory): neighbours within 4 ft are one group; exposed is 1.5 Lp = 2.58 m from an edge.

    Two blocks of 9 rows by 12. Of the rows only 3 to 5 are farther than 2.58 m from the lower and the upper edge; in
    them columns 10 and 11 of the left block and 0 and 1 of the right one are within 2.58 m of the aisle.
    """
    for aisle, expected in ((3.9, False), (4.1, True)):
        right = 20 + (12 * ALONG - 0.5 * INCH) / FOOT + aisle
        (column,) = compared([array("A", 9, 12, (20, 12)), array("B", 9, 12, (right, 12))], "direct").columns
        assert column.design
        field = column.design.field
        exposed = np.zeros((9, 24), dtype=bool)
        exposed[field.row, field.column + 12 * field.array] = column.design.loads.exposed
        assert exposed[:3].all()
        assert exposed[6:].all()
        assert exposed[:, [0, 1, 22, 23]].all()
        np.testing.assert_array_equal(exposed[3:6, 10:14], np.full((3, 4), expected))
        assert not exposed[3:6, 2:10].any()


def columns_by_id(comparison: Comparison) -> dict[str, Column]:
    """The columns by method."""
    return {column.id: column for column in comparison.columns}


def test_an_aisle_keeps_its_width_and_the_modules_their_number() -> None:
    """Rows 1 to 3 and 4 to 6 with 4 ft between them, in landscape as in portrait."""
    columns = columns_by_id(compare(scenario_of(array__aisles=[{"after_row": 3, "width": "4 ft"}])))
    for method, rows_below in (("direct", 3), ("tilted_rack", 3), ("rail", 2)):
        design = columns[method].design
        assert design
        field = design.field
        assert field.modules == 144
        below, above = field.row < rows_below, field.row >= rows_below
        assert (below.sum(), above.sum()) == (72, 72)
        clear = field.outlines.low[above].min() - field.outlines.high[below].max()
        assert clear == pytest.approx(4 * FOOT), method


def test_places_left_out_are_the_same_number_in_every_method() -> None:
    """In landscape the very places; in portrait the nearest modules to their middles, by brute force."""
    out = ["3.7", "3.8", "1.1"]
    columns = columns_by_id(compare(scenario_of(array__leave_out=out)))
    direct, rail = columns["direct"].design, columns["rail"].design
    assert direct
    assert rail
    assert direct.field.modules == rail.field.modules == 141
    present = set(zip((direct.field.row + 1).tolist(), (direct.field.column + 1).tolist(), strict=True))
    assert set(itertools.product(range(1, 7), range(1, 25))) - present == {(3, 7), (3, 8), (1, 1)}
    whole = columns_by_id(compare(scenario_of(), ("rail",)))["rail"].design
    assert whole
    at, kept = whole.field.outlines, set(zip(rail.field.row.tolist(), rail.field.column.tolist(), strict=True))
    for row, column in ((3, 7), (3, 8), (1, 1)):
        x, y = 40 * FOOT + (column - 0.5) * ALONG, 15.5 * FOOT + (row - 0.5) * UP
        nearest = int(np.argmin(np.hypot((at.left + at.right) / 2 - x, (at.low + at.high) / 2 - y)))
        assert (int(whole.field.row[nearest]), int(whole.field.column[nearest])) not in kept


def test_arrays_that_overlap_are_refused_by_name_and_only_where_they_do() -> None:
    """Flat rows of 6 end at 15.5 ft + 22.5 ft; the rack's rows reach farther up the slope."""
    blocks = [array("low", 6, 12, (40, 5)), array("high", 2, 12, (40, 29))]
    columns = columns_by_id(compared(blocks))
    assert columns["direct"].design
    assert columns["tilted_rack"].design is None
    text = columns["tilted_rack"].flags[0].text
    assert "array low" in text.lower()
    assert "array high" in text.lower()
    assert "Move one of them" in text


PROBLEMS: dict[str, tuple[dict[str, Any], str, str]] = {
    "both kinds": ({"arrays": [array("A", 1, 2, (40, 15))]}, "arrays", "given beside [array]"),
    "no name": ({"array": None, "arrays": [{"rows": 1}]}, "arrays.1.name", "missing"),
    "a dot in a name": ({"array": None, "arrays": [array("A.B", 1, 2, (40, 15))]}, "arrays.A.B.name", "letters"),
    "the same name": (
        {"array": None, "arrays": [array("A", 1, 2, (40, 15)), array("A", 1, 2, (80, 15))]},
        "arrays.A.name",
        "given to 2 arrays",
    ),
    "another gap": (
        {"array": None, "arrays": [array("A", 1, 2, (40, 15)), array("B", 1, 2, (80, 15), gap="1 in")]},
        "arrays.B.gap",
        "allowed is 0.50 in (13 mm) as for array A",
    ),
    "none": ({"array": None, "arrays": []}, "arrays", "0 arrays given"),
    "no list": ({"array": None, "arrays": 3}, "arrays", "3 given; write 1 to 50 tables"),
    "an aisle nowhere": ({"array__aisles": [{"width": "4 ft"}]}, "array.aisles.1", "neither of"),
    "an aisle after the last row": (
        {"array__aisles": [{"after_row": 6, "width": "4 ft"}]},
        "array.aisles.1.after_row",
        "allowed is 1 to 5",
    ),
    "an aisle twice": (
        {"array__aisles": [{"after_row": 3, "width": "4 ft"}, {"after_row": 3, "width": "5 ft"}]},
        "array.aisles.2.after_row",
        "given twice",
    ),
    "a place beyond the rows": ({"array__leave_out": ["7.1"]}, "array.leave_out", "rows 1 to 6"),
    "a place as a number": ({"array__leave_out": [3.7]}, "array.leave_out", "3.7 given; write a list of row.column"),
}


@pytest.mark.parametrize(("changes", "path", "words"), PROBLEMS.values(), ids=PROBLEMS)
def test_refusals_of_arrays(changes: dict[str, Any], path: str, words: str) -> None:
    with pytest.raises(InputError) as refused:
        scenario_of(**changes)
    (problem,) = [each for each in refused.value.problems if each.path == path]
    assert words in problem.message


def test_sides_without_neighbours_by_brute_force() -> None:
    """A thousand points a side: a side is free if more of it than the slit has no module within the gap."""
    random = np.random.default_rng(7)
    for _ in range(20):
        left, low = random.uniform(0, 12, 14), random.uniform(0, 12, 14)
        at = Rectangles(left, low, left + 1.7, low + 1.1)
        apart = [i for i in range(14) if not any(_overlap(at, i, j) for j in range(i))]
        at = at.subset(np.array(apart))
        found = free_sides(at, 1.2, 0.05)
        for number in range(len(at)):
            assert found["right"][number] == (_uncovered_right(at, number, 1.2) > 0.05)


def _overlap(at: Rectangles, one: int, other: int) -> bool:
    return bool(abs(at.left[one] - at.left[other]) < 1.7 and abs(at.low[one] - at.low[other]) < 1.1)


def _uncovered_right(at: Rectangles, one: int, gap: float) -> float:
    """Longest stretch of the right side with nothing within the gap."""
    points = np.linspace(at.low[one], at.high[one], 1101)
    distance = at.left - at.right[one]
    near = [j for j in range(len(at)) if 0 <= distance[j] <= gap]
    covered = np.array([any(at.low[j] <= y <= at.high[j] for j in near) for y in points])
    longest = max((len(list(run)) for hidden, run in itertools.groupby(covered) if not hidden), default=0)
    return longest * 1.1 / 1100


def test_a_figure_says_how_many_modules_the_arrays_have() -> None:
    (column,) = compared([array("A", 2, 12, (40, 15.5)), array("B", 1, 3, (120, 15.5))], "direct").columns
    assert value_of(column, "modules") == 27
