"""Other processes of this computer."""

from __future__ import annotations

import os


def is_running(pid: str) -> bool:
    """True if another process of that number runs; False if this system cannot say so safely."""
    if os.name == "nt" or not pid.isdigit() or int(pid) == os.getpid():
        return False
    try:
        os.kill(int(pid), 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True
