"""The figures as lines: columns stay apart at every width, and the best of a row is marked by a sign."""

from __future__ import annotations

from functools import cache

import pytest

from engine.comparison.compare import Comparison, compare
from engine.comparison.figure import UTILISATION
from engine.comparison.figures import table_figures
from engine.units import in_one
from support import scenario_of
from tui.render.comparison import LABEL, MAX_CELL, MIN_CELL, draw, folded_to_fit, groups, marked, verdicts
from tui.render.notes import notes, warnings
from tui.render.styles import BEST, PLACEHOLDER

WIDTHS = [LABEL + 3 * MIN_CELL, 70, 77, 90, 120, 200]


@cache
def compared(scenario: str) -> Comparison:
    return compare(scenario_of(scenario))


@pytest.mark.parametrize("scenario", ["kestrel_yard", "finch_shed", "plover_terrace"])
@pytest.mark.parametrize("width", WIDTHS)
def test_columns_never_run_together(scenario: str, width: int) -> None:
    sheet = draw(compared(scenario), None, "si", width, with_notes=False)
    cell = min(MAX_CELL, (width - LABEL) // 3)
    rows = [line.plain for line in sheet.lines[1:] if not line.plain.startswith("▾")]
    for line in rows:
        assert len(line) <= width
        assert [line[LABEL + number * cell] for number in range(3)] == [" "] * 3, line
        assert line[LABEL - 1] == " "


@pytest.mark.parametrize(("width", "lines"), [(40, [1, 1, 1]), (78, [2, 1]), (120, [3])])
def test_no_verdict_is_divided_between_two_lines(width: int, lines: list[int]) -> None:
    """Wren Workshop: at 80 columns the third one, which is close, has no room beside the others."""
    shown = verdicts(compared("wren_workshop"), width).plain.split("\n")
    assert [line.count(" · ") + 1 for line in shown] == lines
    assert shown[-1].endswith("modules on ribs INCOMPLETE 0.97, close")
    assert max(map(len, shown)) <= width


def test_the_best_of_a_row_is_marked_and_only_that() -> None:
    answer = compared("kestrel_yard")
    sheet = draw(answer, None, "us", 120, with_notes=False)
    for entry in sheet.entries:
        assert entry.figure is not None
        line = sheet.lines[entry.line].plain
        assert line.count(BEST) == len(entry.figure.best(answer.columns, "us")), entry.figure.key
        assert (PLACEHOLDER in line) == (not all(map(entry.figure.is_stated, answer.columns)))


def test_folded_groups_keep_their_names_and_every_entry_is_on_its_line() -> None:
    answer, folded = compared("kestrel_yard"), frozenset(groups()[::2])
    sheet = draw(answer, None, "us", 100, folded=folded)
    for entry in sheet.entries:
        words = entry.figure.label(answer.scenario.job) if entry.figure else f"▸ {entry.group}"
        assert sheet.lines[entry.line].plain.startswith(words[: LABEL - 9])
    shown = [entry.figure.key for entry in sheet.entries if entry.figure]
    assert shown == [row.key for row in table_figures() if row.group not in folded]
    assert {entry.group for entry in sheet.entries if not entry.figure} == folded


@pytest.mark.parametrize("height", [10, 22, 30, 40, 80])
def test_groups_are_open_as_long_as_there_is_room(height: int) -> None:
    answer = compared("kestrel_yard")
    folded = folded_to_fit(answer, "us", 120, height)
    rows = len(draw(answer, None, "us", 120, folded=folded, with_notes=False).lines)
    assert UTILISATION not in folded
    assert rows <= height or folded == frozenset(groups()) - {UTILISATION}
    for group in folded:
        assert len(draw(answer, None, "us", 120, folded=folded - {group}, with_notes=False).lines) > height


def test_the_entry_in_focus_is_reversed_and_nothing_else_changes() -> None:
    answer = compared("kestrel_yard")
    sheet = draw(answer, None, "us", 100, folded=frozenset(groups()[:1]))
    for number in range(len(sheet.entries)):
        lines = marked(sheet, number, "direct", answer, "us", 100)
        assert [line.plain for line in lines] == [line.plain for line in sheet.lines]
        changed = [line for line, before in zip(lines, sheet.lines, strict=True) if not line.is_same(before)]
        assert changed
        assert all("reverse" in str(line.spans) or "bold" in str(line.spans) for line in changed)


def test_what_all_methods_are_told_is_said_once() -> None:
    answer = compared("kestrel_yard")
    words = " ".join(" ".join(line.plain for line in notes(answer, 60, "us")).split())
    for column in answer.columns:
        for flag in column.flags:
            in_all = all(flag.text in [each.text for each in other.flags] for other in answer.columns)
            told = in_one(flag.text, "us")
            assert told in words
            assert words.count(told) == 1 or not in_all, told


@pytest.mark.parametrize(
    ("scenario", "count"),
    [("kestrel_yard", "1 warning"), ("magpie_annex", "3 warnings"), ("plover_terrace", "2 warnings")],
)
def test_warnings_are_counted(scenario: str, count: str) -> None:
    assert warnings(compared(scenario)) == count
