"""Library: anaStruct, a general-purpose solver of plane frames (stiffness method), on beams of many spans."""

from __future__ import annotations

import numpy as np
import pytest
from anastruct import SystemElements

from engine.statics.continuous_beam import UnitForces, solve_beams
from support.validation_page import verified

SPANS = {"ten even spans": [1.0] * 10, "six uneven spans": [1.25, 0.75, 2.0, 1.125, 0.625, 1.5]}
SINGLE = 1e-6
"""The library computes in single precision, seven digits: tolerance relative to the largest figure [-]."""


def by_plane_frames(spans: list[float], load: list[float], pulled: float) -> tuple[list[float], list[float]]:
    """Reactions, and moments over supports (sagging positive).

    Each span has an even load, and the first midspan an uplift.
    """
    places = np.concatenate([[0.0, spans[0] / 2], np.cumsum(spans)])
    frame = SystemElements(EI=1.0, EA=1e6)
    for start, end in zip(places[:-1], places[1:], strict=True):
        frame.add_element([[start, 0], [end, 0]])
    frame.add_support_hinged(1)
    for node in range(3, len(places) + 1):
        frame.add_support_roll(node)
    for element, size in enumerate([load[0], *load], start=1):
        frame.q_load(q=-size, element_id=element)
    frame.point_load(2, Fy=pulled)
    frame.solve()
    supports = [1, *range(3, len(places) + 1)]
    moments = [-frame.get_element_results(element, verbose=True)["M"][0] for element in range(1, len(places))]
    return [-frame.get_node_results_system(node)["Fy"] for node in supports], [0.0, *moments[2:], 0.0]


@pytest.mark.parametrize("name", SPANS)
def test_beams_of_many_spans(name: str) -> None:
    spans = SPANS[name]
    load, pulled = [100.0 + 40 * number for number in range(len(spans))], 350.0
    theirs, their_moments = by_plane_frames(spans, load, pulled)
    supports = np.concatenate([[0.0], np.cumsum(spans)])
    middle = np.array([spans[0] / 2])
    loads = UnitForces(np.concatenate([supports[:-1], middle])[None], np.concatenate([supports[1:], middle])[None])
    answer, sizes = solve_beams(supports[None], loads), np.array([*np.multiply(load, spans), -pulled])
    reactions, rib_moments = answer.reactions[0] @ sizes, answer.moments(supports[None])[0, 1:-1] @ sizes
    held = verified(f"{name}: reactions", theirs, reactions, "N")
    np.testing.assert_allclose(held, theirs, rtol=0, atol=SINGLE * max(theirs))
    held = verified(f"{name}: bending over supports", their_moments[1:-1], rib_moments, "N m")
    np.testing.assert_allclose(held, their_moments[1:-1], rtol=0, atol=SINGLE * max(map(abs, their_moments)))
