"""Leaves out the tests against the frame library where it is not installed (the extra `beams`)."""

from __future__ import annotations

from importlib.util import find_spec

collect_ignore = [] if find_spec("Pynite") else ["test_beams_by_frame_library.py"]
