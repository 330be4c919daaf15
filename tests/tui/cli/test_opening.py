"""The first screen: it comes before all that takes long to load, and is gone where the app cannot be opened."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from support.terminal import in_a_terminal
from tui.model.exit_codes import Exit
from tui.model.terminal import FORMER_SCREEN, OTHER_SCREEN

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="drives the real command through a pseudo-terminal")

OPENING = b"loadpath is opening"


@pytest.mark.parametrize("arguments", [["open", "sparrow_lane"], ["lesson", "how_often"]])
def test_a_first_screen_comes_before_the_engine_and_the_framework(arguments: list[str], tmp_path: Path) -> None:
    """Python lists every import as soon as it is done, on the same terminal."""
    command = [sys.executable, "-X", "importtime", "-m", "tui.cli.main", *arguments]
    with in_a_terminal(command, tmp_path) as terminal:
        terminal.read_until_seen(OPENING, b" numpy", b" textual.app", b" engine.scenario.read")
    before = terminal.seen.partition(OPENING)[0]
    assert b" argparse" in before
    for heavy in (b" numpy", b" textual.app", b" engine.scenario.read"):
        assert heavy not in before


@pytest.mark.parametrize("arguments", [["open", "nowhere.toml"], ["lesson", "nowhere"]])
def test_the_former_screen_is_back_before_a_message(arguments: list[str], tmp_path: Path) -> None:
    with in_a_terminal([sys.executable, "-m", "tui.cli.main", *arguments], tmp_path) as terminal:
        assert terminal.read_until_ended() == Exit.WRONG_INPUT
    shown = terminal.seen.decode()
    assert OTHER_SCREEN in shown
    assert "nowhere" in shown.partition(FORMER_SCREEN)[2]
    assert "nowhere" not in shown.partition(FORMER_SCREEN)[0]
