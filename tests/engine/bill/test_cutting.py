"""Cutting bars from stock and splicing them, by hand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.bill.cutting import SAW_CUT, Splice, cut_from_stock, spliced_bar


@pytest.mark.parametrize(
    ("lengths", "stock", "bought", "splices"),
    [
        ([4.0], 4.0, 1, 0),
        ([3.0, 1.0], 4.003, 1, 0),  # the saw takes 3 mm
        ([3.0, 1.0], 4.002, 2, 0),
        ([3.0, 1.001], 4.0, 2, 0),
        ([10.0], 4.0, 3, 2),  # 4 + 4 + 2, joined twice
        ([10.0, 1.9], 4.0, 3, 2),  # the second bar comes from the offcut of the first
        ([8.0], 4.0, 2, 1),
        ([], 4.0, 0, 0),
    ],
)
def test_cutting_by_hand(lengths: list[float], stock: float, bought: int, splices: int) -> None:
    cut = cut_from_stock(lengths, stock)
    assert (cut.stock, cut.splices) == (bought, splices)


@given(st.lists(st.floats(0.05, 30), max_size=30), st.floats(2, 6))
@settings(max_examples=200, deadline=None)
def test_no_bar_is_cut_from_nothing(lengths: list[float], stock: float) -> None:
    cut = cut_from_stock(lengths, stock)
    assert cut.offcut >= -1e-6
    assert cut.stock >= sum(lengths) / stock - 1e-6
    assert cut.stock <= sum(int(length / stock) + 1 for length in lengths)


@given(st.lists(st.floats(0.05, 30), max_size=30), st.floats(2, 6))
@settings(max_examples=200, deadline=None)
def test_pieces_fit_their_stock_length_and_make_up_the_bars(lengths: list[float], stock: float) -> None:
    """Each opened stock length holds its pieces with a saw cut between them; nothing is lost or made."""
    cut = cut_from_stock(lengths, stock)
    for pieces in cut.pieces:
        assert sum(pieces) + SAW_CUT * (len(pieces) - 1) <= stock + 1e-6
    whole = cut.stock - len(cut.pieces)
    assert whole * stock + sum(map(sum, cut.pieces)) == pytest.approx(sum(lengths), abs=1e-4)
    assert cut.offcut == pytest.approx(sum(stock - sum(pieces) for pieces in cut.pieces), abs=1e-4)


def test_a_plan_by_hand() -> None:
    """Bars of 5.0, 2.4, 1.5 and 1.0 m from 4 m: 4 whole; then 2.4 + 1.5 from one, 1.0 + 1.0 from another.

    Longest first: 2.4 opens a length and leaves 1.597; 1.5 fits there; 1.0 opens the next; 1.0 fits in its rest.
    """
    cut = cut_from_stock([5.0, 2.4, 1.5, 1.0], 4.0)
    assert (cut.stock, cut.splices) == (3, 1)
    assert cut.pieces == ((2.4, 1.5), (1.0, 1.0))
    assert cut.offcut == pytest.approx(12.0 - 9.9)


def test_the_short_piece_goes_where_splices_are_nearest_to_attachments() -> None:
    """10 m of 4 m stock, 4 + 4 + 2: on attachments every 2 m from the start any order has splices at attachments.

    On attachments at 0, 3, 6, 9 the orders have splices at 4, 8 (1 m off), at 4, 6 and at 2, 6 (1 m and 0 off).
    """
    even = spliced_bar(10.0, 4.0, np.arange(0.0, 11.0, 2.0))
    assert [each.distance for each in even.splices] == [0, 0]
    thirds = spliced_bar(10.0, 4.0, np.array([0.0, 3.0, 6.0, 9.0]))
    assert max(each.distance for each in thirds.splices) == pytest.approx(1.0)
    assert not any(each.near_midspan for each in thirds.splices), "a third of 3 m is not beyond a third"


def test_a_splice_near_midspan_is_marked_if_no_order_avoids_it() -> None:
    """6 m of 4 m stock on attachments at 0, 3, 5 and 6: 4 + 2 has its splice at midspan of 3 to 5, 2 + 4 at 2."""
    bar = spliced_bar(6.0, 4.0, np.array([0.0, 3.0, 5.0, 6.0]))
    assert (bar.pieces, bar.splices) == ((2.0, 4.0), (Splice(2.0, 1.0, False),))
    marked = spliced_bar(6.0, 4.0, np.array([0.0, 1.0, 3.0, 5.0]))
    assert marked.splices == (Splice(4.0, 1.0, True),)


def test_a_splice_on_an_overhang_is_not_midspan() -> None:
    bar = spliced_bar(6.0, 4.0, np.array([0.5, 3.5]))
    assert bar.splices == (Splice(4.0, 0.5, False),)


def test_a_bar_that_fits_has_no_splice() -> None:
    assert spliced_bar(3.0, 4.0, np.array([0.5, 2.5])).splices == ()
    assert spliced_bar(3.0, 4.0, np.array([0.5, 2.5])).pieces == (3.0,)
