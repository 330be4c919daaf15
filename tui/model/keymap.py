"""Keys that the user has changed: read from a file, checked, and written as people read them."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from engine.common.errors import InputError, Problem
from engine.units import quoted
from tui.model.commands import KEY_SIGNS, Command
from tui.storage import paths

KEY_NAMES = {sign: name for name, sign in KEY_SIGNS.items()}

_NAMED = "f[1-9]|f1[0-9]|f2[0-4]|home|end|pageup|pagedown|insert|delete|backspace|space|up|down|left|right"
_KEY = re.compile(rf"((ctrl|alt|shift|super|meta|hyper)\+)*([^\s+,]|{_NAMED}|{'|'.join(KEY_SIGNS)})")
"""A key with its modifiers. Enter, escape and tab are not in it: fields and dialogs need them."""


@dataclass(frozen=True)
class Keymap:
    """The keys that differ from the defaults, by command id."""

    changed: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def keys_of(self, command: Command) -> tuple[str, ...]:
        """The keys a command is bound to."""
        return self.changed.get(command.id, command.keys)

    def shown(self, command: Command) -> str:
        """The keys of a command as the screen shows them."""
        return " ".join(key_sign(key) for key in self.keys_of(command))

    def for_textual(self) -> dict[str, str]:
        """Keys by binding id, with commas between."""
        return {command: ",".join(keys) for command, keys in self.changed.items()}


def key_sign(key: str) -> str:
    """A key as the screen shows it: "^z" for "ctrl+z"."""
    return KEY_SIGNS.get(key, key.replace("ctrl+", "^"))


def read_keymap(table: Mapping[str, Any], commands: Sequence[Command]) -> Keymap:
    """The keymap of a file's table: `undo = "ctrl+z"`, several keys with spaces between.

    Raises:
        InputError: a command is unknown, a key is unknown, or two commands share a key.
    """
    keymap = Keymap({name: _keys(name, value, commands) for name, value in table.items()})
    for name, keys in keymap.changed.items():
        for other in commands:
            if other.id != name and (shared := set(keys) & set(keymap.keys_of(other))):
                sentence = f"{quoted(key_sign(min(shared)))} is also the key of {quoted(other.id)}; choose another"
                raise InputError([Problem(name, sentence)])
    return keymap


def _keys(name: str, value: Any, commands: Sequence[Command]) -> tuple[str, ...]:
    names = [command.id for command in commands]
    if name not in names:
        near = difflib.get_close_matches(name, names, 1)
        raise InputError([Problem(name, f"no such command{f'; the nearest is {quoted(near[0])}' if near else ''}")])
    keys = tuple(KEY_NAMES.get(key, key) for key in value.split()) if isinstance(value, str) else ()
    if not keys or not all(_KEY.fullmatch(key) for key in keys):
        raise InputError([Problem(name, f'{quoted(str(value))} is not a key; write "z", "ctrl+z" or "f5"')])
    return keys


def load_keymap(path: Path, commands: Sequence[Command]) -> Keymap:
    """The user's keymap; the defaults if there is no file.

    Raises:
        InputError: the file is wrong.
    """
    if not path.is_file():
        return Keymap()
    return read_keymap(paths.parse(paths.read_text(path), path.name), commands)
