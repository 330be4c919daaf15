"""Supports with a first bay of another length."""

from __future__ import annotations

import pytest

from engine.common.errors import InputError
from engine.units import FOOT
from support import scenario_of


def test_the_other_supports_follow_the_second_one() -> None:
    """By hand: eave strut at 6 in, first purlin 3 ft on, then every 5 ft.

    The last bay would be 1.2 ft, less than a quarter of the others: the support at 53.5 ft is the last."""
    job = scenario_of(roof__first_support="6 in", roof__first_bay="3 ft").job
    supports = job.roof.supports(job.building) / FOOT
    assert supports[:4] == pytest.approx([0.5, 3.5, 8.5, 13.5])
    assert supports[-2:] == pytest.approx([48.5, 53.5])


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"roof__first_bay": "6 ft"}, "6.00 ft (1.829 m) given; allowed is at most roof.support_spacing"),
        ({"roof__first_bay": "3 ft", "roof__first_support": None}, "it needs roof.first_support too"),
    ],
)
def test_a_first_bay_that_cannot_be_is_refused(changes: dict[str, object], words: str) -> None:
    with pytest.raises(InputError) as refused:
        scenario_of(**changes)
    assert [words in str(problem) for problem in refused.value.problems if problem.path == "roof.first_bay"] == [True]
