"""One thing that must not be missed."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Flag:
    """A code for machines, a severity ("note", "caution", "warning") and a sentence for people."""

    code: str
    severity: str
    text: str
