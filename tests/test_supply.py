"""What an installed loadpath brings with it: each library is loaded only where it is used, and is on the list."""

from __future__ import annotations

import json
import shlex
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement

from tui.cli.main import NAMES

ROOT = Path(__file__).parents[1]
HEAVY = {"textual", "rich", "pandas", "xlsxwriter", "ezdxf", "jinja2", "typst"}

LOADED: dict[str, tuple[str, set[str]]] = {
    "open": ("", set()),  # without a terminal
    "compare": ("sparrow_lane", {"rich"}),
    "check": ("sparrow_lane", set()),
    "new": ("", set()),
    "quick": (
        "modules=9 seams='24 in' purlins='5 ft' slope=1:12 height='24 ft' wind='105 mph' exposure=B snow='25 psf'",
        {"rich"},
    ),
    "study": ("sparrow_lane --method direct", {"rich"}),
    "headroom": ("sparrow_lane --method direct", {"rich"}),
    "sensitivity": ("finch_shed --method direct", {"rich"}),
    "ways": ("sparrow_lane --method direct", {"rich"}),
    "place": ("sparrow_lane --method direct", {"rich"}),
    "parts": ("", set()),
    "schema": ("scenario", set()),
    "explain": ("sparrow_lane --method direct", set()),
    "export": ("sparrow_lane {folder} --method direct", HEAVY - {"textual", "rich"}),
    "scenarios": ("", {"rich"}),
    "lesson": ("rail_span", set()),  # without a terminal
    "handout": ("rail_span", {"jinja2", "pandas"}),
    "lessons": ("", {"rich"}),
}
"""Command → an example of it, and the heavy libraries that it needs: rich prints text, the others make files."""


@pytest.mark.parametrize("command", NAMES)
def test_a_command_loads_only_the_libraries_that_it_uses(command: str, tmp_path: Path) -> None:
    """In a cold interpreter; a new command must be added above."""
    example, needed = LOADED[command]
    arguments = [command, *shlex.split(example.format(folder=tmp_path / "out"))]
    program = (
        f"import json, sys; from tui.cli.main import main\nmain({arguments})\n"
        f"print(json.dumps([each for each in {sorted(HEAVY)} if each in sys.modules]), file=sys.stderr)"
    )
    answer = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, stdin=subprocess.DEVNULL
    )
    assert set(json.loads(answer.stderr.splitlines()[-1])) == needed, answer.stderr


def test_every_library_is_on_the_list_of_dependencies() -> None:
    """`tests/tools/dependencies.py` writes it."""
    written = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["dependencies"]
    page = (ROOT / ".docs" / "dependencies.md").read_text(encoding="utf-8")
    rows = {row.split(" | ")[0].removeprefix("| "): row for row in page.splitlines() if row.startswith("| ")}
    for name in (Requirement(each).name for each in written):
        assert "loadpath" in rows[name].rpartition(" | ")[2]
        assert "not stated" not in rows[name]
