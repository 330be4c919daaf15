"""The load standards."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from engine.loads.asce7.site import SEVEN_16, SEVEN_22
from engine.loads.asce7.standard import Asce7
from engine.loads.en1991.site import EN_1991
from engine.loads.en1991.standard import En1991
from engine.loads.interface import LoadStandard

STANDARDS: Mapping[str, type[LoadStandard]] = MappingProxyType({SEVEN_16: Asce7, SEVEN_22: Asce7, EN_1991: En1991})
"""Title as the scenario's `site.standard` names it → the standard."""
