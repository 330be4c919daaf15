"""How sure each clause is: seen several times, once, from memory, or a choice; none was read from the printed standard."""

from __future__ import annotations

import pytest

from engine.common.calculation import Confidence
from engine.loads.asce7.gcp_figures import gcp_figure
from engine.loads.asce7.references import choice, clause, memory, single


def test_four_ways_to_name_a_source() -> None:
    assert clause("ASCE 7-16", "§26.2").confidence is Confidence.SEVERAL
    assert single("ASCE 7-16", "§26.2").confidence is Confidence.SINGLE
    assert memory("ASCE 7-16", "§26.2").confidence is Confidence.MEMORY
    assert choice("the safe reading").confidence is Confidence.CHOICE
    for made in (clause, single, memory):
        assert (made("ASCE 7-22", "§26.2").edition, made("ASCE 7-22", "§26.2").clause) == ("7-22", "§26.2")


@pytest.mark.parametrize(
    ("edition", "shape", "slope", "parapet", "number", "confidence"),
    [
        ("ASCE 7-16", "flat", 2.0, 0.0, "Fig. 30.3-2A", Confidence.SEVERAL),
        ("ASCE 7-22", "flat", 2.0, 3.0, "Fig. 30.3-2A, Note 5", Confidence.SINGLE),
        ("ASCE 7-16", "gable", 15.0, 0.0, "Fig. 30.3-2B", Confidence.SEVERAL),
        ("ASCE 7-16", "gable", 25.0, 0.0, "Fig. 30.3-2C", Confidence.SINGLE),
        ("ASCE 7-16", "gable", 40.0, 0.0, "Fig. 30.3-2D", Confidence.SEVERAL),
        ("ASCE 7-22", "gable", 25.0, 0.0, "Fig. 30.3-2C", Confidence.SEVERAL),
        ("ASCE 7-16", "monoslope", 5.0, 0.0, "Fig. 30.3-5A", Confidence.SEVERAL),
        ("ASCE 7-22", "monoslope", 20.0, 0.0, "Fig. 30.3-5B", Confidence.SEVERAL),
        ("ASCE 7-22", "hip", 15.0, 0.0, "Fig. 30.3-2E", Confidence.SINGLE),
        ("ASCE 7-22", "hip", 25.0, 0.0, "Fig. 30.3-2F", Confidence.SINGLE),
        ("ASCE 7-22", "hip", 40.0, 0.0, "Figs. 30.3-2F and 2G, Note 6", Confidence.SINGLE),
    ],
)
def test_each_figure_says_where_it_is_from(
    edition: str, shape: str, slope: float, parapet: float, number: str, confidence: Confidence
) -> None:
    found = gcp_figure(edition, shape, slope, parapet)
    assert found
    assert (found.reference.clause, found.reference.confidence) == (number, confidence)
