"""The nails of a deck under brackets that pull on it: handed over with their load, not checked."""

from __future__ import annotations

import pytest

from engine.comparison.compare import Column, compare
from engine.comparison.figures.verdict import not_checked
from support import scenario_of


def rails(**changes: object) -> Column:
    return compare(scenario_of("swallow_cottage", **changes), ("rail",)).columns[0]


LAG = {"lag": 1, "size": "5/16 in", "thread": "2 in", "specific_gravity": 0.42}


def test_their_largest_uplift_is_named_and_the_document_asked_for() -> None:
    column = rails()
    assert column.design
    assert column.design.candidate
    pounds = column.design.candidate.demands.attachment_up.max() / 4.4482216
    (entry,) = (each for each in column.checks["attachment"].unchecked if each.link == "deck_nails")
    assert (entry.direction, entry.owner) == ("up", "building engineer")
    assert entry.reason.startswith(f"up to {pounds:.0f} lb (")
    assert entry.ask == "Ask the building engineer for: nailing of the deck to its rafters, for this uplift"
    assert not_checked(column) == "deck nails, up (building engineer)"
    assert "not_checked_deck_nails" in {flag.code for flag in column.flags}


def test_shown_by_others_they_are_closed() -> None:
    shown = {"direction": ["up"], "by": "the engineer", "document": "nailing plan", "date": "2026-01-01"}
    assert rails(accepted__deck_nails=shown).status == "holds"


def test_brackets_on_rafters_do_not_pull_on_the_deck() -> None:
    column = rails(hardware__bracket="rafter", hardware__place="pan", hardware__attachment_uplift=LAG)
    assert not column.checks["attachment"].unchecked


def test_brackets_through_a_floating_panel_are_flagged() -> None:
    """A screwed panel cannot move by heat (statics); the strength of the deck is the same under a seam."""
    pinned = {"hardware__bracket": "deck", "hardware__place": "pan"}
    (column,) = compare(scenario_of("sparrow_lane", **pinned), ("rail",)).columns
    assert column.status == "incomplete"
    assert "pins_panel" in {flag.code for flag in column.flags}
    assert "pins_panel" not in {flag.code for flag in compare(scenario_of("sparrow_lane"), ("rail",)).columns[0].flags}
    assert column.design
    assert column.design.candidate
    demands = column.design.candidate.demands
    assert not demands.fastening_from_attachments.any()
    assert demands.panel_in_plane == pytest.approx(demands.roof.sheet_and_snow_sliding[demands.rib])
