"""Parts of the search, each on its own.

`tests/invariants/test_fewest.py` compares the whole with every possible pattern.
"""

from __future__ import annotations

import pytest

from engine.comparison.compare import compare
from engine.design.search import (
    SpanLimits,
    fewest_attachments,
    scan_spacings,
    span_limits,
    sparsest_holding,
    widest_member_holds,
)
from engine.links import LINKS
from engine.mounting.interface import Refusal
from support import context_of, scenario_of

FOOT = 0.3048


@pytest.mark.parametrize(
    ("member", "roof", "ratio"),
    [(8.0, 4.0, 2.0), (4.0, 8.0, 0.5), (None, 4.0, None), (8.0, None, None), (None, None, None)],
)
def test_overspan_ratio(member: float | None, roof: float | None, ratio: float | None) -> None:
    assert SpanLimits(member, roof).overspan == ratio


def test_spacings_are_scanned_until_member_and_roof_fail() -> None:
    """Kestrel Yard's rails: the roof fails at once, the rail beyond 8 ft, at every 5th seam."""
    scanned = scan_spacings(context_of("kestrel_yard", "rail"))
    assert not isinstance(scanned, Refusal)
    assert [candidate.layout.pattern.spacings[0] for candidate in scanned] == [1, 2, 3, 4, 5]
    assert span_limits(scanned) == SpanLimits(pytest.approx(8 * FOOT), None)
    widest = widest_member_holds(scanned)
    assert widest is not None
    assert widest.layout.pattern.spacings[0] == 4
    assert widest_member_holds(scanned[4:]) is None


def test_at_least_three_spacings_are_scanned() -> None:
    """Rails and clips without strength."""
    weak = {"hardware__rail__moment_strong": "1 lb ft", "roof__fastening__uplift": {"allowable": "1 lb"}}
    scanned = scan_spacings(context_of("kestrel_yard", "rail", **weak))
    assert not isinstance(scanned, Refusal)
    assert len(scanned) == 3
    assert span_limits(scanned) == SpanLimits(None, None)


def test_the_sparsest_that_holds_or_else_the_least_overloaded() -> None:
    strong = context_of(
        "kestrel_yard",
        "rail",
        roof__fastening__uplift={"allowable": "2000 lb"},
        roof__panel__moment_rib_compressed="2000 lb ft",
    )
    found = sparsest_holding(strong, (1, 2, 3, 4))
    assert found is not None
    assert found.holds
    same = fewest_attachments(strong, (1, 2, 3, 4))
    assert not isinstance(same, Refusal)
    assert same.layout is found.layout
    assert len(found.layout.attachments) == strong.field.minimum_attachments

    over = context_of("kestrel_yard", "rail")
    assert sparsest_holding(over, (1, 2, 3, 4)) is None
    least = fewest_attachments(over, (1, 2, 3, 4))
    assert not isinstance(least, Refusal)
    patterns = [over.uniform_layout(spacing, over.field.minimum_attachments) for spacing in (1, 1.5, 2, 2.5, 3, 4)]
    used = [over.candidate(layout).controlling.ratio for layout in patterns if not isinstance(layout, Refusal)]
    assert least.controlling.ratio == min(used)


def test_links_are_checked_once_and_only_until_one_fails() -> None:
    """The clip fails at every 4th seam: the bending of rib and rail is not computed."""
    of = context_of("kestrel_yard", "rail")
    layout = of.uniform_layout(4)
    assert not isinstance(layout, Refusal)
    candidate = of.candidate(layout)
    assert not candidate.checked
    assert not candidate.holds
    assert {check.link for check in candidate.checked.values()} == {"roof_fastening"}
    assert candidate.utilisation_so_far == candidate.controlling.ratio == pytest.approx(1.66, abs=5e-3)
    assert len(candidate.checked) == len(LINKS) == len(candidate.checks)
    first = candidate.checks
    assert all(first[key] is check for key, check in candidate.checks.items())
    assert list(first)[-2:] == ["fixed_point", "structure"]


def test_patterns_with_many_single_attachments_are_left_out() -> None:
    """The pattern of Kestrel Yard's rack has at most a quarter of its attachments added singly."""
    (column,) = compare(scenario_of(), ("tilted_rack",)).columns
    assert column.design
    assert column.design.layout.added_attachments <= 0.25 * len(column.design.layout.attachments)
