"""Fixtures."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import settings

from support import Tables, tables_of
from tui.storage import user_state

settings.register_profile("thousands", max_examples=500)


@pytest.fixture(autouse=True)
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """No test reads or writes what is kept for the person at the keyboard."""
    folder = tmp_path / "kept"
    monkeypatch.setattr(user_state, "folder", lambda: folder)
    return folder


@pytest.fixture
def kestrel() -> Tables:
    """The default scenario's tables."""
    return tables_of("kestrel_yard")
