"""What tests read from the column of a method that was checked."""

from __future__ import annotations

from engine.comparison.compare import Column
from engine.load_path.demands import Demands
from engine.load_path.roof_members import RoofMembers


def demands(of: Column) -> Demands:
    """The loads on all links."""
    assert of.candidate
    return of.candidate.demands


def members(of: Column) -> RoofMembers:
    """The loads on the members under the roof."""
    found = demands(of).roof_members
    assert found
    return found


def number(of: Column, name: str) -> int:
    """Number of the combination of this name."""
    return [each.name for each in demands(of).combinations].index(name)
