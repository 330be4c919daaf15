"""From the start page to the first comparison of one's own roof, key by key: at most 200 keys.

A house of 18 modules on a standing seam roof, and a hall of 96 modules with a skylight. Their figures are invented.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

import pytest
from textual.pilot import Pilot

from engine.units import FOOT
from support.opened_app import SIZES, settled
from support.terminal import PATIENCE, in_a_terminal
from tui.app.app import LoadpathApp
from tui.model.inputs import Inputs
from tui.screens.start import Start
from tui.storage import paths

pytestmark = pytest.mark.app

MOST_KEYS = 200
Typed = Sequence[str | list[str]]
NAMES = {
    " ": "space",
    ",": "comma",
    ".": "full_stop",
    ":": "colon",
    ">": "greater_than_sign",
    "\t": "tab",
    "\n": "enter",
}

SEQUENCES = {"right": "\x1b[C", "\n": "\r"}
"""What a terminal sends for keys that are no letters, arrows as in xterm."""

SAVED = b"S\x05\x15mine.toml\r"
"""Save as; to the end of the proposed name, and delete it; a name and enter."""

MODULE = (
    *("1722 mm\t", "1134 mm\t", "35 mm\t", "21 kg\t", "420\t"),
    *("t\t", "2400 Pa\t", "t\t", "5400 Pa\t"),
    *("250 mm,500 mm\t", "100 mm,861 mm\t"),
)
HOUSE = (
    *("\n", "115\t", "c\t", "30\t"),
    *("48\t", "32\t", "16\t", "5:12\t"),
    *("s\t", "16\t", "w\t", "2\t", "6 in\t"),
    *("300\t", "200\t", "s\t", "350\t", "\t"),
    *MODULE,
    *("3\t", "6\t", "6,3\t", ".5\t", "5\n", "c"),
)
HALL = (
    *("\n", "105\t", "c\t", "25\t"),
    *("160\t", "80\t", "24\t", "1:12\t"),
    *("s\t", "24\t", "p\t", "5\t", "6 in\t"),
    *("640\t", "440\t", "u\t", "80\t", "24\t", "5\t", "\t"),
    *MODULE,
    *("6\t", "16\t", "20,8\t", ".5\t", "5\n"),
    *("d", "o", "s", ["right"] * 3, "\n", "\n", "c"),
)


def keys_of(typed: Typed) -> list[str]:
    return [NAMES.get(key, key) for part in typed for key in part]


def bytes_of(typed: Typed) -> list[bytes]:
    """What a terminal sends, key by key."""
    return [SEQUENCES.get(key, key).encode() for part in typed for key in part]


async def press_all(pilot: Pilot[None], keys: Sequence[str]) -> None:
    for key in keys:
        await pilot.press(key)
    await settled(pilot)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize(("typed", "modules"), [(HOUSE, 18), (HALL, 96)], ids=["house", "hall"])
async def test_my_roof_is_compared_with_at_most_200_keys(
    typed: Typed,
    modules: int,
    size: tuple[int, int],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    example, keys = paths.bundled()[0], keys_of(typed)
    app = LoadpathApp(Inputs(example, example.read_text(encoding="utf-8")), starts=True)
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        assert isinstance(app.screen, Start)
        await press_all(pilot, keys)
        assert app.state.problems == ()
        comparison = app.state.comparison
        assert comparison is not None
        assert not app.state.is_stale
        job = comparison.scenario.job
        assert job.arrays[0].rows * job.arrays[0].columns == modules
        assert [area.name for area in job.keep_clear] == (["skylight"] if modules == 96 else [])
        assert job.building.length == pytest.approx((48 if modules == 18 else 160) * FOOT)
        assert len(comparison.columns) == 3
        assert [path.name for path in tmp_path.iterdir()] == ["kept"], "nothing is written that was not confirmed"
    assert len(keys) <= MOST_KEYS, len(keys)


@pytest.mark.skipif(sys.platform == "win32", reason="drives the real command through a pseudo-terminal")
@pytest.mark.parametrize(
    ("typed", "modules", "size"), [(HOUSE, 18, (80, 24)), (HALL, 96, (140, 45))], ids=["house", "hall"]
)
def test_the_same_keys_typed_into_a_terminal(typed: Typed, modules: int, size: tuple[int, int], tmp_path: Path) -> None:
    """`loadpath`, then every key as its bytes; the job is saved afterwards to see what was understood."""
    mine, keys = tmp_path / "mine.toml", bytes_of(typed)
    with in_a_terminal([sys.executable, "-m", "tui.cli.main"], tmp_path / "state", size, tmp_path) as terminal:
        terminal.patience = 5 * PATIENCE  # some 150 keys, each of them computed, on a machine that does other work
        terminal.read_until_seen(b"describe my roof")
        terminal.type(b"".join(keys) + SAVED)
        terminal.read_until(mine.exists)
        terminal.seen = b""
        terminal.type(b"g")  # the answer of each method, large
        terminal.read_until_seen(b"attachments")
    job = Inputs(mine, mine.read_text(encoding="utf-8")).scenario().job
    assert job.arrays[0].rows * job.arrays[0].columns == modules
    assert [area.name for area in job.keep_clear] == (["skylight"] if modules == 96 else [])
    assert len(keys) <= MOST_KEYS, len(keys)
