"""Progress in words and as a bar: what is done, and how much remains."""

from __future__ import annotations

import pytest

from engine.common.progress import counted, part_of
from tui.render.progress import LENGTH, progress


def test_each_message_is_about_the_next_part() -> None:
    heard: list[str] = []
    tell = counted(heard.append, 3)
    for words in ("rails", "rack"):
        tell(words)
    part_of(heard.append, 3, 3)("modules on seams")
    assert heard == ["1 of 3: rails", "2 of 3: rack", "3 of 3: modules on seams"]


@pytest.mark.parametrize(("number", "total", "filled"), [(1, 10, 0), (6, 10, LENGTH // 2), (10, 10, LENGTH * 9 // 10)])
def test_the_bar_is_as_long_as_what_is_done(number: int, total: int, filled: int) -> None:
    drawn = progress(f"{number} of {total}: rails, wind speed").plain
    assert drawn.count("█") == filled
    assert drawn.count("█") + drawn.count("░") == LENGTH
    assert f"{number - 1} of {total} done, now rails, wind speed" in drawn
    assert drawn.endswith("esc stops")


def test_words_without_a_count_are_shown_as_they_are() -> None:
    assert progress("rails").plain == "computing … rails   esc stops"
