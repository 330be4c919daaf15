"""How far member and roof hold, and what holds at all, in words for people who know no engineering."""

from __future__ import annotations

import pytest

from engine.comparison.compare import compare
from engine.design.search import SpanLimits
from engine.design.verdict import component_name, span_sentence, verdict_sentence
from engine.links import Check
from engine.mounting.layout import Member
from support import scenario_of

RAIL = Member("rail", "rail")
FEET = 0.3048


@pytest.mark.parametrize(
    ("member", "roof", "words"),
    [
        (None, 4, "the rail does not hold even on every seam"),
        (8, None, "the rail holds to 8.00 ft (2.438 m), the roof at no even spacing"),
        (4, 8, "the rail holds to 4.00 ft (1.219 m), the roof to 8.00 ft (2.438 m)"),
        (4, 4, "the rail holds to 4.00 ft (1.219 m), the roof to 4.00 ft (1.219 m)"),
        (8, 4, "the rail holds to 8.00 ft (2.438 m), the roof to 4.00 ft (1.219 m): spaced by the rail alone, the roof is asked for 2.0 times the spacing it can take"),
    ],
)  # fmt: skip
def test_span_limits(member: float | None, roof: float | None, words: str) -> None:
    limits = SpanLimits(member and member * FEET, roof and roof * FEET)
    assert span_sentence(scenario_of().job, RAIL, limits) == words


@pytest.mark.parametrize(
    ("spacing", "changes", "words"),
    [
        ("2 ribs", {"roof__fastening__uplift": {"allowable": "2000 lb"}}, "Everything holds: at most 0."),
        ("2 ribs", {}, "The rail holds, the roof does not: 1."),
        ("5 ribs", {}, "Neither the rail nor the roof holds: 1."),
        ("8 ribs", {"roof__fastening__uplift": {"allowable": "9000 lb"}, "roof__panel__moment_rib_compressed": "9000 lb ft",
                    "roof__panel__moment_pan_compressed": "9000 lb ft"}, "The roof holds, the rail does not: "),
    ],
)  # fmt: skip
def test_verdicts(spacing: str, changes: dict[str, object], words: str) -> None:
    """The figure that follows is the weakest link's."""
    scenario = scenario_of(
        methods__rail__spacing=spacing, hardware__attachment_uplift={"allowable": "9000 lb"}, **changes
    )
    (column,) = compare(scenario, ("rail",)).columns
    assert column.design
    assert column.design.candidate
    assert column.controlling
    said = verdict_sentence(scenario.job, column.design.candidate)
    assert said.startswith(words)
    assert f"{column.controlling.ratio:.2f}" in said


def test_a_rib_is_called_so_and_not_by_what_it_does() -> None:
    job = scenario_of().job
    assert component_name(job, Check("rib", "seam bending", "moment")) == "seam"
    assert component_name(job, Check("clamp", "module clamp", "force")) == "module clamp"
