"""Those who read the files of an export."""

from __future__ import annotations

REVIEWER, INSTALLER, ESTIMATOR, DRAFTER, DATA = READERS = ("reviewer", "installer", "estimator", "drafter", "data")
"""The readers by name; "data" are programs and notebooks."""
