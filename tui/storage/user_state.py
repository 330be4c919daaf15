"""What is kept between sessions in the user's own folder: recent files, how the bench is looked at, what was not saved.

Nothing here may ever stand in the way of work: where the folder cannot be written, nothing is kept, and what is
broken in it is as good as not there.
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

MOST_RECENT = 8
DARK, LIGHT = "textual-dark", "textual-light"


def folder() -> Path:
    """Where things are kept."""
    return platformdirs.user_state_path("loadpath", appauthor=False)


def recent() -> list[Path]:
    """Files opened or saved lately that are still there, the latest first."""
    return [path for path in _listed() if _is_there(path)][:MOST_RECENT]


def remember(path: Path) -> None:
    """Put a file first among the recent ones; bundled scenarios are listed anyway."""
    path = path.resolve()
    if not paths.is_bundled(path):
        others = [other for other in _listed() if other != path]
        write(folder() / "recent.toml", {"files": [str(each) for each in [path, *others][:MOST_RECENT]]})


def _is_there(path: Path) -> bool:
    """Whether a file is there; one that cannot be looked at is not."""
    try:
        return path.is_file()
    except OSError:
        return False


def _listed() -> list[Path]:
    names = read(folder() / "recent.toml").get("files")
    return [Path(name) for name in names if isinstance(name, str)] if isinstance(names, list) else []


@dataclass(frozen=True)
class Looks:
    """How somebody looks at the bench: in which units, and dark or light."""

    system: System = "us"
    theme: str = DARK


def looks() -> Looks:
    """How the bench was looked at last."""
    found = read(folder() / "looks.toml")
    return Looks("si" if found.get("system") == "si" else "us", LIGHT if found.get("theme") == LIGHT else DARK)


def keep(looks: Looks) -> None:
    """Look at the bench in the same way next time."""
    write(folder() / "looks.toml", asdict(looks))


def read(path: Path) -> dict[str, Any]:
    """What stands in a file; nothing where it cannot be read."""
    try:
        return paths.parse(paths.read_text(path), path.name) if path.is_file() else {}
    except (InputError, OSError):
        return {}


def write(path: Path, kept: Mapping[str, Any]) -> bool:
    """Replace a file, whole; whether that could be done."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        atomic_write.write_text(path, tomlkit.dumps(kept), overwrite=True)
    except (InputError, OSError):
        return False
    return True


def remove(path: Path) -> None:
    """Remove a file, where there is one."""
    with suppress(OSError):
        path.unlink(missing_ok=True)
