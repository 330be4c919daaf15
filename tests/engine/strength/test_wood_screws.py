"""Screws in wood: load duration, service, and how withdrawal must move."""

from __future__ import annotations

import pytest
from capacities import LAG, WIND, WOOD, mode_pounds, pounds, read, refusal
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.common.combination import Combination
from engine.strength import strength
from engine.units import POUND_FORCE

SNOW_AND_WIND = Combination("D + 0.75S + 0.45W up", {}, "wind", snow=True)
LAG_516 = {"lag": 1, "size": "5/16 in", "thread": "2 in", "specific_gravity": 0.50}


def at(temperature: str, written: object, combination: Combination = WIND) -> float:
    """Pounds at the wood temperature of a roof."""
    capacity = tuple(basis.at_wood_temperature(temperature) for basis in read(written))
    return strength(capacity).resistance(combination) / POUND_FORCE


def test_two_screws_in_plywood_by_hand() -> None:
    """2 x 2850 x 0.42² x 0.190 x 15/32 in = 89.5 lb, x 1.6 in wind = 143.3 lb, x 0.8 in a hot roof = 114.6 lb."""
    assert strength(read(WOOD)).modes[0].nominal / POUND_FORCE == pytest.approx(89.55, abs=0.005)
    assert at("cool", WOOD) == pytest.approx(143.3, abs=0.05)
    assert at("hot", WOOD) == pytest.approx(114.6, abs=0.05)


@pytest.mark.parametrize(
    ("temperature", "wet", "expected"),
    [("cool", "no", 851), ("hot", "no", 681), ("hot deck", "no", 596), ("hot", "yes", 417)],
)
def test_a_lag_in_a_hot_roof(temperature: str, wet: str, expected: float) -> None:
    """NDS Table 11.3.4 in public copies: 0.8 dry and 0.7 wet from 100 to 125 °F, 0.7 dry from 125 to 150 °F.

    5/16 in, G 0.50, 2 in of thread, by hand: 266 x 2 x 1.6 = 851 lb; wet 0.7 x 0.7.
    """
    assert at(temperature, LAG_516 | {"wet": wet}) == pytest.approx(expected, abs=0.5)


def test_a_wet_hot_deck() -> None:
    """125 to 150 °F, wet: 0.5, with 0.7 for wet service."""
    assert at("hot deck", LAG_516 | {"wet": "yes"}) == pytest.approx(851.2 * 0.7 * 0.5, abs=0.5)


@pytest.mark.parametrize("temperature", ["hot", "hot deck", "cool"])
def test_a_roof_with_snow_is_not_hot(temperature: str) -> None:
    """1.0 in any combination with snow, wind or not."""
    for combination in (SNOW_AND_WIND, Combination("D + S", {}, "snow")):
        assert at(temperature, WOOD, combination) == pytest.approx(at("cool", WOOD, combination))


def test_hot_is_the_default_and_the_older_key_counts_as_hot() -> None:
    """A public permit calculation uses 0.8; `hot = "yes"` of older files is the same, also on a cool roof."""
    assert pounds(WOOD) == pytest.approx(at("hot", WOOD))
    assert at("cool", WOOD | {"hot": "yes"}) == pytest.approx(at("hot", WOOD))
    assert at("hot deck", WOOD | {"hot": "yes"}) == pytest.approx(at("hot deck", WOOD))


@pytest.mark.parametrize(("duration", "factor"), [("permanent", 0.9), ("snow", 1.15), ("wind", 1.6), ("seismic", 1.6)])
def test_duration_follows_the_combination(duration: str, factor: float) -> None:
    nominal = strength(read(WOOD)).modes[0].nominal / POUND_FORCE
    assert at("cool", WOOD, Combination("any", {}, duration)) == pytest.approx(factor * nominal)


def test_duration_and_heat_are_named() -> None:
    (basis,) = read(WOOD)
    assert basis.description() == (
        "2 #10 wood screws, NDS withdrawal, load duration factor 0.9 for dead load, 1.15 for snow, 1.6 for wind or "
        "earthquake, temperature factor 0.8 (hot, 1.0 with snow)"
    )
    assert basis.at_wood_temperature("cool").description().endswith("temperature factor 1 (cool)")
    step = strength((basis,)).modes[0].resistance_step(WIND)
    assert (step.equation, step.terms["Ct"].value) == ("CD * Ct * Rn / Omega", 0.8)


@pytest.mark.parametrize(("service", "factor"), [({"wet": "yes"}, 0.7), ({"wet": "no"}, 1.0)])
def test_service(service: dict[str, object], factor: float) -> None:
    assert at("cool", WOOD | service) == pytest.approx(factor * at("cool", WOOD))


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
    assert mode_pounds([WOOD, {"allowable": "100 lb"}])["strength as entered"] == pytest.approx(100)
