"""Sentences on span limits and verdicts, for readers who are no engineers."""

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
        (None, 4, "The rail fails even if it is attached at every seam"),
        (8, None, "The rail spans 8.00 ft (2.438 m); the roof fails at every uniform spacing"),
        (4, 8, "The rail spans 4.00 ft (1.219 m); the roof allows 8.00 ft (2.438 m)"),
        (4, 4, "The rail spans 4.00 ft (1.219 m); the roof allows 4.00 ft (1.219 m)"),
        (8, 4, "The rail spans 8.00 ft (2.438 m); the roof allows 4.00 ft (1.219 m). The rail's span is 2.0 times what the roof allows"),
    ],
)  # fmt: skip
def test_span_limits(member: float | None, roof: float | None, words: str) -> None:
    limits = SpanLimits(member and member * FEET, roof and roof * FEET)
    assert span_sentence(scenario_of().job, RAIL, limits) == words


@pytest.mark.parametrize(
    ("spacing", "changes", "words"),
    [
        ("2 ribs", {"roof__fastening__uplift": {"allowable": "2000 lb"}}, "Every component checked holds: seam at 0."),
        ("2 ribs", {}, "The rail holds, the roof fails: clip at 1."),
        ("5 ribs", {}, "Both the rail and the roof fail: seam at 1."),
        ("8 ribs", {"roof__fastening__uplift": {"allowable": "9000 lb"}, "roof__panel__moment_rib_compressed": "9000 lb ft",
                    "roof__panel__moment_pan_compressed": "9000 lb ft"}, "The roof holds, the rail fails: "),
    ],
)  # fmt: skip
def test_verdicts(spacing: str, changes: dict[str, object], words: str) -> None:
    """The figure is that of the controlling link."""
    scenario = scenario_of(
        methods__rail__spacing=spacing, hardware__attachment_uplift={"allowable": "9000 lb"}, **changes
    )
    (column,) = compare(scenario, ("rail",)).columns
    assert column.design
    assert column.design.candidate
    assert column.controlling
    sentence = verdict_sentence(scenario.job, column.design.candidate)
    assert sentence.startswith(words)
    assert f"{column.controlling.ratio:.2f}" in sentence


def test_a_rib_has_the_name_of_the_component_and_not_of_the_check() -> None:
    job = scenario_of().job
    assert component_name(job, Check("rib", "seam bending", "moment")) == "seam"
    assert component_name(job, Check("clamp", "module clamp", "force")) == "module clamp"
