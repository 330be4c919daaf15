"""The user's own folder: recent files, display settings, keys and unsaved work.

Nothing here may stop work: if the folder cannot be written, nothing is kept; a broken file counts as absent.
"""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import platformdirs
import tomlkit

from engine.common.errors import InputError
from engine.units import System
from tui.storage import atomic_write, paths

MAX_RECENT = 8
DARK, LIGHT = "loadpath-dark", "loadpath-light"
LIGHT_BEFORE = "textual-light"
"""The name of the light theme in settings that were kept by earlier versions."""


def folder() -> Path:
    """The folder."""
    return platformdirs.user_state_path("loadpath", appauthor=False)


def keys_file() -> Path:
    """The file in which users change keys."""
    return folder() / "keys.toml"


def recent() -> list[Path]:
    """Files opened or saved lately that still exist, the latest first."""
    return [path for path in _listed() if _is_file(path)][:MAX_RECENT]


def add_recent(path: Path) -> None:
    """Put a file first among the recent ones; bundled scenarios are always listed."""
    path = path.resolve()
    if not paths.is_bundled(path):
        others = [other for other in _listed() if other != path]
        write(folder() / "recent.toml", {"files": [str(each) for each in [path, *others][:MAX_RECENT]]})


def _is_file(path: Path) -> bool:
    """True if the file exists and can be accessed."""
    try:
        return path.is_file()
    except OSError:
        return False


def _listed() -> list[Path]:
    names = read(folder() / "recent.toml").get("files")
    return [Path(name) for name in names if isinstance(name, str)] if isinstance(names, list) else []


@dataclass(frozen=True)
class DisplaySettings:
    """Units and theme of the screens; `system` is None until the user has chosen units."""

    system: System | None = None
    theme: str = DARK


def display_settings() -> DisplaySettings:
    """The settings used last."""
    found = read(folder() / "display.toml")
    system, is_light = found.get("system"), found.get("theme") in (LIGHT, LIGHT_BEFORE)
    return DisplaySettings(system if system in ("si", "us") else None, LIGHT if is_light else DARK)


def save_display_settings(settings: DisplaySettings) -> None:
    """Use the same settings next time."""
    write(folder() / "display.toml", {name: value for name, value in asdict(settings).items() if value is not None})


def read(path: Path) -> dict[str, Any]:
    """Content of a TOML file; empty if it cannot be read."""
    try:
        return paths.parse(paths.read_text(path), path.name) if path.is_file() else {}
    except (InputError, OSError):
        return {}


def write(path: Path, content: Mapping[str, Any]) -> bool:
    """Replace a TOML file as a whole; False if it cannot be written."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        atomic_write.write_text(path, tomlkit.dumps(content), overwrite=True)
    except (InputError, OSError):
        return False
    return True


def remove(path: Path) -> None:
    """Remove a file, if there is one."""
    with suppress(OSError):
        path.unlink(missing_ok=True)
