"""Groups of parts, for the subtotals of a bill."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

GROUPS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "attachments": ("attachment", "screw", "seal"),
        "rails and racks": ("rail", "rack_beam", "splice", "leg", "brace"),
        "clamps and hooks": ("middle_clamp", "end_clamp", "module_hook"),
    }
)
"""Group → its parts, in the order of the bill."""

OTHER_PARTS = "other parts"
MODULES = "modules"
"""The modules' own group: they have labour, but no price here."""


def group_of(part: str) -> str:
    """The group of a part."""
    return next((group for group, parts in GROUPS.items() if part in parts), OTHER_PARTS)
