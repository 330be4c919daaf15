"""DEVELOPERS.md names every module of the engine and of the front ends, each once."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


def rooms(heading: str) -> list[str]:
    """What stands between backticks in the table of that heading."""
    table = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split(f"| {heading} |", 1)[1].split("\n\n", 1)[0]
    return re.findall(r"`([^`]+)`", table)


@pytest.mark.parametrize(("folder", "heading"), [("engine", "the engine"), ("tui", "the front ends")])
def test_every_module_stands_in_the_table_once(folder: str, heading: str) -> None:
    modules = [path.stem for path in (ROOT / folder).glob("*.py") if path.stem != "__init__"]
    packages = [f"{path.parent.name}/" for path in (ROOT / folder).glob("*/__init__.py")]
    assert sorted(rooms(heading)) == sorted(modules + packages)
