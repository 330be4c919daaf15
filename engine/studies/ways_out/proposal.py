"""A proposed change of a scenario."""

from __future__ import annotations

from dataclasses import dataclass

from engine.scenario.changes import Changes


@dataclass(frozen=True)
class Proposal:
    """A change in words, and as values of the scenario's file by their paths.

    `names_spacing`: the words end with the spacing that comes of it.
    """

    text: str
    changes: Changes
    names_spacing: bool = False
