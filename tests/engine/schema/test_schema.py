"""What a field accepts, and how it complains: one sentence that says what was given and what is allowed."""

from __future__ import annotations

from typing import Annotated

import pytest
from pydantic import ValidationError

from engine.schema import (
    Choice,
    Count,
    FieldType,
    InputTable,
    LengthRange,
    Lengths,
    Number,
    Quantity,
    Switch,
    TextLine,
    input_field,
)
from engine.strength.pull_tests import PullList
from engine.strength.sheet_gauge import Thickness

SPACING = Quantity("length", "3 in", "4 ft")


@pytest.mark.parametrize(
    ("kind", "written", "value"),
    [
        (SPACING, "24 in", 0.6096),
        (SPACING, "3 in", 0.0762),
        (Quantity("length"), "-5 ft", -1.524),
        (Number(0, 2), 1, 1.0),
        (Number(0, 2), 2.0, 2.0),
        (Count(1, 3), 3, 3),
        (Choice(("yes", "no")), "no", "no"),
        (TextLine(5), "Köln", "Köln"),
        (Switch(), False, False),
        (LengthRange(), ["1 in", "1 ft"], (0.0254, 0.3048)),
        (LengthRange(ordered=False), ("1 ft", "1 in"), (0.3048, 0.0254)),
        (Lengths(), "10 ft", (3.048,)),
        (Lengths(), ["10 ft", "20 ft"], (3.048, 6.096)),
        (Lengths(), "10 ft, 20 ft", (3.048, 6.096)),
    ],
)
def test_what_is_read(kind: FieldType, written: object, value: object) -> None:
    assert kind.read(written) == pytest.approx(value)


@pytest.mark.parametrize(
    ("kind", "written", "sentence"),
    [
        (SPACING, "2 in", "'2 in' given; allowed is 3 in to 4 ft"),
        (SPACING, "5 ft", "'5 ft' given; allowed is 3 in to 4 ft"),
        (SPACING, 24, "24 given; write a length as text with its unit, such as '5 ft', '16 in' or '1.2 m'"),
        (SPACING, True, "true given; write a length as text"),
        (SPACING, None, "None given; write a length as text"),
        (SPACING, {"ft": 2}, "a table given; write a length as text"),
        (SPACING, "24", "'24' given; write a length with its unit"),
        (SPACING, "24 psf", "'24 psf' given; write a length with its unit"),
        (Quantity("angle", "0 deg", "45 deg"), 4.8, "4.8 given; write an angle as text"),
        (Quantity("force", "1 lb"), "0 lb", "'0 lb' given; allowed is at least 1 lb"),
        (Quantity("force", high="1 lb"), "2 lb", "'2 lb' given; allowed is at most 1 lb"),
        (Number(0.5, 2), 0.4, "0.4 given; allowed is 0.5 to 2"),
        (Number(0, 2), float("nan"), "nan given; allowed is 0 to 2"),
        (Number(0, 2), float("inf"), "inf given; allowed is 0 to 2"),
        (Number(0, 2), 10**400, "given; allowed is 0 to 2"),
        (Number(0, 2), "1", "'1' given; write a number from 0 to 2"),
        (Number(0, 2), True, "true given; write a number from 0 to 2"),
        (Count(1, 3), 4, "4 given; allowed is 1 to 3"),
        (Count(1, 3), 2.0, "2.0 given; write a whole number from 1 to 3"),
        (Count(1, 3), False, "false given; write a whole number from 1 to 3"),
        (Switch(), "true", "'true' given; allowed is true or false, without quotes"),
        (Switch(), 1, "1 given; allowed is true or false, without quotes"),
        (Choice(("yes", "no")), "maybe", "'maybe' given; allowed is 'yes' or 'no'"),
        (Choice(("yes", "no")), ["yes"], "['yes'] given; allowed is 'yes' or 'no'"),
        (Choice(("yes", "no")), True, "true given; allowed is 'yes' or 'no'"),
        (TextLine(5), "longer", "6 characters given; allowed are 5"),
        (TextLine(5), 5, "5 given; write a line of text in quotes"),
        (TextLine(5), "a\nb", "line break given; write one line of plain text"),
        (TextLine(5), "\x1b[2J", "control character or line break given"),
        (Lengths(), 25, "25 given; write a length or a list of lengths, such as"),
        (Lengths(), [], "[] given; write a length or a list of lengths"),
        (Lengths(), ["25 ft", 25], "25 given; write a length as text"),
        (Lengths(), "25 ft, 6 in", "'6 in' given; allowed is 1 ft to 100 ft"),
        (LengthRange(), "1 in", "'1 in' given; write two lengths, such as"),
        (LengthRange(), ["1 in"], "write two lengths"),
        (LengthRange(), ["1 in", 2], "2 given; write a length as text"),
        (LengthRange(), ["1 in", "1 in"], "the second length must be larger than the first"),
        (LengthRange(), ["-1 in", "1 in"], "'-1 in' given; allowed is 0 mm to 10000 ft"),
        (
            Thickness(),
            "17 ga",
            "'17 ga' given; allowed is 29 ga, 26 ga, 24 ga, 22 ga, 20 ga, 18 ga, 16 ga, 14 ga, 12 ga, or a thickness",
        ),
        (Thickness(), 16, "'16' given; allowed is 29 ga"),
        (Thickness(), "1 in", "'1 in' given; allowed is 0.01 in to 0.5 in"),
        (PullList(), "500 lb", "no list of pulls given; at least three are needed"),
        (PullList(), ["500 lb"] * 2, "2 pulls given; at least three are needed"),
        (PullList(), ["500 lb", 500, "500 lb"], "500 given; write a force as text"),
    ],
)
def test_the_sentence_of_a_refusal(kind: FieldType, written: object, sentence: str) -> None:
    with pytest.raises(ValueError, match="given") as refused:
        kind.read(written)
    assert sentence in str(refused.value)


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (SPACING, "3 in to 4 ft"),
        (Quantity("force", "1 lb"), "at least 1 lb"),
        (Quantity("force", high="1 lb"), "at most 1 lb"),
        (Quantity("force"), "any force"),
        (LengthRange(), "two lengths, 0 mm to 10000 ft, the second larger"),
        (Lengths(), "one length or several, 1 ft to 100 ft each"),
        (TextLine(5), "up to 5 characters"),
    ],
)
def test_what_is_allowed_in_words(kind: FieldType, words: str) -> None:
    assert kind.allowed == words


