"""The best of a row, on figures made up for it."""

from __future__ import annotations

from typing import Literal

import pytest

from engine.comparison.compare import Column
from engine.comparison.figure import Figure, Value, words
from engine.design.status import Status

Better = Literal["less", "more", ""]
COLUMNS = tuple(Column(name, name, Status.HOLDS, ()) for name in ("one", "two", "three"))


def row(values: tuple[Value, ...], better: Better, limit: float | None = None, *, stated: bool = True) -> Figure:
    of = dict(zip(COLUMNS, values, strict=True))
    return Figure(
        "made_up",
        "made up",
        words("made up"),
        words("made up"),
        "ratio",
        value=of.__getitem__,
        limit=limit,
        better=better,
        is_stated=lambda column: stated or column is COLUMNS[0],
    )


@pytest.mark.parametrize(
    ("values", "better", "limit", "expected"),
    [
        ((0.5, 0.7, 0.6), "less", None, {"one"}),
        ((0.5, 0.7, 0.6), "more", None, {"two"}),
        ((0.5, 0.7, 0.6), "", None, set()),
        ((0.5, 0.501, 0.6), "less", None, {"one", "two"}),  # both are shown as 0.50
        ((0.5, 0.501, 0.502), "less", None, set()),  # all are shown as 0.50
        ((None, 0.7, 0.6), "less", None, {"three"}),
        ((None, 0.7, "not checked"), "less", None, set()),  # nothing to compare with
        ((1.2, 1.1, 0.9), "less", 1.0, {"three"}),
        ((1.2, 1.1, 1.3), "less", 1.0, set()),  # what is over is not best
    ],
)
def test_the_best(values: tuple[Value, ...], better: Better, limit: float | None, expected: set[str]) -> None:
    assert row(values, better, limit).best(COLUMNS, "us") == expected


def test_placeholders_have_no_best() -> None:
    assert row((0.5, 0.7, 0.6), "less", stated=False).best(COLUMNS, "us") == frozenset()
