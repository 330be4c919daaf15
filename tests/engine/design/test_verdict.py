"""Sentences on span limits and verdicts, for readers who are no engineers."""

from __future__ import annotations

from dataclasses import replace

import pytest

from engine.comparison.compare import compare
from engine.design.search import SpanLimits
from engine.design.verdict import component_name, span_sentence, verdict_sentence
from engine.links import Check
from engine.mounting.layout import Member
from support import WEAKER_ROOF, scenario_of

RAIL = Member("rail", "rail")
CLIP = Check("roof_fastening", "clip", "force", utilisation=1.66)
FEET = 0.3048


@pytest.mark.parametrize(
    ("member", "roof", "words"),
    [
        (None, 4, "The rail fails even if it is attached at every seam"),
        (8, None, "The rail spans 8.00 ft (2.438 m); the roof fails at every uniform spacing. "
                  "At the rail's own span of 8.00 ft (2.438 m) the clip is at 1.66 of its allowable"),
        (4, 8, "The rail spans 4.00 ft (1.219 m); the roof allows 8.00 ft (2.438 m)"),
        (4, 4, "The rail spans 4.00 ft (1.219 m); the roof allows 4.00 ft (1.219 m)"),
        (8, 4, "The rail spans 8.00 ft (2.438 m); the roof allows 4.00 ft (1.219 m). The rail's span is 2.0 times what the roof allows"),
    ],
)  # fmt: skip
def test_span_limits(member: float | None, roof: float | None, words: str) -> None:
    limits = SpanLimits(member and member * FEET, roof and roof * FEET, roof_at_member_span=CLIP if member else None)
    assert span_sentence(scenario_of().job, RAIL, limits) == words


def test_closer_spacings_that_fail_are_named() -> None:
    """Single ones, and stretches by their ends; of the rail and of the roof."""
    limits = SpanLimits(
        4 * FEET, 12 * FEET, ((2 * FEET, 2 * FEET),), ((4 * FEET, 6 * FEET), (10 * FEET, 10 * FEET)), CLIP
    )
    assert span_sentence(scenario_of().job, RAIL, limits) == (
        "The rail spans 4.00 ft (1.219 m); the roof allows 12.00 ft (3.658 m). "
        "Closer spacings at which the rail fails: 2.00 ft (0.610 m). "
        "Closer spacings at which the roof fails: 4.00 ft (1.219 m) to 6.00 ft (1.829 m), 10.00 ft (3.048 m)"
    )


def test_several_screws_are_at_their_allowable() -> None:
    limits = SpanLimits(8 * FEET, None, roof_at_member_span=replace(CLIP, title="panel screws"))
    assert span_sentence(scenario_of().job, RAIL, limits).endswith("the panel screws are at 1.66 of their allowable")


@pytest.mark.parametrize(
    ("spacing", "changes", "words"),
    [
        ("2 ribs", WEAKER_ROOF | {"roof__fastening__uplift": {"allowable": "2000 lb"}}, "Every component checked holds: seam at 0."),
        ("2 ribs", WEAKER_ROOF, "The rail holds, the roof fails: clip at 1."),
        ("5 ribs", {}, "Both the rail and the roof fail: seam at 1."),
        ("8 ribs", {"roof__fastening__uplift": {"allowable": "9000 lb"}, "roof__panel__moment_rib_compressed": "9000 lb ft",
                    "roof__panel__moment_pan_compressed": "9000 lb ft", "roof__panel__at_clamp_down": {"allowable": "9000 lb"}},
         "The roof holds, the rail fails: "),
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


@pytest.mark.parametrize(
    ("bracket", "words"),
    [
        ("seam clamp", "The rail holds, the attachment fails: "),
        ("sheet", "The rail holds, the roof fails: attachment at "),
    ],
)
def test_a_weak_attachment_is_the_roofs_failure_where_it_pierces_the_roof(bracket: str, words: str) -> None:
    name = {"seam clamp": "kestrel_yard", "sheet": "finch_shed"}[bracket]
    weak = {"hardware__attachment_uplift": {"allowable": "20 lb"}, "methods__rail__spacing": "4 ribs"}
    scenario = scenario_of(name, **weak)
    assert scenario.job.hardware.bracket == bracket
    (column,) = compare(scenario, ("rail",)).columns
    assert column.design
    assert column.design.candidate
    assert verdict_sentence(scenario.job, column.design.candidate).startswith(words)
