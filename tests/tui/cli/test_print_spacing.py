"""The spacing study as text: the figures of its JSON record, in as many tables as the width needs."""

from __future__ import annotations

import re

import pytest

from engine.studies.record import spacing_record
from engine.studies.spacing import SpacingStudy, study
from support import scenario_of
from tui.cli.print_spacing import spacing_parts
from tui.render.plain_text import plain_text


@pytest.fixture(scope="module")
def studies() -> tuple[SpacingStudy, ...]:
    return study(scenario_of())


@pytest.mark.parametrize("width", [160, 100, 80, 40])
def test_the_text_and_the_record_say_the_same(studies: tuple[SpacingStudy, ...], width: int) -> None:
    written = plain_text(*spacing_parts(studies, "us", width), width=width)
    assert max(map(len, written.splitlines())) <= width
    assert "clip fails first at: every seam" in " ".join(written.split())
    for plain, each in zip(spacing_record(studies), studies, strict=True):
        assert [row["attachments"] for row in plain["spacings"]] == [row.attachments for row in each.rows]
        for row in each.rows:
            for check in row.checks.values():
                if check.utilisation is not None:
                    assert f"{check.utilisation:.2f}" in written


def test_long_words_of_a_spacing_go_on_below_and_run_into_no_neighbour() -> None:
    (rail,) = study(scenario_of(methods__rail__rail_place="toward eave"), ("rail",))
    written = plain_text(*spacing_parts([rail], "us", 80), width=80)
    table, spans = written[written.index("\nspacing ") + 1 :].split("longest span", 1)
    ends = [12 + found.end() for found in re.finditer(r"[\d.]+ ft", spans.splitlines()[0])]
    columns = [
        [line[start:end] for line in table.splitlines()] for start, end in zip([12, *ends[:-1]], ends, strict=True)
    ]
    assert [" ".join(" ".join(cells).split()) for cells in columns] == [
        row.label.removeprefix("every ") for row in rail.rows[: len(columns)]
    ]
    assert all(cell[:1] in ("", " ") for cells in columns for cell in cells)
    assert max(map(len, written.splitlines())) <= 80
