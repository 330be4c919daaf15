"""Keys of one's own: read, checked, and shown as they are bound."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine.common.errors import InputError
from tui.app.app import ALL_COMMANDS
from tui.model.commands import COMMANDS, Command
from tui.model.keymap import Keymap, load_keymap, read_keymap


def command(name: str) -> Command:
    return next(command for command in ALL_COMMANDS if command.id == name)


def test_every_command_has_an_id_of_its_own_and_one_meaning() -> None:
    ids = [command.id for command in COMMANDS]
    assert len(ids) == len(set(ids))
    for one in ALL_COMMANDS:
        assert {one} == {other for other in ALL_COMMANDS if other.id == one.id}


def test_no_two_commands_of_the_app_share_a_key() -> None:
    keys = [key for command in COMMANDS for key in command.keys]
    assert len(keys) == len(set(keys))


def test_the_defaults_are_a_valid_keymap_unless_enter_is_in_it() -> None:
    for one in COMMANDS:
        written = one.key.replace(",", " ")
        assert read_keymap({one.id: written}, COMMANDS).keys_of(one) == one.keys


def test_keys_are_shown_as_they_are_bound() -> None:
    keymap = read_keymap({"undo": "ctrl+z", "help": "f1 ?", "find": "ctrl+f"}, ALL_COMMANDS)
    assert keymap.shown(command("undo")) == "^z"
    assert keymap.shown(command("help")) == "f1 ?"
    assert keymap.shown(command("redo")) == "y"
    assert keymap.shown(command("quit")) == "q ^q"
    assert keymap.for_textual() == {"undo": "ctrl+z", "help": "f1,question_mark", "find": "ctrl+f"}


def test_two_commands_can_exchange_their_keys() -> None:
    keymap = read_keymap({"undo": "y", "redo": "z"}, ALL_COMMANDS)
    assert keymap.changed == {"undo": ("y",), "redo": ("z",)}


@pytest.mark.parametrize(
    ("table", "sentence"),
    [
        ({"undoo": "x"}, "undoo: no such command; the nearest is 'undo'"),
        ({"undo": 5}, "undo: '5' is not a key"),
        ({"undo": ""}, "undo: '' is not a key"),
        ({"undo": "hyperspace"}, "undo: 'hyperspace' is not a key"),
        ({"undo": "escape"}, "undo: 'escape' is not a key"),
        ({"undo": "y"}, "undo: 'y' is also the key of 'redo'; choose another"),
        ({"undo": "ctrl+z", "save": "ctrl+z"}, "undo: '^z' is also the key of 'save'"),
        ({"attachment_after": "h"}, "attachment_after: 'h' is also the key of 'headroom'"),
        ({"undo": {"key": "z"}}, "is not a key"),
    ],
)
def test_a_wrong_file_is_refused_in_one_sentence(table: dict[str, object], sentence: str) -> None:
    with pytest.raises(InputError) as refusal:
        read_keymap(table, ALL_COMMANDS)
    assert sentence in str(refusal.value)
    assert "\n" not in str(refusal.value)


def test_without_a_file_the_defaults_apply(tmp_path: Path) -> None:
    assert load_keymap(tmp_path / "keys.toml", ALL_COMMANDS) == Keymap()
    (tmp_path / "keys.toml").write_text("undo = ", encoding="utf-8")
    with pytest.raises(InputError, match="not TOML"):
        load_keymap(tmp_path / "keys.toml", ALL_COMMANDS)