@pytest.mark.parametrize(
    "kind",
    [
        SPACING,
        Number(0, 2),
        Count(1, 3),
        Choice(("a", "b")),
        TextLine(5),
        LengthRange(),
        Lengths(),
        Thickness(),
        PullList(),
    ],
)
def test_a_refusal_is_short_whatever_was_given(kind: FieldType) -> None:
    for written in ("x" * 10_000, ["x"] * 10_000, {"x": "y" * 10_000}, object):
        with pytest.raises(ValueError, match="given") as refused:
            kind.read(written)
        assert len(str(refused.value)) < 250
        assert "\n" not in str(refused.value)


@pytest.mark.parametrize("feet", range(1, 60))
def test_a_bound_may_be_written_in_any_unit(feet: int) -> None:
    """Twelve inches are a foot, and 304.8 mm too, though the last bit of the product may differ."""
    exactly = Quantity("length", f"{feet} ft", f"{feet} ft")
    for written in (f"{12 * feet} in", f"{304.8 * feet:.1f} mm", f"{feet}'-0\""):
        assert exactly.read(written) == pytest.approx(0.3048 * feet)


class Gutter(InputTable):
    """A table as the scenario's are."""

    width: Annotated[float, SPACING] = input_field(description="across")
    colour: Annotated[str, Choice(("grey", "white"))] = input_field("grey", description="what one sees")
    length: Annotated[float, Quantity("length")] | None = input_field(None, description="along")


def test_a_table_reports_every_problem_at_once() -> None:
    with pytest.raises(ValidationError) as refused:
        Gutter.model_validate({"width": "5 ft", "colour": "red", "depth": "1 in"})
    found = {error["loc"]: (error["type"], error["msg"]) for error in refused.value.errors()}
    assert found[("width",)] == ("loadpath", "'5 ft' given; allowed is 3 in to 4 ft")
    assert found[("colour",)] == ("loadpath", "'red' given; allowed is 'grey' or 'white'")
    assert found[("depth",)][0] == "extra_forbidden"


def test_a_table_is_frozen_and_reads_its_defaults_as_written() -> None:
    gutter = Gutter.model_validate({"width": "5 in"})
    assert gutter.colour == "grey"
    assert gutter.length is None
    with pytest.raises(ValidationError):
        gutter.width = 1.0  # type: ignore[misc]
