"""Parts of the search, each on its own.

`tests/invariants/test_fewest.py` compares the whole with every possible pattern.
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import cast

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.design.search import (
    SpanLimits,
    fewest_attachments,
    groups_of,
    scan_spacings,
    spacings_to_try,
    span_limits,
    sparsest_holding,
    widest_member_holds,
)
from engine.design.trial import Candidate
from engine.links import LINKS, Check
from engine.mounting.interface import Refusal
from engine.mounting.layout import SpacingPattern
from support import WEAKER_ROOF, context_of, scenario_of

FOOT = 0.3048
FINCH_MOVED = ["11.5 ft", "3 ft"]


class Scanned:
    """A scanned spacing of made-up utilisations of member and roof."""

    def __init__(self, spacing: float, member: float, roof: float) -> None:
        self.layout = SimpleNamespace(
            longest_span=spacing, attachments=(), pattern=SimpleNamespace(spacings=(spacing,))
        )
        self.roof_check = clip_at(roof)
        self.member_check = Check("rail", "rail", "moment", utilisation=member)
        self.member, self.roof = member, roof

    def member_over(self) -> bool:
        return self.member > 1

    def roof_over(self) -> bool:
        return self.roof > 1


def scanned_at(*utilisations: tuple[float, float]) -> list[Candidate]:
    """Spacings of 1, 2, 3 … m, by the utilisation of member and roof at each."""
    return [cast(Candidate, Scanned(float(number), *each)) for number, each in enumerate(utilisations, 1)]


def clip_at(utilisation: float) -> Check:
    return Check("roof_fastening", "clip", "force", utilisation=utilisation)


@pytest.mark.parametrize(
    ("member", "roof", "ratio", "basis"),
    [(8.0, 4.0, 2.0, "spans"), (4.0, 8.0, 0.5, "spans"), (None, 4.0, None, None), (None, None, None, None)],
)
def test_overspan_of_spans(member: float | None, roof: float | None, ratio: float | None, basis: str | None) -> None:
    limits = SpanLimits(member, roof, roof_at_member_span=clip_at(1.66) if member else None)
    assert (limits.overspan, limits.overspan_basis) == (ratio, basis)


def test_overspan_is_load_over_allowable_where_the_roof_fails_at_every_spacing() -> None:
    limits = SpanLimits(8.0, None, roof_at_member_span=clip_at(1.66))
    assert (limits.overspan, limits.overspan_basis) == (1.66, "load")


def test_limits_are_the_widest_spacings_that_hold_also_beyond_closer_ones_that_fail() -> None:
    limits = span_limits(scanned_at((0.1, 1.1), (0.2, 0.9), (1.2, 1.1), (0.9, 1.2), (0.8, 0.7), (1.3, 1.3)))
    assert (limits.member, limits.roof) == (5.0, 5.0)
    assert limits.member_fails == ((3.0, 3.0),)
    assert limits.roof_fails == ((1.0, 1.0), (3.0, 4.0))
    assert limits.roof_at_member_span
    assert limits.roof_at_member_span.utilisation == 0.7


def test_a_part_that_fails_at_every_spacing_has_no_limit() -> None:
    limits = span_limits(scanned_at((0.1, 1.1), (0.2, 1.2), (1.2, 1.1)))
    assert (limits.member, limits.roof, limits.member_fails, limits.roof_fails) == (2.0, None, (), ())
    assert (limits.overspan, limits.overspan_basis) == (1.2, "load")


@pytest.mark.parametrize(
    ("utilisations", "number"),
    [
        ([(0.5, 0.5), (0.9, 0.9), (1.1, 1.1), (1.1, 1.2), (0.9, 1.2)], 3),
        ([(1.1, 1.1), (1.1, 1.1), (1.1, 1.1), (1.1, 1.2), (0.9, 1.2)], 3),
        ([(0.5, 0.5), (0.9, 0.9), (1.1, 1.1), (0.9, 0.9), (0.9, 1.2)], 4),
        ([(0.5, 0.5), (0.9, 0.9), (0.9, 1.1), (0.9, 1.2)], 4),
    ],
)
def test_spacings_to_try_end_where_both_fail_and_nothing_holds_beyond(
    utilisations: list[tuple[float, float]], number: int
) -> None:
    assert spacings_to_try(scanned_at(*utilisations)) == tuple(float(spacing) for spacing in range(1, number + 1))


def test_spacings_are_scanned_until_member_and_roof_fail() -> None:
    """Rails on a weaker roof: it fails at once, the rail beyond 8 ft, at every 5th seam. 635 lb of 350 lb by hand."""
    scanned = scan_spacings(context_of("kestrel_yard", "rail", **WEAKER_ROOF))
    assert not isinstance(scanned, Refusal)
    assert [candidate.layout.pattern.spacings[0] for candidate in scanned] == [1, 2, 3, 4, 5]
    limits = span_limits(scanned)
    assert (limits.member, limits.roof) == (pytest.approx(8 * FOOT), None)
    assert (limits.overspan, limits.overspan_basis) == (pytest.approx(1.81, abs=5e-3), "load")
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


def test_a_closer_spacing_that_fails_does_not_hide_a_wider_one_that_holds() -> None:
    """Finch Shed, moved: every rib holds, every 2nd fails, every 3rd and 4th hold."""
    context = context_of("finch_shed", "rail", array__origin=FINCH_MOVED)
    scanned = scan_spacings(context)
    assert not isinstance(scanned, Refusal)
    limits = span_limits(scanned)
    assert limits.roof == pytest.approx(3 * FOOT)
    assert limits.roof_fails == ((pytest.approx(1.5 * FOOT), pytest.approx(1.5 * FOOT)),)


def test_a_stronger_screw_never_lowers_the_roofs_limit() -> None:
    """Finch Shed: with 210 lb every rib holds again, while every 2nd still fails."""
    roofs = []
    for screw in (200, 210, 220):
        strong = {"hardware__attachment_uplift": {"allowable": "2000 lb"}}
        weak = {"roof__fastening__uplift": {"allowable": f"{screw} lb"}}
        scanned = scan_spacings(context_of("finch_shed", "rail", **strong, **weak))
        assert not isinstance(scanned, Refusal)
        roofs.append(span_limits(scanned).roof)
    assert roofs == [pytest.approx(feet * FOOT) for feet in (3.0, 3.75, 3.75)]


def test_attachments_limit_the_roof_where_they_pierce_it() -> None:
    """Weaker brackets on Finch Shed's sheet lower the roof's limit; clamps on Kestrel Yard's seams do not."""
    limits = {}
    for name in ("finch_shed", "kestrel_yard"):
        for uplift in (2000, 1):
            weak = {"hardware__attachment_uplift": {"allowable": f"{uplift} lb"}}
            scanned = scan_spacings(context_of(name, "rail", roof__fastening__uplift={"allowable": "2000 lb"}, **weak))
            assert not isinstance(scanned, Refusal)
            limits[name, uplift] = span_limits(scanned)
    assert limits["kestrel_yard", 1].roof == limits["kestrel_yard", 2000].roof is not None
    assert limits["finch_shed", 2000].roof
    assert limits["finch_shed", 1].roof is None
    assert limits["finch_shed", 1].roof_at_member_span
    assert limits["finch_shed", 1].roof_at_member_span.link == "attachment"


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

    over = context_of("kestrel_yard", "rail", **WEAKER_ROOF)
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
    assert candidate.utilisation_so_far == candidate.controlling.ratio == pytest.approx(1.477, abs=5e-3)
    assert len(candidate.checked) == len(LINKS) == len(candidate.checks)
    first = candidate.checks
    assert all(first[key] is check for key, check in candidate.checks.items())
    assert list(first)[-2:] == ["roof_member", "structure"]


def test_patterns_with_many_single_attachments_are_left_out() -> None:
    """The pattern of Kestrel Yard's rack has at most a quarter of its attachments added singly."""
    (column,) = compare(scenario_of(), ("tilted_rack",)).columns
    assert column.design
    assert column.design.layout.added_attachments <= 0.25 * len(column.design.layout.attachments)


@pytest.mark.parametrize(
    ("modules", "groups"),
    [
        ([5, 1, 2, 3], [0, 1, 2, 3]),
        ([10, 1, 8, 2, 9, 7], [0, 1, 1, 2, 2, 3]),
        ([10, 9, 8, 7, 1], [0, 1, 2, 3, 3]),
    ],
)
def test_the_smallest_of_many_strips_share_a_spacing_with_a_neighbour(modules: list[int], groups: list[int]) -> None:
    number = len(modules)
    strips = SpacingPattern((1,) * number, np.repeat(np.arange(number), modules), ("strip",) * number)
    assert groups_of(strips).tolist() == groups
