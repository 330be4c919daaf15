"""A warning, caution or note."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Flag:
    """A code for programs, a severity ("note", "caution" or "warning") and a sentence for people."""

    code: str
    severity: str
    text: str
