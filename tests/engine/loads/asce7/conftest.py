"""Lets the tests of this folder import `standards_fields`."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parent))
