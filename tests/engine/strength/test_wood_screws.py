"""Screws in wood: load duration, service, and how withdrawal must move."""

from __future__ import annotations

import pytest
from capacities import LAG, WOOD, mode_pounds, pounds, read, refusal
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.common.combination import Combination
from engine.strength import strength
from engine.units import POUND_FORCE


def test_two_screws_in_plywood_by_hand() -> None:
    """2 x 2850 x 0.42² x 0.190 x 15/32 in = 89.5 lb, x 1.6 in wind = 143.3 lb."""
    assert strength(read(WOOD)).modes[0].nominal / POUND_FORCE == pytest.approx(89.55, abs=0.005)
    assert pounds(WOOD) == pytest.approx(143.3, abs=0.05)


@pytest.mark.parametrize(("duration", "factor"), [("permanent", 0.9), ("snow", 1.15), ("wind", 1.6), ("seismic", 1.6)])
def test_duration_follows_the_combination(duration: str, factor: float) -> None:
    nominal = strength(read(WOOD)).modes[0].nominal / POUND_FORCE
    assert pounds(WOOD, Combination("any", {}, duration)) == pytest.approx(factor * nominal)


def test_every_duration_is_named() -> None:
    (way,) = read(WOOD)
    assert (
        way.description()
        == "2 #10 wood screws, NDS withdrawal, load duration factor 0.9 for dead load, 1.15 for snow, 1.6 for wind or earthquake"
    )


@pytest.mark.parametrize(
    ("service", "factor"), [({"wet": "yes"}, 0.7), ({"hot": "yes"}, 0.8), ({"wet": "yes", "hot": "yes"}, 0.49)]
)
def test_service(service: dict[str, object], factor: float) -> None:
    assert pounds(WOOD | service) == pytest.approx(factor * pounds(WOOD))


@pytest.mark.parametrize(
    ("written", "words"),
    [
        (WOOD | {"lag": 1}, "give exactly one of 'wood_screws' and 'lag'"),
        (LAG | {"size": "#10"}, "size '#10' given; allowed here is 1/4 in, 5/16 in, 3/8 in, 7/16 in, 1/2 in"),
        (WOOD | {"size": "1/2 in"}, "size '1/2 in' given; allowed here is #6, #8, #9, #10, #12, #14"),
        (WOOD | {"specific_gravity": 0.1}, "0.1 given; allowed is 0.3 to 0.75"),
    ],
)
def test_refusals(written: object, words: str) -> None:
    assert refusal(written) == words


@given(st.floats(0.2, 5.0), st.floats(1.0, 2.0))
@settings(max_examples=20, deadline=None)
def test_thread_counts_by_its_length(thread: float, times: float) -> None:
    for way in (WOOD, LAG):
        short, long = (pounds(way | {"thread": f"{value!r} in"}) for value in (thread, thread * times))
        assert long == pytest.approx(times * short)


@given(st.floats(0.3, 0.7), st.floats(0.0, 0.05))
@settings(max_examples=20, deadline=None)
def test_denser_wood_never_less(gravity: float, more: float) -> None:
    for way in (WOOD, LAG):
        assert pounds(way | {"specific_gravity": gravity + more}) >= pounds(way | {"specific_gravity": gravity})


@given(st.integers(1, 25))
@settings(max_examples=10, deadline=None)
def test_twice_the_screws_hold_twice(count: int) -> None:
    for way, key in ((WOOD, "wood_screws"), (LAG, "lag")):
        once, twice = (pounds(way | {key: number}) for number in (count, 2 * count))
        assert twice == pytest.approx(2 * once)


def test_another_mode_beside_wood_does_not_feel_its_duration() -> None:
    assert mode_pounds([WOOD, {"allowable": "100 lb"}])["stated allowable"] == pytest.approx(100)
