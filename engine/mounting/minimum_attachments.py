"""The minimum number of attachments by rule of practice."""

from __future__ import annotations


def minimum_attachments(modules: int, runs: int) -> int:
    """Two attachments a module, and two for each unbroken run of modules (common practice, no source).

    Module makers ask for four points a module. Neighbours share them: that is two a module, and two more where a run
    ends.
    """
    return 2 * (modules + runs)
