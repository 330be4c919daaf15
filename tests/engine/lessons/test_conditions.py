"""Conditions on figures, and the wordings they choose among."""

from __future__ import annotations

import pytest

from engine.lessons.conditions import Condition, Conditions, Wordings, chosen, not_holding
from engine.lessons.figures import FigureValue, MissingStepError

FIGURES = {
    "methods.rail.overspan": FigureValue(3.0, "ratio"),
    "methods.rail.attachments": FigureValue(128, "count"),
    "methods.rail.weakest_link": FigureValue("roof_fastening"),
    "methods.rail.roof_span_limit_m": FigureValue(1.2192, "length"),
    "methods.direct.rail_span_limit_m": FigureValue(None, "length"),
    "before.methods.rail.overspan": FigureValue(3.0 * (1 + 1e-15), "ratio"),
    "inputs.roof.kind": FigureValue("standing seam"),
    "explain.direct.member.a": FigureValue(0.7, "small length"),
}


def find(name: str) -> FigureValue:
    if name not in FIGURES:
        raise ValueError(f"there is no figure '{name}'")
    return FIGURES[name]


def condition(written: str) -> Condition:
    (read,) = Conditions().read([written])
    assert str(read) == written
    return read


@pytest.mark.parametrize(
    ("written", "holds"),
    [
        ("methods.rail.overspan > 1", True),
        ("methods.rail.overspan > 3", False),
        ("methods.rail.overspan >= 3", True),
        ("methods.rail.overspan is before.methods.rail.overspan", True),
        ("methods.rail.overspan is not before.methods.rail.overspan", False),
        ("methods.rail.attachments is 128", True),
        ("methods.rail.roof_span_limit_m < 5 ft", True),
        ("methods.rail.roof_span_limit_m < 1200 mm", False),
        ("explain.direct.member.a > 27 in", True),
        ("methods.rail.weakest_link is roof_fastening", True),
        ("inputs.roof.kind is not standing seam", False),
        ("methods.direct.rail_span_limit_m is none", True),
        ("methods.direct.rail_span_limit_m < methods.rail.roof_span_limit_m", False),
    ],
)
def test_a_condition(written: str, holds: bool) -> None:
    """4 ft are 1.2192 m; two numbers that differ in the last bit are the same."""
    assert condition(written).holds(find) == holds


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("methods.rail.weakest_link > 1", "compares words"),
        ("methods.rail.overspan > far", "write a number"),
        ("methods.rail.roof_span_limit_m < 5", "write a length with its unit"),
        ("methods.rial.overspan > 1", "there is no figure"),
    ],
)
def test_a_condition_that_cannot_be_decided(written: str, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        condition(written).holds(find)


@pytest.mark.parametrize("written", ["methods.rail.overspan > 1", [5], ["overspan"], ["a = b"]])
def test_what_is_no_condition_is_refused(written: object) -> None:
    with pytest.raises(ValueError, match=r"given; write a list of figures"):
        Conditions().read(written)


@pytest.mark.parametrize("written", [5, "", [{}], [{"say": "x", "if": []}], ["x"], [{"when": []}]])
def test_what_is_no_wording_is_refused(written: object) -> None:
    with pytest.raises(ValueError, match="given; write"):
        Wordings().read(written)


def test_the_first_wording_that_holds_is_said() -> None:
    wordings = Wordings().read(
        [
            {"when": ["methods.rail.overspan < 1"], "say": "The roof spans more."},
            {"when": ["methods.rail.overspan > 1", "methods.rail.attachments > 100"], "say": "The rail spans more."},
            {"say": "Neither."},
        ]
    )
    assert chosen(wordings, find) == "The rail spans more."
    assert chosen(wordings[:1] + wordings[2:], find) == "Neither."
    assert chosen((), find) == ""
    with pytest.raises(ValueError, match=r"no wording fits this scenario: methods\.rail\.overspan < 1, it is 3\.00"):
        chosen(wordings[:1], find)


def test_a_condition_on_a_step_that_is_not_part_of_the_calculation_does_not_hold() -> None:
    """Which steps there are depends on the load that governs; the next wording is said."""

    def without_snow(name: str) -> FigureValue:
        if name.endswith(".N_S"):
            raise MissingStepError("there is no figure 'N_S'")
        return find(name)

    wordings = Wordings().read([{"when": ["explain.rail.rib.N_S > 0 lb"], "say": "Snow."}, {"say": "Something."}])
    assert chosen(wordings, without_snow) == "Something."
    with pytest.raises(ValueError, match=r"no wording fits this scenario: .*N_S > 0 lb, there is no figure 'N_S'"):
        chosen(wordings[:1], without_snow)


def test_what_does_not_hold_is_named_with_its_figure() -> None:
    read = Conditions().read(["methods.rail.overspan < 1", "methods.rail.attachments > 1", "inputs.roof.kind is tin"])
    assert (
        not_holding(read, find) == "methods.rail.overspan < 1, it is 3.00; inputs.roof.kind is tin, it is standing seam"
    )
