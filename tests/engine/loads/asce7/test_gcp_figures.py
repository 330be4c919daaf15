"""Every end value and break point of every GCp curve.

ASCE 7-16 and 7-22, Figs. 30.3-2A to 2D, 30.3-5A and 5B, from public sources; `loadpath explain` says how often each
was seen.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.loads.asce7.gcp_figures import GcpFigure, gcp_figure, steepest

FLAT = {
    "+": (0.3, 10, 0.2, 100),
    "1'": (-0.9, 100, -0.4, 1000),
    "1": (-1.7, 10, -1.0, 500),
    "2": (-2.3, 10, -1.4, 500),
    "3": (-3.2, 10, -1.4, 500),
}
STEEP_16B = {
    "+": (0.7, 2, 0.3, 100),
    "1": (-2.0, 20, -0.5, 100),
    "2e": (-2.0, 20, -0.5, 100),
    "2n": (-3.0, 10, -1.0, 250),
    "2r": (-3.0, 10, -1.0, 250),
    "3e": (-3.0, 10, -1.0, 250),
    "3r": (-3.6, 10, -1.8, 100),
}
STEEP_16C = {
    "+": (0.7, 2, 0.3, 100),
    "1": (-1.5, 20, -0.8, 300),
    "2e": (-1.5, 20, -0.8, 300),
    "2n": (-2.5, 10, -1.2, 150),
    "2r": (-2.5, 10, -1.2, 150),
    "3e": (-2.5, 10, -1.2, 150),
    "3r": (-3.6, 4, -1.8, 50),
}
STEEP_16D = {
    "+": (0.9, 10, 0.5, 100),
    "1": (-1.8, 10, -0.8, 100),
    "2e": (-1.8, 10, -0.8, 100),
    "2r": (-1.8, 10, -0.8, 100),
    "2n": (-2.0, 10, -1.0, 200),
    "3r": (-2.0, 10, -1.0, 200),
    "3e": (-3.2, 2, -1.0, 300),
}
FIGURES = {
    ("ASCE 7-16", "flat", 2.0): FLAT,
    ("ASCE 7-22", "gable", 6.9): FLAT,
    ("ASCE 7-16", "monoslope", 3.0): FLAT,
    ("ASCE 7-16", "gable", 7.1): STEEP_16B,
    ("ASCE 7-16", "gable", 20.0): STEEP_16B,
    ("ASCE 7-16", "gable", 27.0): STEEP_16C,
    ("ASCE 7-16", "gable", 45.0): STEEP_16D,
    ("ASCE 7-22", "gable", 20.0): {"+": (0.6, 10, 0.3, 200), "1": (-2.0, 10, -0.5, 300), "2": (-2.7, 10, -1.0, 200), "3": (-3.6, 10, -1.8, 100)},
    ("ASCE 7-22", "gable", 27.0): {"+": (0.6, 10, 0.3, 200), "1": (-1.5, 10, -0.8, 200), "2": (-2.5, 10, -1.2, 100), "3": (-3.0, 10, -1.4, 100)},
    ("ASCE 7-22", "gable", 45.0): {"+": (0.9, 10, 0.5, 200), "1": (-1.8, 10, -0.8, 100), "2": (-2.0, 10, -1.0, 200), "3": (-2.5, 10, -1.0, 200)},
    ("ASCE 7-22", "hip", 7.0): FLAT,
    ("ASCE 7-22", "hip", 20.0): {"+": (0.7, 10, 0.3, 100), "1": (-1.8, 10, -0.8, 200), "2": (-2.4, 10, -1.3, 200), "3": (-2.6, 10, -1.4, 200)},
    ("ASCE 7-22", "hip", 27.0): {"+": (0.7, 10, 0.3, 100), "1": (-1.4, 10, -0.8, 100), "2": (-2.0, 10, -1.0, 200), "3": (-2.0, 10, -1.0, 200)},
    # Fig. 30.3-2G ends all its curves at 100 ft2; beside those of 2F that end at 200 they are taken to 200, the safe side
    ("ASCE 7-22", "hip", 45.0): {"+": (0.7, 10, 0.3, 100), "1": (-1.5, 10, -0.7, 100), "2": (-1.8, 10, -0.8, 200), "3": (-2.4, 10, -1.0, 200)},
    ("ASCE 7-22", "hip", 36.0): {"+": (0.7, 10, 0.3, 100), "1": (-1.45, 10, -0.75, 100), "2": (-1.9, 10, -0.9, 200), "3": (-2.2, 10, -1.0, 200)},
    ("ASCE 7-22", "monoslope", 10.0): {"+": (0.3, 10, 0.2, 100), "1": (-1.1, 10, -1.1, 100), "2": (-1.3, 10, -1.2, 100), "2'": (-1.6, 10, -1.5, 100), "3": (-1.8, 10, -1.2, 100), "3'": (-2.6, 10, -1.6, 100)},
    ("ASCE 7-16", "monoslope", 30.0): {"+": (0.4, 10, 0.3, 100), "1": (-1.3, 10, -1.1, 100), "2": (-1.6, 10, -1.2, 100), "3": (-2.9, 10, -2.0, 100)},
}  # fmt: skip


def found(key: tuple[str, str, float]) -> GcpFigure:
    answer = gcp_figure(*key)
    assert answer
    return answer


def value(of: GcpFigure, zone: str, area: float) -> float:
    areas = np.array([area])
    touched = np.array([[name == zone for name in of.zone_names]])
    return float(of.gcp("W down" if zone == "+" else "W up", touched, areas)[0])


@pytest.mark.parametrize("key", FIGURES, ids=str)
def test_end_values_and_break_points(key: tuple[str, str, float]) -> None:
    of = found(key)
    assert {*of.zone_names, "+"} == set(FIGURES[key])
    for zone, (start, first, end, last) in FIGURES[key].items():
        assert value(of, zone, first / 3) == pytest.approx(start)
        assert value(of, zone, first) == pytest.approx(start)
        assert value(of, zone, last) == pytest.approx(end)
        assert value(of, zone, last * 5) == pytest.approx(end)
        assert value(of, zone, (first * last) ** 0.5) == pytest.approx((start + end) / 2)
        assert value(of, zone, last * (1 - 1e-9)) == pytest.approx(end, abs=1e-6)


@given(st.sampled_from(list(FIGURES)), st.floats(0.1, 2000), st.floats(1.0, 3.0))
@settings(max_examples=150, deadline=None)
def test_suction_never_grows_with_area(key: tuple[str, str, float], area: float, times: float) -> None:
    of = found(key)
    for zone in FIGURES[key]:
        assert abs(value(of, zone, area * times)) <= abs(value(of, zone, area)) + 1e-12


@given(st.sampled_from(list(FIGURES)), st.floats(0.1, 2000))
@settings(max_examples=150, deadline=None)
def test_a_later_zone_is_never_milder(key: tuple[str, str, float], area: float) -> None:
    """The last zone in the figure's order has the largest suction, but for 2' and 3 of Fig. 30.3-5A, which cross."""
    of = found(key)
    names = [name for name in of.zone_names if name != "2'"]
    suctions = [value(of, name, area) for name in names]
    assert suctions == sorted(suctions, reverse=True)


@pytest.mark.parametrize(
    ("edition", "shape", "ends"),
    [
        ("ASCE 7-16", "gable", (7.0, 20.0, 27.0, 45.0)),
        ("ASCE 7-22", "gable", (7.0, 20.0, 27.0, 45.0)),
        ("ASCE 7-22", "hip", (7.0, 20.0, 27.0, 45.0)),
        ("ASCE 7-16", "monoslope", (3.0, 10.0, 30.0)),
        ("ASCE 7-22", "monoslope", (3.0, 10.0, 30.0)),
        ("ASCE 7-16", "flat", (7.0,)),
    ],
)
def test_where_one_figure_ends_and_the_next_begins(edition: str, shape: str, ends: tuple[float, ...]) -> None:
    """A slope at which a figure ends is still its own; a hair steeper is the next one's."""
    starts = [found((edition, shape, 0.0)), *(found((edition, shape, end + 0.01)) for end in ends[:-1])]
    for end, of in zip(ends, starts, strict=True):
        at_end = found((edition, shape, end))
        assert at_end.zone_names == of.zone_names
        assert [value(at_end, zone, 50.0) for zone in at_end.zone_names] == pytest.approx(
            [value(of, zone, 50.0) for zone in of.zone_names], abs=0 if (shape, end) != ("hip", 45.0) else 0.3
        )  # between 27 and 45 deg a hip's curves lean with the slope
    for end, before, after in zip(ends, starts, starts[1:], strict=False):
        assert before.reference != after.reference, end
    assert gcp_figure(edition, shape, ends[-1] + 0.01) is None
    assert steepest(edition, shape) == ends[-1]


def test_slopes_beyond_the_figures_are_not_covered() -> None:
    assert gcp_figure("ASCE 7-16", "gable", 46) is None
    assert gcp_figure("ASCE 7-22", "monoslope", 31) is None
