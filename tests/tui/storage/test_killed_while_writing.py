"""The process is killed at every step of writing: every file is the old one or the new one, never half."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

KILLED = Path(__file__).parents[2] / "tools" / "killed_while_writing.py"


@pytest.mark.skipif(not hasattr(os, "fork"), reason="each step is a forked child")
@pytest.mark.parametrize(
    ("way", "whole"),
    [("all_at_once", ["old", "new"]), ("part_by_part", ["old", "new"]), ("line_by_line", ["old", "a part", "all"])],
)
def test_old_or_new_never_half(way: str, whole: list[str], tmp_path: Path) -> None:
    answer = subprocess.run([sys.executable, KILLED, tmp_path, way], capture_output=True, text=True, check=True)
    states = json.loads(answer.stdout)
    assert len(states) > 20, "every line of the writer is a step"
    assert states[0] == [whole[0], whole[0]]
    assert states[-1] == [whole[-1], whole[-1]]
    for first, second in states:
        assert first in whole
        assert second in whole
    for before, after in zip(states, states[1:], strict=False):
        assert [whole.index(each) for each in before] <= [whole.index(each) for each in after], "nothing goes back"
    others = {path.name for path in tmp_path.iterdir()} - {"first.toml", "second.toml"}
    assert all(name.startswith((".first.toml.", ".second.toml.")) for name in others), (
        "at most hidden temporaries are left"
    )
