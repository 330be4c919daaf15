"""A link that nobody checked: the verdict it leaves, and what an acceptance of others changes. Laws of our own, no source."""

from __future__ import annotations

import pytest

from engine.common.errors import InputError
from engine.comparison.compare import Column, compare
from engine.comparison.figures.verdict import not_checked, shown_by_others, verdict_line, verdict_word
from engine.comparison.record import comparison_record
from engine.design.status import Status, is_close
from support import WEAKER_ROOF, scenario_of

BOTH = {"by": "the roof maker", "document": "letter 12", "date": "2026-05-02", "direction": ["up", "down"]}


def column(method: str = "direct", name: str = "kestrel_yard", **changes: object) -> Column:
    return compare(scenario_of(name, **changes), (method,)).columns[0]


def codes(found: Column) -> set[str]:
    return {flag.code for flag in found.flags}


def test_a_load_without_a_strength_makes_a_holding_method_incomplete() -> None:
    """On a weaker roof modules on seams just hold; without a clamp test nobody knows the seam at the clamp."""
    assert column(**WEAKER_ROOF).status == Status.HOLDS
    open_ = column(**WEAKER_ROOF, roof__panel__at_clamp_uplift=None, roof__panel__at_clamp_down=None)
    assert open_.status == Status.INCOMPLETE
    assert verdict_word(open_) == "INCOMPLETE 0.96, close"
    assert not_checked(open_) == "seam at the clamp (roof maker)"
    (flag,) = [flag for flag in open_.flags if flag.code == "not_checked_rib_at_clamp"]
    assert flag.text.endswith("Ask the roof maker for: test of the clamp on this profile and gauge, up and down")


def test_one_direction_is_named() -> None:
    assert not_checked(column(roof__panel__at_clamp_down=None)) == "seam at the clamp, down (roof maker)"


def test_over_is_over_whatever_is_not_checked() -> None:
    """Rails on every seam bring 370 lb to a clip (`test_hand_calculation`): 1.03 of 360 lb."""
    weak = {"roof__fastening__uplift": {"allowable": "360 lb"}, "methods__rail__spacing": "1 ribs"}
    found = column("rail", **weak, roof__panel__at_clamp_down=None)
    assert found.status == Status.OVER
    assert verdict_line(found).startswith("OVER 1.03, close: clip. Not checked: seam at the clamp, down (roof maker)")


def test_what_others_have_shown_counts_as_checked() -> None:
    nothing = {"roof__panel__at_clamp_uplift": None, "roof__panel__at_clamp_down": None}
    found = column(**nothing, accepted__rib_at_clamp=BOTH)
    assert found.status == Status.HOLDS
    assert shown_by_others(found) == "seam at the clamp; purlins"
    (record,) = comparison_record(compare(scenario_of(**nothing, accepted__rib_at_clamp=BOTH), ("direct",)))["methods"]
    assert record["unchecked"] == []
    assert [each["document"] for each in record["shown_by_others"][:2]] == ["letter 12", "letter 12"]


@pytest.mark.parametrize(
    ("methods", "status"), [("direct", "holds"), (["direct", "rail"], "holds"), ("rail", "incomplete")]
)
def test_an_acceptance_may_be_for_some_methods_only(methods: object, status: str) -> None:
    accepted = BOTH | {"methods": methods}
    found = column(roof__panel__at_clamp_uplift=None, roof__panel__at_clamp_down=None, accepted__rib_at_clamp=accepted)
    assert found.status == status


def test_an_acceptance_without_direction_closes_the_only_open_one() -> None:
    without = {key: value for key, value in BOTH.items() if key != "direction"}
    assert column(roof__panel__at_clamp_down=None, accepted__rib_at_clamp=without).status == Status.HOLDS


def test_an_acceptance_without_direction_closes_nothing_where_several_are_open() -> None:
    without = {key: value for key, value in BOTH.items() if key != "direction"}
    found = column(roof__panel__at_clamp_uplift=None, roof__panel__at_clamp_down=None, accepted__rib_at_clamp=without)
    assert found.status == Status.INCOMPLETE
    assert "acceptance_unclear" in codes(found)


def test_an_acceptance_of_one_direction_leaves_the_other_open() -> None:
    nothing = {"roof__panel__at_clamp_uplift": None, "roof__panel__at_clamp_down": None}
    found = column(**nothing, accepted__rib_at_clamp=BOTH | {"direction": "down"})
    assert not_checked(found) == "seam at the clamp, up (roof maker)"


def test_an_acceptance_does_not_rescue_what_is_over() -> None:
    weak = {"roof__panel__at_clamp_down": {"allowable": "100 lb"}, "methods__direct__spacing": "2 per edge"}
    assert column(**weak, accepted__rib_at_clamp=BOTH).status == Status.OVER


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"accepted__purlins": BOTH}, "accepted.purlins: unknown; allowed are module, clamp"),
        ({"accepted__roof_membr": BOTH}, "accepted.roof_membr: unknown; did you mean 'roof_member'"),
        ({"accepted__clamp": {"by": "x", "document": "y"}}, "accepted.clamp.date: missing"),
        ({"accepted__clamp": BOTH | {"direction": "sideways"}}, "accepted.clamp.direction: 'sideways' given; allowed is 'up' or"),
        ({"accepted__clamp": BOTH | {"methods": "rails"}}, "accepted.clamp.methods: 'rails' given; allowed is 'rail' or"),
        ({"accepted__clamp": BOTH | {"direction": []}}, "accepted.clamp.direction: "),
        ({"accepted__clamp": "yes"}, "accepted.clamp: "),
        ({"accepted": "yes"}, "accepted: 'yes' given; write a table"),
    ],
)  # fmt: skip
def test_a_wrong_acceptance_is_refused_in_one_sentence(changes: dict[str, object], sentence: str) -> None:
    with pytest.raises(InputError) as refused:
        scenario_of(**changes)
    assert str(refused.value.problems[0]).startswith(sentence)


def test_placeholders_are_counted_and_demote_nothing() -> None:
    found = column()
    assert [path for path, _ in found.placeholders] == [
        "hardware.attachment_uplift",
        "hardware.attachment_down",
        "hardware.attachment_in_plane",
        "hardware.clamp_uplift",
    ]
    assert verdict_line(found).endswith("4 placeholder strengths")
    stated = column(hardware__attachment_uplift={"allowable": "600 lb"})
    assert verdict_line(stated).endswith("3 placeholder strengths")
    assert stated.status == found.status == Status.HOLDS


@pytest.mark.parametrize(
    ("utilisation", "close"), [(0.944, False), (0.946, True), (1.0, True), (1.054, True), (1.056, False)]
)
def test_close_is_a_twentieth_on_either_side_as_shown(utilisation: float, close: bool) -> None:
    assert is_close(utilisation) == close


def test_verdicts_are_ranked() -> None:
    ranked = sorted(Status, key=lambda status: status.rank)
    assert ranked[:4] == ["holds", "incomplete", "strength unknown", "over"]
    assert [status.nothing_over for status in Status] == [True, True, True, False, False, False]
