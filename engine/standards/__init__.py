"""The load standards loadpath knows."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from engine.loads import LoadStandard
from engine.standards.asce7.site import SEVEN_16, SEVEN_22
from engine.standards.asce7.standard import Asce7

STANDARDS: Mapping[str, type[LoadStandard]] = MappingProxyType({SEVEN_16: Asce7, SEVEN_22: Asce7})
"""Title as the scenario's `site.standard` names it → the standard."""
