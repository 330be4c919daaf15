"""What a plan-checker asks for: owed until the scenario says so."""

from __future__ import annotations

import pytest

from engine.comparison.compare import compare
from engine.comparison.permit_checklist import permit_checklist
from support import scenario_of

PAPERS = {
    "roof_test": "Test report",
    "maker_consent": "module maker's consent",
    "fire_access": "fire service",
    "roof_live_load": "Roof live load",
    "adopted_code": "adopted code edition",
    "member_review": "existing members",
    "base_metal": "Base-metal thickness",
}


@pytest.mark.parametrize("paper", PAPERS)
def test_a_paper_is_ticked_by_its_own_words_and_by_no_other(paper: str) -> None:
    bare = permit_checklist(compare(scenario_of(papers={}, array__setbacks={}), ("direct",)))
    filed = permit_checklist(compare(scenario_of(papers={paper: "sheet S-2"}, array__setbacks={}), ("direct",)))
    assert {item.statement for item in bare} == {""}
    assert [item.requirement for item in filed] == [item.requirement for item in bare]
    (ticked,) = [item for item in filed if item.statement]
    assert PAPERS[paper] in ticked.requirement
    assert ticked.statement == "sheet S-2"


def test_where_every_method_is_refused_consent_is_still_owed() -> None:
    comparison = compare(scenario_of("plover_terrace"), ("tilted_rack",))
    assert [column.status for column in comparison.columns] == ["refused"]
    statement = {item.requirement: item.statement for item in permit_checklist(comparison)}
    assert statement["The module maker's consent to how edges are held"] == ""


def test_what_the_scenario_shows_by_itself_is_not_owed() -> None:
    """Modules clamped at their long sides in the stated zone need no consent; stated setbacks answer the fire service."""
    statement = {
        item.requirement: item.statement
        for item in permit_checklist(compare(scenario_of(array__setbacks={"ridge": "3 ft"}), ("rail",)))
    }
    assert statement["Access and setbacks for the fire service"].startswith("3.00 ft")
    assert statement["Access and setbacks for the fire service"].endswith("from the ridge")
    assert statement["The module maker's consent to how edges are held"].startswith("not needed")
