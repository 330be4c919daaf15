"""The tables of others' figures in DEVELOPERS.md are what the tests note today, and every validation file has one."""

from __future__ import annotations

import subprocess
import sys

import pytest

from support import validation_page as verified


def test_the_tables_are_up_to_date() -> None:
    answer = subprocess.run([sys.executable, verified.__file__, "--check"], capture_output=True, text=True, check=False)
    assert answer.returncode == 0, answer.stdout[-500:] + answer.stderr[-500:]


@pytest.mark.parametrize("file", sorted(path.name for path in (verified.TESTS / "validation").glob("test_*.py")))
def test_every_validation_file_feeds_the_page(file: str) -> None:
    assert f"(tests/validation/{file})" in verified.PAGE.read_text(encoding="utf-8")
