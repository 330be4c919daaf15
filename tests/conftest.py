"""Fixtures."""

from __future__ import annotations

import pytest

from support import Tables, tables_of


@pytest.fixture
def kestrel() -> Tables:
    """The default scenario's tables."""
    return tables_of("kestrel_yard")
