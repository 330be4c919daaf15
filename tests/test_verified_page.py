"""The table of printed figures in DEVELOPERS.md is what the tests note today."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path


def test_the_table_is_up_to_date() -> None:
    answer = subprocess.run([sys.executable, Path(__file__).parent / "verified.py", "--check"], capture_output=True, text=True, check=False)
    assert answer.returncode == 0, answer.stdout[-500:] + answer.stderr[-500:]
